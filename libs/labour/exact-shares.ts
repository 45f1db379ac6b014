import { ok, type Result } from '#libs/kernel';
import type { LabourFault, LabourOperation } from './labour-operation.js';
import { stepTable, type StepTable } from './step-table.js';

export interface ExactShares {
  /** Each share is `numerators.get(id) / denominator` hundredths of an hour. */
  readonly numerators: ReadonlyMap<string, bigint>;
  readonly denominator: bigint;
}

/**
 * The Shapley value of the cost game "every distinct step is paid once", exactly: each step's hours are split evenly
 * among the operations that use it. No group of operations pays more than it would by itself.
 *
 * Source: S. C. Littlechild and G. Owen, "A simple expression for the Shapley value in a special case", Management
 * Science 20 (1973), for the best-known game of this kind (airport landing charges).
 */
export function exactShares(operations: readonly LabourOperation[]): Result<ExactShares, LabourFault> {
  const table = stepTable(operations);
  return table.ok ? ok(sharesOf(table.value)) : table;
}

/** How many operations use each pair. */
export function usersPerPair(pairs: StepTable['pairs']): Map<string, bigint> {
  const users = new Map<string, bigint>();
  for (const own of pairs.values()) {
    for (const key of own) users.set(key, (users.get(key) ?? 0n) + 1n);
  }
  return users;
}

export function sharesOf({ hours, pairs }: StepTable): ExactShares {
  const users = usersPerPair(pairs);
  const denominator = [...new Set(users.values())].reduce(
    (lcm, count) => (lcm / gcd(lcm, count)) * count,
    1n,
  );
  const numerators = new Map<string, bigint>();
  for (const [id, own] of pairs) {
    let share = 0n;
    for (const key of own) share += (hours.get(key) ?? 0n) * (denominator / (users.get(key) ?? 1n));
    numerators.set(id, share);
  }
  return { numerators, denominator };
}

function gcd(a: bigint, b: bigint): bigint {
  return b === 0n ? a : gcd(b, a % b);
}
