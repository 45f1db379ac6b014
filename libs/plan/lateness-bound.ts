import { FAR } from './far.js';
import { finishOf } from './finish-of.js';
import type { PlanModel } from './plan-model.js';

/**
 * Lateness that no plan can avoid: each repair order alone in the shop, its operations with whoever is done first by
 * the calendars, after parts and predecessors and one at a time in a bay. In weighted minutes; hopeless work is left out.
 */
export function latenessBound(model: PlanModel): number {
  const end = new Float64Array(model.operations).fill(-1);
  for (const { operation, end: over } of model.started) end[operation] = over;
  const free = new Float64Array(model.technicians);
  for (const { technicians, end: over } of model.started)
    for (const one of technicians) free[one] = Math.max(free[one] ?? 0, over);
  const endOf = (o: number): number => {
    const known = end[o] ?? -1;
    if (known >= 0) return known;
    let ready = Math.max(model.release[o] ?? 0, model.pinStart[o] ?? -1);
    const { first, item } = model.before;
    for (let k = first[o] ?? 0; k < (first[o + 1] ?? 0); k++) ready = Math.max(ready, endOf(item[k] ?? 0));
    let least = FAR;
    for (let c = model.crewFirst[o] ?? 0; c < (model.crewFirst[o + 1] ?? 0); c++) {
      const from = Math.max(ready, free[model.crewLead[c] ?? 0] ?? 0, free[model.crewHelper[c] ?? -1] ?? 0);
      if (from < FAR) least = Math.min(least, finishOf(model, c, from));
    }
    end[o] = least;
    return least;
  };
  const late = new Float64Array(model.orders);
  for (let o = 0; o < model.operations; o++) {
    const order = model.order[o] ?? 0;
    const over = endOf(o);
    if (over < FAR && model.isHopeless[o] !== 1)
      late[order] = Math.max(late[order] ?? 0, over - (model.due[order] ?? 0));
  }
  return late.reduce((sum, minutes, i) => sum + minutes * (model.problem.repairOrders[i]?.weight ?? 1), 0);
}
