import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { Worker } from 'node:worker_threads';
import { Injectable, OnModuleDestroy } from '@nestjs/common';
import type { FoundLadder, FoundSets, SetsQuestion } from '#libs/choice';
import { fail, ok, type Result } from '#libs/kernel';
import { pricingFault } from '../data/pricing-fault.js';
import { solve, type Asked, type Found, type Numbered } from './solve.js';

const WORKER = new URL('./sets-worker.js', import.meta.url);
/** Questions that wait for the thread; whoever comes after them is asked to come again. */
const MOST_WAITING = 24;
/** Answers that are kept: an owner looks at the same page several times, and nothing in an answer grows old. */
const MOST_KEPT = 400;
const MEMORY_MB = 256;

interface Waiting {
  readonly answer: (found: Found) => void;
  readonly lost: (error: Error) => void;
}

/** The sets for a budget, and the ladder of all budgets beside them. */
export interface Solved extends FoundSets {
  readonly ladder: FoundLadder;
}

/**
 * Finds the best sets beside the requests, in a thread of its own: sixty lines can take a second, during which the board
 * must go on. The thread starts with the first question, and anew after it broke. The same question has the same answer,
 * whenever it is asked: what it depends on is all in it.
 */
@Injectable()
export class SetsSolver implements OnModuleDestroy {
  private worker: Worker | undefined;
  private asked = 0;
  private readonly waiting = new Map<number, Waiting>();
  private readonly kept = new Map<string, Promise<Found>>();

  /** `too-many-requests` when too many wait already. */
  async solve(question: SetsQuestion): Promise<Result<Solved>> {
    // Of the ladder there is one for all budgets.
    const climbed = { ...question, budgetCents: null };
    const [sets, ladder] = await Promise.all([
      this.ask({ what: 'sets', question }) as Promise<Result<FoundSets>>,
      this.ask({ what: 'ladder', question: climbed }) as Promise<Result<FoundLadder>>,
    ]);
    if (!sets.ok) return sets;
    return ladder.ok ? ok({ ...sets.value, ladder: ladder.value }) : ladder;
  }

  async onModuleDestroy(): Promise<void> {
    await this.worker?.terminate();
  }

  private async ask(asked: Asked): Promise<Found> {
    const key = createHash('sha256').update(JSON.stringify(asked)).digest('base64');
    const known = this.kept.get(key);
    if (known !== undefined) return known;
    if (this.waiting.size >= MOST_WAITING)
      return fail(
        'too-many-requests',
        'Many questions like this are being worked on. Ask again in a few seconds.',
      );
    const answer = this.work(asked).then((found) => (found.ok ? found : pricingFault(found.fault)));
    this.kept.set(key, answer);
    for (const oldest of [...this.kept.keys()].slice(0, Math.max(0, this.kept.size - MOST_KEPT)))
      this.kept.delete(oldest);
    // What went wrong once may go right the next time.
    answer.catch(() => this.kept.delete(key));
    return answer;
  }

  private async work(asked: Asked): Promise<Found> {
    // The thread needs its built file beside this one; run from sources, as tests do, the answer is found right here.
    if (!existsSync(WORKER)) return solve(asked);
    const worker = (this.worker ??= this.start());
    const id = ++this.asked;
    return new Promise<Found>((answer, lost) => {
      this.waiting.set(id, { answer, lost });
      worker.postMessage({ id, about: asked } satisfies Numbered<Asked>);
    });
  }

  private start(): Worker {
    const worker = new Worker(WORKER, { resourceLimits: { maxOldGenerationSizeMb: MEMORY_MB } });
    // An idle thread is no reason for a process to stay.
    worker.unref();
    worker.on('message', ({ id, about }: Numbered<Found>) => {
      this.waiting.get(id)?.answer(about);
      this.waiting.delete(id);
    });
    let cause = new Error('the thread that finds sets has ended');
    worker.on('error', (error) => (cause = error));
    worker.on('exit', () => {
      if (this.worker === worker) this.worker = undefined;
      for (const { lost } of this.waiting.values()) lost(cause);
      this.waiting.clear();
    });
    return worker;
  }
}
