import { Dispatcher, RULES } from './dispatcher.js';
import type { DispatchRule } from './dispatcher.js';
import { Draft, GUIDE, HARD } from './draft.js';
import type { Placer } from './placer.js';

/** The rule whose plan is best, of those that are asked before time is short. */
export function bestRule(placer: Placer, free: readonly number[], isShort: () => boolean): DispatchRule {
  const dispatcher = new Dispatcher(placer, free);
  const draft = new Draft(placer.model, free);
  placer.begin(draft);
  let best = dispatcher.rule;
  let least = Infinity;
  for (const rule of RULES) {
    if (least < Infinity && isShort()) break;
    dispatcher.follow(rule);
    dispatcher.run(draft, dispatcher.keys, Infinity);
    const cost = (draft.cost[HARD] ?? 0) + (draft.cost[GUIDE] ?? 0);
    if (cost >= least) continue;
    best = rule;
    least = cost;
  }
  return best;
}
