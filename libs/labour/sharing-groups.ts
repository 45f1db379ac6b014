import type { StepTable } from './step-table.js';

/**
 * Operations in groups that share hours, directly or through others. A shared step of zero hours joins nobody: there is
 * nothing in it to split, and rounding must not move a hundredth between lines that owe each other nothing.
 */
export function sharingGroups({ hours, pairs }: StepTable): string[][] {
  const groupOf = new Map<string, string[]>();
  const firstUser = new Map<string, string>();
  for (const [id, own] of pairs) {
    groupOf.set(id, [id]);
    for (const key of own) {
      if ((hours.get(key) ?? 0n) === 0n) continue;
      const other = firstUser.get(key);
      if (other === undefined) firstUser.set(key, id);
      else joinGroups(groupOf, id, other);
    }
  }
  return [...new Set(groupOf.values())];
}

function joinGroups(groupOf: Map<string, string[]>, a: string, b: string): void {
  const left = groupOf.get(a) ?? [];
  const right = groupOf.get(b) ?? [];
  if (left === right) return;
  const [kept, moved] = left.length >= right.length ? [left, right] : [right, left];
  for (const id of moved) {
    kept.push(id);
    groupOf.set(id, kept);
  }
}
