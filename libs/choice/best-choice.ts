import { cents, fail, ok } from '#libs/kernel';
import type { Result } from '#libs/kernel';
import { BestGoal } from './best-goal.js';
import type { BudgetProblem, Choice, ChoiceProblemFault, Effort } from './choice-problem.js';
import { leastPrice } from './least-price.js';
import { networkOf } from './network.js';
import { priced } from './priced.js';
import type { Priced } from './priced.js';
import { Search } from './search.js';
import { shapeWithin } from './shape-within.js';
import { TabuWalk } from './tabu-walk.js';

/** Easy problems are over before this many nodes; beyond, a better first choice saves more than it costs. */
const EASY = 48;
/** Nodes that the exact search has before the walk takes its turns beside it. */
const HEAD_START = 512;
/** Nodes between two looks at the clock, and between two turns of the walk. */
const LOOK = 32;
const TURN = 256;
/**
 * Moves of the walk's first turn. Beyond this many lines each turn is longer than the last, as proof gets less likely; up to
 * it turns are rare, as the best is mostly found by then and what is left is to prove it.
 */
const MOVES = 1024;
const PROVABLE = 64;
const RARE_TURN = 1024;

/** What both searches find, each of them taking turns until one has proven the best or the time is up. */
function searchAll(
  { shape, prices }: Priced,
  budget: number,
  effort: Effort,
): (Omit<Choice, 'priceCents'> & { price: number }) | null {
  const goal = new BestGoal(budget);
  const start = effort.now();
  const isLate = (): boolean => effort.now() - start >= effort.timeLimitMs;
  let nodes = 0;
  let unexplored = -Infinity;
  const sides = prices.lowers.flatMap((lower) => {
    const within = shapeWithin(shape, lower);
    if (within === null) return [];
    const network = networkOf(lower, within);
    const terms = { shape: within, network, goal, exact: prices.exact };
    return [{ network, terms, walk: new TabuWalk({ ...terms, seed: effort.seed }) }];
  });
  const takeTurn = (walk: TabuWalk, moves: number): void => {
    for (let made = 0; made < moves && !isLate(); made += MOVES) walk.walk(MOVES, budget);
  };
  const isLarge = shape.ids.length > PROVABLE;
  for (const { walk } of sides) walk.walk(shape.ids.length, budget);
  for (const { terms, walk } of sides) {
    let turn = 0;
    const enough = (): boolean => {
      nodes++;
      if (nodes === EASY) walk.walk(2 * shape.ids.length, budget);
      if (nodes > HEAD_START && nodes % (isLarge ? TURN : RARE_TURN) === 0)
        takeTurn(walk, isLarge ? ++turn * MOVES : MOVES);
      return nodes % LOOK === 0 && isLate();
    };
    const search = new Search({ ...terms, enough });
    search.run(0, budget);
    unexplored = Math.max(unexplored, search.unexplored);
  }
  const { best } = goal;
  if (best === null) return null;
  const bound = Math.min(
    Math.floor(unexplored + 1e-6),
    shape.benefit.reduce((sum, one) => sum + one, 0),
  );
  return {
    chosen: best.lines.map((line) => shape.ids[line] ?? ''),
    benefit: best.benefit,
    price: best.price,
    proven: unexplored === -Infinity,
    upperBound: Math.max(best.benefit, bound),
    nodes,
  };
}

/**
 * The set with the most benefit whose price is within the budget and, among those, the least price. Exact: branch and
 * bound over a Lagrangian relaxation of the budget, which leaves a minimum cut (`CutBound`), helped by a tabu search;
 * when the time is up first, the best found, with `proven` false and a bound on what was missed.
 */
export function bestChoice(problem: BudgetProblem, effort: Effort): Result<Choice, ChoiceProblemFault> {
  const ready = priced(problem);
  if (!ready.ok) return ready;
  if (!Number.isSafeInteger(problem.budgetCents) || problem.budgetCents < 0)
    return fail('figure-invalid', 'The budget must be whole cents from zero up.', {
      fields: [{ pointer: '/budgetCents', detail: 'This must be a whole number from zero up.' }],
    });
  const found = searchAll(ready.value, problem.budgetCents, effort);
  if (found === null) {
    const least = leastPrice(ready.value, effort);
    return fail(
      'must-include-too-dear',
      `What must be included costs ${least} cents, more than the budget.`,
      {
        facts: { leastCents: least },
      },
    );
  }
  const { price, ...choice } = found;
  return ok({ ...choice, priceCents: cents(price) });
}
