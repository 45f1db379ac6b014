import { COSTS, FINISH, GUIDE, HARD } from './draft.js';
import type { StateShape } from './draft.js';
import { PER_MINUTE } from './plan-model.js';
import type { PlanModel } from './plan-model.js';

/** The floor before anything is placed: who and what is taken by work that was started, and what it costs already. */
export function floorAtStart(
  model: PlanModel,
  shape: StateShape,
  near: number,
  guideRate: number,
): { state: Int32Array; cost: Float64Array } {
  const state = new Int32Array(shape.size);
  const cost = new Float64Array(COSTS);
  state.fill(-1, shape.holder, shape.ready);
  for (let order = 0; order < model.orders; order++)
    state[shape.ready + order] = Math.min(0, model.due[order] ?? 0);
  state.fill(-1, shape.severalBay, shape.severalLeft);
  model.several.forEach((several, hold) => {
    if (several >= 0) state[shape.severalLeft + several] = model.holdSize[hold] ?? 0;
  });
  const later = (index: number, time: number): void =>
    void (state[index] = Math.max(state[index] ?? 0, time));
  for (const { operation: o, start, end, bay, technicians, tools } of model.started) {
    const order = model.order[o] ?? 0;
    for (const technician of technicians) later(technician, end);
    for (const tool of tools) later(model.tool0 + tool, end);
    later(shape.ready + order, end + (model.tail[o] ?? 0));
    if (bay < 0) continue;
    later(model.car0 + order, end);
    const hold = model.hold[o] ?? -1;
    const several = hold < 0 ? -1 : (model.several[hold] ?? -1);
    if (several < 0) {
      later(model.bay0 + bay, end);
      continue;
    }
    const isFirst = (state[shape.severalBay + several] ?? -1) < 0;
    const began = isFirst ? start : Math.min(start, state[shape.severalStart + several] ?? 0);
    state[shape.severalBay + several] = bay;
    state[shape.severalStart + several] = began;
    state[shape.severalWork + several] = (state[shape.severalWork + several] ?? 0) + end - start;
    const left = (state[shape.severalLeft + several] ?? 0) - 1;
    state[shape.severalLeft + several] = left;
    later(model.bay0 + bay, end);
  }
  holdBays(model, shape, state);
  for (let order = 0; order < model.orders; order++) {
    const ready = state[shape.ready + order] ?? 0;
    const due = model.due[order] ?? 0;
    const rate = (model.weight[order] ?? 0) * PER_MINUTE;
    const base = Math.min(0, due);
    cost[FINISH] = (cost[FINISH] ?? 0) + ready - base;
    cost[HARD] = (cost[HARD] ?? 0) + rate * Math.max(0, ready - due);
    const early = Math.max(due - near, base);
    cost[GUIDE] = (cost[GUIDE] ?? 0) + rate * guideRate * Math.max(0, ready - early);
  }
  return { state, cost };
}

/** Cars that are apart hold their bays: only what is left when all that was started is counted says which. */
function holdBays(model: PlanModel, shape: StateShape, state: Int32Array): void {
  model.several.forEach((several, hold) => {
    const bay = several < 0 ? -1 : (state[shape.severalBay + several] ?? -1);
    if (bay < 0 || (state[shape.severalLeft + several] ?? 0) <= 0) return;
    state[shape.holder + bay] = hold;
    state[shape.carHold + (model.order[model.hold.indexOf(hold)] ?? 0)] = several;
  });
}
