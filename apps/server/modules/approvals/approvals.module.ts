import { Module } from '@nestjs/common';
import { EstimatesModule } from '../estimates/index.js';
import { ApprovalLinks } from './approval-links.js';
import { ApprovalLinksController } from './approval-links.controller.js';
import { DecisionsController } from './decisions.controller.js';
import { OwnerDoor } from './owner-door.js';
import { OwnerPages } from './owner-pages.js';
import { OwnerPagesController } from './owner-pages.controller.js';
import { OwnerSpending } from './owner-spending.js';

@Module({
  imports: [EstimatesModule],
  controllers: [DecisionsController, ApprovalLinksController, OwnerPagesController],
  providers: [OwnerDoor, ApprovalLinks, OwnerPages, OwnerSpending],
})
export class ApprovalsModule {}
