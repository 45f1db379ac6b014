import { Module } from '@nestjs/common';
import { ChoicesController } from './choices.controller.js';
import { DraftContingenciesController } from './contingencies.controller.js';
import { LinesController } from './lines.controller.js';
import { LinkTokens } from './link-tokens.js';
import { RevisionsController } from './revisions.controller.js';
import { Choices } from './solving/choices.js';
import { SetsSolver } from './solving/sets-solver.js';

@Module({
  controllers: [LinesController, DraftContingenciesController, RevisionsController, ChoicesController],
  providers: [LinkTokens, SetsSolver, Choices],
  exports: [LinkTokens, SetsSolver, Choices],
})
export class EstimatesModule {}
