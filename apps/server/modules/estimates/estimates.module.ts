import { Module } from '@nestjs/common';
import { LinesController } from './lines.controller.js';
import { LinkTokens } from './link-tokens.js';
import { RevisionsController } from './revisions.controller.js';

@Module({
  controllers: [LinesController, RevisionsController],
  providers: [LinkTokens],
  exports: [LinkTokens],
})
export class EstimatesModule {}
