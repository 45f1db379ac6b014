import { parentPort } from 'node:worker_threads';
import { solve, type Asked, type Found, type Numbered } from './solve.js';

/** The thread in which sets are found, one question after the other, so that the server goes on answering meanwhile. */
parentPort?.on('message', ({ id, about }: Numbered<Asked>) => {
  parentPort?.postMessage({ id, about: solve(about) } satisfies Numbered<Found>);
});
