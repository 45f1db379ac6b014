import { cents, ok } from '#libs/kernel';
import type { Result } from '#libs/kernel';
import type { ChoiceProblem, ChoiceProblemFault, Effort, Ladder } from './choice-problem.js';
import { networkOf } from './network.js';
import { priced } from './priced.js';
import { Search } from './search.js';
import { shapeWithin } from './shape-within.js';
import { StairGoal } from './stair-goal.js';
import { TabuWalk } from './tabu-walk.js';

const LOOK = 64;
/** Budgets, evenly spread, at which the walk looks for good sets first; and the bands that are searched one by one. */
const BANDS = 16;

/**
 * The best choice at every budget, from the least that includes what must be included to everything that is worth having:
 * wherever it changes, one rung. Exact in the same way as `bestChoice`, with one search for a whole band of budgets.
 */
export function ladder(problem: ChoiceProblem, effort: Effort): Result<Ladder, ChoiceProblemFault> {
  const ready = priced(problem);
  if (!ready.ok) return ready;
  const { shape, prices } = ready.value;
  const goal = new StairGoal();
  const start = effort.now();
  let proven = true;
  for (const lower of prices.lowers) {
    const within = shapeWithin(shape, lower);
    if (within === null) continue;
    const network = networkOf(lower, within);
    const terms = { shape: within, network, goal, exact: prices.exact };
    let nodes = 0;
    const enough = (): boolean => ++nodes % LOOK === 0 && effort.now() - start >= effort.timeLimitMs;
    const all = [...network.own, ...network.weight].reduce((sum, one) => sum + one, network.base);
    const top = Math.ceil(all + network.slack);
    const walk = new TabuWalk({ ...terms, seed: effort.seed });
    for (let band = BANDS; band > 0; band--) walk.walk(2 * shape.ids.length, (top * band) / BANDS);
    for (let band = BANDS; band > 0; band--) {
      const search = new Search({ ...terms, enough });
      const low = band === 1 ? 0 : Math.floor((top * (band - 1)) / BANDS) + 1;
      search.run(low, Math.floor((top * band) / BANDS));
      if (search.unexplored > -Infinity) proven = false;
    }
  }
  return ok({
    rungs: goal.stairs.map(({ price, benefit, lines }) => ({
      priceCents: cents(price),
      benefit,
      chosen: lines.map((line) => shape.ids[line] ?? ''),
    })),
    proven,
  });
}
