import { setTimeout as sleep } from 'node:timers/promises';
import { Inject, Injectable } from '@nestjs/common';
import type { Logger } from 'pino';
import { ok } from '#libs/kernel';
import { Clock } from '../../../platform/clock.js';
import type { Tx } from '../../../platform/database/tx.js';
import { UnitOfWork } from '../../../platform/database/unit-of-work.js';
import { ProblemError } from '../../../platform/http/problem-error.js';
import type { QueuedJob } from '../../../platform/queue/index.js';
import { LOGGER } from '../../../platform/tokens.js';
import { enqueuePlan } from '../data/enqueue-plan.js';
import { lookPayload } from '../data/look.js';
import { NO_LONGER_FITS } from '../data/no-longer-fits.js';
import { promisesBy } from '../data/promises.js';
import { storeRun } from '../data/run-row.js';
import type { PlanOutcome } from '../dto/plan-run.request.js';
import { PlanContributors } from '../loading/plan-contributors.js';
import { PlanningThread } from '../planning-thread/planning-thread.js';
import { seePlan, type RunWish, type SeenPlan } from './seen-plan.js';
import { storePlanRun } from './store-run.js';
import { thought, unthought, type ThoughtPlan } from './thought-plan.js';

/** How often in one job, before others have their turn, a plan is looked for when the floor has changed meanwhile. */
const ATTEMPTS = 3;
const PAUSE_MS = 50;
/** Jobs in a row that may come too late like that; then the next event is waited for. */
const MOST_LATE = 4;
const FIRST_WAIT_MS = 500;

/**
 * After these a late car may be ready sooner than before: something has come free. After the rest a plan that still holds
 * stays as it is, however late, since people have set themselves on it.
 */
const MAY_HELP: ReadonlySet<string> = new Set([
  ...[
    'asked',
    'assignment',
    'bay',
    'calendar',
    'decision',
    'part',
    'plan-settings',
    'reservation',
    'technician',
    'tool',
    'work-order',
  ],
]);

/**
 * One run of the plan: sees the shop, thinks with no transaction open, and stores what it found if that still fits. The
 * queue lets one of them run at a time in a shop. A process that is killed anywhere leaves nothing half done: what
 * happened counts as seen only with what came of it, so that the next run sees it again.
 */
@Injectable()
export class PlanRunner {
  constructor(
    private readonly uow: UnitOfWork,
    private readonly thread: PlanningThread,
    private readonly contributors: PlanContributors,
    private readonly clock: Clock,
    @Inject(LOGGER) private readonly log: Logger,
  ) {}

  async run(job: QueuedJob, wish: RunWish): Promise<void> {
    for (let attempt = 1; ; attempt += 1) {
      const seen = await this.uow.read(job.ctx, (tx) => seePlan(tx, wish, this.contributors.all));
      if (seen === null) return;
      const made = await this.think(seen);
      job.signal.throwIfAborted();
      if (typeof made === 'string') return this.close(job, seen, 'failed', made);
      const fits = await this.store(job, seen, made);
      if (fits === true) return;
      if (attempt === ATTEMPTS) return this.close(job, seen, 'outdated', fits);
      await sleep(PAUSE_MS * attempt, undefined, { signal: job.signal });
    }
  }

  /** A sentence when nothing could be thought of. */
  private async think(seen: SeenPlan): Promise<ThoughtPlan | string> {
    const { shop, asked, improve, causes, before } = seen;
    if (shop.mode === 'by-hand' && asked === null) return unthought(seen);
    const began = performance.now();
    const latenessBefore = causes.some(({ kind }) => MAY_HELP.has(kind)) ? 0 : before.lateness;
    const wish = { improve, ...(latenessBefore === null ? {} : { latenessBefore }) };
    const answer = await this.thread.ask({ what: 'replan', problem: shop.problem, wish });
    if (!answer.ok) {
      this.log.error({ fault: answer.fault }, 'the plan of a shop contradicts itself');
      return answer.fault.detail;
    }
    return thought(shop, answer.value, Math.round(performance.now() - began));
  }

  /** Why it no longer fits, be it that a check or that the database says so; then nothing is stored. */
  private async store(job: QueuedJob, seen: SeenPlan, made: ThoughtPlan): Promise<true | string> {
    const tools = { contributors: this.contributors.all, rate: this.clock.rate };
    try {
      await this.uow.run(job.ctx, (tx) => storePlanRun(tx, seen, made, tools));
      return true;
    } catch (error) {
      if (error instanceof ProblemError && NO_LONGER_FITS.has(error.fault.code)) return error.fault.detail;
      throw error;
    }
  }

  private async close(job: QueuedJob, seen: SeenPlan, outcome: PlanOutcome, detail: string): Promise<void> {
    if (seen.wish.isBackground) return;
    const isAgain = outcome === 'outdated' && seen.wish.late < MOST_LATE;
    await this.uow.run(job.ctx, async (tx) => {
      // What was asked for, and what happened, is still to be answered by the run that follows.
      const asked = isAgain ? null : seen.asked;
      const id = asked?.id ?? tx.newId();
      await storeRun(tx, {
        ...{ id, hasRow: asked !== null, improve: seen.improve, outcome },
        ...{ causes: seen.causes, eventsUntil: isAgain ? null : seen.eventsUntil, startedAt: seen.startedAt },
        detail: detail.slice(0, 1000),
        ...{ costBefore: null, cost: null, latenessBound: null, solveMs: null, changes: [], proposal: null },
        ...{ promises: { broken: [], kept: [] }, late: promisesBy(seen.shop, seen.kept).late },
      });
      if (isAgain) this.again(tx, seen);
      else tx.announce('plan', { planRunId: id });
      return ok(undefined);
    });
  }

  private again(tx: Tx, { wish }: SeenPlan): void {
    enqueuePlan(tx, FIRST_WAIT_MS * 3 ** wish.late, {
      late: wish.late + 1,
      ...(wish.look === null ? {} : { look: lookPayload(wish.look) }),
    });
  }
}
