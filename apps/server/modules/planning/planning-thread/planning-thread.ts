import { existsSync } from 'node:fs';
import { Worker } from 'node:worker_threads';
import { Injectable, type OnModuleDestroy } from '@nestjs/common';
import { problem } from '../../../platform/http/problem-error.js';
import { compute, isLong, type AskedOfPlan, type FoundInPlan, type Numbered } from './compute.js';

const WORKER = new URL('./planning-worker.js', import.meta.url);
/** Questions that wait in one lane; whoever comes after them is asked to come again. */
const MOST_WAITING = 24;
const MEMORY_MB = 512;

type Found = FoundInPlan[AskedOfPlan['what']];

interface Waiting {
  readonly answer: (found: Found) => void;
  readonly lost: (error: Error) => void;
}

/** A thread and what waits for it. It starts with the first question, and anew after it broke. */
class Lane {
  private worker: Worker | undefined;
  private asked = 0;
  private readonly waiting = new Map<number, Waiting>();

  ask(asked: AskedOfPlan): Promise<Found> {
    if (this.waiting.size >= MOST_WAITING)
      throw problem(
        'too-many-requests',
        'Many questions about the plan are being worked on. Ask again in a few seconds.',
      );
    const worker = (this.worker ??= this.start());
    const id = ++this.asked;
    return new Promise<Found>((answer, lost) => {
      this.waiting.set(id, { answer, lost });
      worker.postMessage({ id, about: asked } satisfies Numbered<AskedOfPlan>);
    });
  }

  async end(): Promise<void> {
    await this.worker?.terminate();
  }

  private start(): Worker {
    const worker = new Worker(WORKER, { resourceLimits: { maxOldGenerationSizeMb: MEMORY_MB } });
    // An idle thread is no reason for a process to stay.
    worker.unref();
    worker.on('message', ({ id, about }: Numbered<Found>) => {
      this.waiting.get(id)?.answer(about);
      this.waiting.delete(id);
    });
    let cause = new Error('the thread that makes plans has ended');
    worker.on('error', (error) => (cause = error));
    worker.on('exit', () => {
      if (this.worker === worker) this.worker = undefined;
      for (const { lost } of this.waiting.values()) lost(cause);
      this.waiting.clear();
    });
    return worker;
  }
}

/**
 * Computes plans beside the requests. Improving a plan takes seconds and has a thread of its own: nobody who asks when a
 * car is ready waits for it. Throws `too-many-requests` when too many wait already, and what broke a thread.
 */
@Injectable()
export class PlanningThread implements OnModuleDestroy {
  private readonly quick = new Lane();
  private readonly long = new Lane();

  async ask<What extends AskedOfPlan['what']>(
    asked: Extract<AskedOfPlan, { what: What }>,
  ): Promise<FoundInPlan[What]> {
    // The thread needs its built file beside this one; run from sources, as tests do, the answer is found right here.
    const found = existsSync(WORKER) ? (isLong(asked) ? this.long : this.quick).ask(asked) : compute(asked);
    return (await found) as FoundInPlan[What];
  }

  async onModuleDestroy(): Promise<void> {
    await Promise.all([this.quick.end(), this.long.end()]);
  }
}
