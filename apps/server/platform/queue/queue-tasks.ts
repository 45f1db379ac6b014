import { Injectable } from '@nestjs/common';
import type { RequestContext } from '../context.js';

/** One run of a job. */
export interface QueuedJob {
  readonly id: string;
  readonly task: string;
  readonly shopId: string;
  /** What was given to `tx.enqueue`, as JSON leaves it. */
  readonly payload: Readonly<Record<string, unknown>>;
  /** Which run of this job it is, from 1; a run that a killed process began counts. */
  readonly attempt: number;
  readonly maxAttempts: number;
  /** For the unit of work: the system acting for the shop of the job. */
  readonly ctx: RequestContext;
  /**
   * Aborted when the process stops or has lost its hold on the job, so that another may run it. Work that takes
   * longer than a second looks at it and ends by `signal.throwIfAborted()`.
   */
  readonly signal: AbortSignal;
}

/** Runs at least once, perhaps again after a crash: what it writes must bear being written twice. */
export type QueueHandler = (job: QueuedJob) => Promise<void>;

/** Which tasks this program can do. Modules add theirs in `onModuleInit`; a job of another name waits for a program that knows it. */
@Injectable()
export class QueueTasks {
  private readonly handlers = new Map<string, QueueHandler>();

  /** @throws Error for a name that is taken. */
  add(task: string, handler: QueueHandler): void {
    if (this.handlers.has(task)) throw new Error(`the task ${task} has a handler already`);
    this.handlers.set(task, handler);
  }

  get all(): ReadonlyMap<string, QueueHandler> {
    return this.handlers;
  }
}
