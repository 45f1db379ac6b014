import { Dispatcher, RULES } from './dispatcher.js';
import type { DispatchRule } from './dispatcher.js';
import { Draft, GUIDE, HARD } from './draft.js';
import type { PlanModel } from './plan-model.js';
import type { Placer } from './placer.js';

/** Minutes for which the time of somebody is spared of whom twice as much is asked as of others, tried in turn. */
const SPARED = [0, 60, 120, 20, 240];

/** How to begin: a rule, and how much each technician's time is spared. */
export interface Beginning {
  readonly rule: DispatchRule;
  readonly spared: Float64Array;
}

/**
 * How much more is asked of each technician than of others, if everything were shared out evenly among those who can do
 * it: 1 for twice the mean.
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

/** The rule and the sparing whose plan is best, of those that are asked before time is short; a few beside it by chance. */
export function bestBeginning(placer: Placer, free: readonly number[], isShort: () => boolean): Beginning {
  const dispatcher = new Dispatcher(placer, free);
  const draft = new Draft(placer.model, free);
  placer.begin(draft);
  const wanted = wantedOf(placer.model, free);
  let best = { rule: dispatcher.rule, by: 0 };
  let least = Infinity;
  const ask = (rule: DispatchRule, by: number): void => {
    if (least < Infinity && isShort()) return;
    dispatcher.follow(rule);
    placer.spared.set(wanted.map((much) => Math.round(much * by)));
    dispatcher.run(draft, dispatcher.keys, Infinity);
    const cost = (draft.cost[HARD] ?? 0) + (draft.cost[GUIDE] ?? 0);
    if (cost >= least) return;
    best = { rule, by };
    least = cost;
  };
  for (const by of SPARED) ask(best.rule, by);
  for (const rule of RULES) if (rule !== best.rule) ask(rule, best.by);
  for (const by of SPARED) if (by !== best.by) ask(best.rule, by);
  return { rule: best.rule, spared: wanted.map((much) => Math.round(much * best.by)) };
}
