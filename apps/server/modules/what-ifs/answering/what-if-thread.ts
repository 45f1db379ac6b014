import { existsSync } from 'node:fs';
import { Worker } from 'node:worker_threads';
import { Injectable } from '@nestjs/common';
import type { Result } from '#libs/kernel';
import type { Comparison } from '#libs/what-if';
import type { WhatIfQuestion } from '../data/what-if-question.js';
import { answer } from './answer.js';

const WORKER = new URL('./what-if-worker.js', import.meta.url);
const MEMORY_MB = 512;

/** Replays years beside the requests. They take minutes and nobody waits for them, so each question has a thread to itself. */
@Injectable()
export class WhatIfThread {
  /** Rejects when the signal is aborted, and ends the thread then. */
  async answer(question: WhatIfQuestion, signal: AbortSignal): Promise<Result<Comparison>> {
    signal.throwIfAborted();
    // The thread needs its built file beside this one; run from sources, as tests do, the answer is found right here.
    if (!existsSync(WORKER)) return answer(question);
    const worker = new Worker(WORKER, {
      workerData: question,
      resourceLimits: { maxOldGenerationSizeMb: MEMORY_MB },
    });
    worker.unref();
    const stop = (): void => void worker.terminate();
    signal.addEventListener('abort', stop, { once: true });
    try {
      return await new Promise<Result<Comparison>>((done, lost) => {
        worker.on('message', done);
        worker.on('error', lost);
        worker.on('exit', () => lost(new Error('the thread that replays years has ended')));
      });
    } finally {
      signal.removeEventListener('abort', stop);
      await worker.terminate();
    }
  }
}
