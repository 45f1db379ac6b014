import { Injectable, type OnModuleInit } from '@nestjs/common';
import { ok, type Result } from '#libs/kernel';
import type { Comparison } from '#libs/what-if';
import type { Tx } from '../../../platform/database/tx.js';
import { UnitOfWork } from '../../../platform/database/unit-of-work.js';
import { QueueTasks, type QueuedJob } from '../../../platform/queue/index.js';
import { enqueueWhatIf, WHAT_IF_TASK } from '../data/what-if-task.js';
import { WhatIfRow } from '../data/what-if.entity.js';
import { WhatIfThread } from './what-if-thread.js';

/** Answers what was asked. A job that runs again after a crash finds the answer there, or the question still open. */
@Injectable()
export class WhatIfJobs implements OnModuleInit {
  /** One at a time in a process: a replay takes minutes, and the few runners of the queue are there for the plan too. */
  private isBusy = false;

  constructor(
    private readonly uow: UnitOfWork,
    private readonly tasks: QueueTasks,
    private readonly thread: WhatIfThread,
  ) {}

  onModuleInit(): void {
    this.tasks.add(WHAT_IF_TASK, (job) => this.run(job));
  }

  private async run(job: QueuedJob): Promise<void> {
    const id = String(job.payload['whatIfId']);
    if (this.isBusy) {
      await this.uow.run(job.ctx, (tx) => {
        enqueueWhatIf(tx, id, LATER_MS);
        return Promise.resolve(ok(undefined));
      });
      return;
    }
    this.isBusy = true;
    try {
      await this.answer(job, id);
    } finally {
      this.isBusy = false;
    }
  }

  private async answer(job: QueuedJob, id: string): Promise<void> {
    const open = await this.uow.run(job.ctx, async (tx) => ok(await begin(tx, id)));
    if (open === null) return;
    try {
      const found = await this.thread.answer(open.question, job.signal);
      await this.uow.run(job.ctx, (tx) => end(tx, id, found));
    } catch (error) {
      if (job.signal.aborted || job.attempt < job.maxAttempts) throw error;
      const given = { ok: false, fault: { code: 'server-error', detail: GIVEN_UP } } as const;
      await this.uow.run(job.ctx, (tx) => end(tx, id, given));
      throw error;
    }
  }
}

/** Until a question that found the process busy comes again. */
const LATER_MS = 10_000;

const GIVEN_UP =
  'Something went wrong here each time that it was tried. Ask again, with fewer weeks or years.';

/** The question while it has no answer; null when it has one or is gone. */
async function begin(tx: Tx, id: string): Promise<WhatIfRow | null> {
  const row = await tx.em.findOneBy(WhatIfRow, { shopId: tx.shopId, id });
  if (row === null || row.endedAt !== null) return null;
  if (row.startedAt !== null) return row;
  await tx.em.update(WhatIfRow, { shopId: tx.shopId, id }, { startedAt: tx.now });
  tx.announce('what-if', { whatIfId: id });
  return row;
}

async function end(tx: Tx, id: string, found: Result<Comparison>): Promise<Result<void>> {
  const row = await tx.em.findOne(WhatIfRow, {
    where: { shopId: tx.shopId, id },
    lock: { mode: 'pessimistic_write' },
  });
  if (row === null || row.endedAt !== null) return ok(undefined);
  await tx.em.update(
    WhatIfRow,
    { shopId: tx.shopId, id },
    { endedAt: tx.now, ...(found.ok ? { answer: found.value } : { failedReason: found.fault.detail }) },
  );
  tx.announce('what-if', { whatIfId: id });
  return ok(undefined);
}
