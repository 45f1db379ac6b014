import type { LowerPrice } from './price-model.js';
import type { Shape } from './shape.js';

/**
 * A lower price laid out for the search. What a line needs is folded into its own costs, so that a set of lines together
 * with all that they need costs the union of what they use; equal users make equal costs one, a lone user makes a cost
 * its own. An arc is one use of a shared cost by a line.
 */
export interface Network {
  readonly base: number;
  readonly slack: number;
  readonly own: Float64Array;
  readonly weight: Float64Array;
  readonly arcs: number;
  /** By line: the shared costs it uses, and the arcs, in the same order. */
  readonly costsOf: readonly Int32Array[];
  readonly arcsOf: readonly Int32Array[];
  /** By shared cost: the lines that use it, and the arcs, in the same order. */
  readonly usersOf: readonly Int32Array[];
  readonly arcsInto: readonly Int32Array[];
}

function merged({ own, shared }: LowerPrice, shape: Shape): { own: Float64Array; costs: Map<string, Cost> } {
  const alone = new Float64Array(own.length);
  const costs = new Map<string, Cost>();
  const add = (amount: number, lines: readonly number[]): void => {
    const users = [...new Set(lines.flatMap((line) => [line, ...(shape.neededBy[line] ?? [])]))].sort(
      (a, b) => a - b,
    );
    const [only] = users;
    if (amount === 0 || only === undefined) return;
    if (users.length === 1) {
      alone[only] = (alone[only] ?? 0) + amount;
      return;
    }
    const key = users.join(' ');
    const known = costs.get(key);
    if (known === undefined) costs.set(key, { amount, users });
    else known.amount += amount;
  };
  own.forEach((amount, line) => add(amount, [line]));
  for (const { amount, lines } of shared) add(amount, lines);
  return { own: alone, costs };
}

interface Cost {
  amount: number;
  readonly users: readonly number[];
}

export function networkOf(lower: LowerPrice, shape: Shape): Network {
  const { own, costs } = merged(lower, shape);
  const list = [...costs.values()];
  const costsOf: number[][] = Array.from(own, () => []);
  const arcsOf: number[][] = Array.from(own, () => []);
  let arcs = 0;
  const arcsInto = list.map(({ users }, cost) =>
    Int32Array.from(users, (line) => {
      costsOf[line]?.push(cost);
      arcsOf[line]?.push(arcs);
      return arcs++;
    }),
  );
  return {
    base: lower.base,
    slack: lower.slack,
    own,
    weight: Float64Array.from(list, ({ amount }) => amount),
    arcs,
    costsOf: costsOf.map((of) => Int32Array.from(of)),
    arcsOf: arcsOf.map((of) => Int32Array.from(of)),
    usersOf: list.map(({ users }) => Int32Array.from(users)),
    arcsInto,
  };
}
