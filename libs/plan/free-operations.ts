import type { PlanModel } from './plan-model.js';

/** Operations that can be placed: not started, not hopeless. */
export function freeOperations(model: PlanModel): number[] {
  const free: number[] = [];
  for (let o = 0; o < model.operations; o++)
    if (model.isStarted[o] === 0 && model.isHopeless[o] === 0) free.push(o);
  return free;
}
