import { Module } from '@nestjs/common';
import { PlanJobs } from './jobs/plan-jobs.js';
import { PlanRunner } from './jobs/plan-runner.js';
import { PlanContributors } from './loading/plan-contributors.js';
import { PlanController } from './plan.controller.js';
import { PlanPage } from './plan-page.js';
import { PlanRunsController } from './plan-runs.controller.js';
import { PlanSettingsController } from './plan-settings.controller.js';
import { PlanningThread } from './planning-thread/planning-thread.js';
import { Proposals } from './proposals.js';
import { WorkOrderPlanningController } from './work-order-planning.controller.js';

@Module({
  controllers: [PlanController, PlanSettingsController, PlanRunsController, WorkOrderPlanningController],
  providers: [PlanContributors, PlanningThread, PlanPage, PlanRunner, PlanJobs, Proposals],
  exports: [PlanContributors, PlanningThread],
})
export class PlanningModule {}
