import { Dispatcher, RULES } from './dispatcher.js';
import type { DispatchRule } from './dispatcher.js';
import { Draft, GUIDE, HARD } from './draft.js';
import type { PlanModel } from './plan-model.js';
import type { Placer } from './placer.js';

/** Minutes for which the time of somebody is spared of whom half as much again is asked as of others, tried in turn. */
const SPARED = [60, 0, 120, 20, 240];

/** How to begin: a rule, and how much each technician's time is spared. */
export interface Beginning {
  readonly rule: DispatchRule;
  readonly spared: Float64Array;
}

/**
 * How much more is asked of each technician than of others, if everything were shared out evenly among those who can do
 * it: 1 for half as much again as the mean.
 */
function wantedOf(model: PlanModel, free: readonly number[]): Float64Array {
  const wanted = new Float64Array(model.technicians);
  let sum = 0;
  for (const o of free) {
    const [first, last] = [model.crewFirst[o] ?? 0, model.crewFirst[o + 1] ?? 0];
    for (let c = first; c < last; c++) {
      const minutes = (model.crewMinutes[c] ?? 0) / (last - first);
      const lead = model.crewLead[c] ?? 0;
      wanted[lead] = (wanted[lead] ?? 0) + minutes;
      sum += minutes;
    }
  }
  return wanted.map((minutes) => Math.max(0, (minutes * model.technicians) / Math.max(1, sum) - HALF));
}

/** Of whom less than half the mean is asked is not spared at all. */
const HALF = 0.5;

/** The rule and the sparing whose plan is best, of those that are asked before time is short. */
export function bestBeginning(placer: Placer, free: readonly number[], isShort: () => boolean): Beginning {
  const dispatcher = new Dispatcher(placer, free);
  const draft = new Draft(placer.model, free);
  placer.begin(draft);
  const wanted = wantedOf(placer.model, free);
  const spared = (by: number): Float64Array =>
    placer.spared.map((_, k) => Math.round((wanted[k % wanted.length] ?? 0) * by));
  let best = { rule: dispatcher.rule, by: 0 };
  let least = Infinity;
  const ask = (rule: DispatchRule, by: number): void => {
    if (least < Infinity && isShort()) return;
    dispatcher.follow(rule);
    placer.spared.set(spared(by));
    if (!dispatcher.run(draft, dispatcher.keys, least)) return;
    const cost = (draft.cost[HARD] ?? 0) + (draft.cost[GUIDE] ?? 0);
    if (cost >= least) return;
    best = { rule, by };
    least = cost;
  };
  for (const by of SPARED) for (const rule of RULES) ask(rule, by);
  return { rule: best.rule, spared: spared(best.by) };
}
