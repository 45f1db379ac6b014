import { parentPort } from 'node:worker_threads';
import { compute, type AskedOfPlan, type FoundInPlan, type Numbered } from './compute.js';

/** The thread in which plans are computed, one question after the other, so that the server goes on answering. */
parentPort?.on('message', ({ id, about }: Numbered<AskedOfPlan>) => {
  const found = compute(about);
  parentPort?.postMessage({ id, about: found } satisfies Numbered<FoundInPlan[AskedOfPlan['what']]>);
});
