import { Injectable, type OnModuleInit } from '@nestjs/common';
import { QueueTasks, Reactions } from '../../../platform/queue/index.js';
import { enqueuePlan, PLAN_IMPROVE_TASK, PLAN_LOOK_TASK, PLAN_TASK } from '../data/enqueue-plan.js';
import { lookOf } from '../data/look.js';
import { PLAN_KINDS } from '../queries/causes.query.js';
import { PlanRunner } from './plan-runner.js';

/** Lets the plan follow whatever happens in the shop. */
@Injectable()
export class PlanJobs implements OnModuleInit {
  constructor(
    private readonly tasks: QueueTasks,
    private readonly reactions: Reactions,
    private readonly runner: PlanRunner,
  ) {}

  onModuleInit(): void {
    this.tasks.add(PLAN_TASK, (job) => {
      const { late, look } = job.payload;
      const wish = { isBackground: false, look: lookOf(look), late: typeof late === 'number' ? late : 0 };
      return this.runner.run(job, wish);
    });
    this.tasks.add(PLAN_LOOK_TASK, (job) =>
      this.runner.run(job, { isBackground: false, look: lookOf(job.payload), late: 0 }),
    );
    this.tasks.add(PLAN_IMPROVE_TASK, (job) =>
      this.runner.run(job, { isBackground: true, look: null, late: 0 }),
    );
    this.reactions.on(PLAN_KINDS, (changes, tx) => {
      const isOwn = tx.actor.kind === 'system' && tx.actor.reason.startsWith(OWN);
      if (!isOwn && changes.some(({ subjects }) => !('planRunId' in subjects))) enqueuePlan(tx);
    });
  }
}

/** How the queue names the actor of these jobs. */
const OWN = `job ${PLAN_TASK}`;
