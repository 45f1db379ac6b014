import type { PlanRepairOrder } from './plan-problem.js';

/** Whether operation `a` must be over before `b` starts, at any distance: `before[a * n + b] === 1`. */
export function reachOf(order: PlanRepairOrder): Uint8Array {
  const n = order.operations.length;
  const index = new Map(order.operations.map(({ id }, i) => [id, i]));
  const before = new Uint8Array(n * n);
  order.operations.forEach(({ after }, b) => {
    for (const id of after ?? []) {
      const a = index.get(id);
      if (a !== undefined) before[a * n + b] = 1;
    }
  });
  for (let k = 0; k < n; k++)
    for (let a = 0; a < n; a++)
      if (before[a * n + k] === 1)
        for (let b = 0; b < n; b++) if (before[k * n + b] === 1) before[a * n + b] = 1;
  return before;
}

/**
 * For each operation the number of the bay hold that it belongs to, -1 when it needs no bay. A teardown is one hold, an
 * operation outside of one has its own. What must be done between two operations of a teardown is done while the car
 * is apart, so it belongs to it, and teardowns that run into each other so are one.
 */
export function holdsOf(order: PlanRepairOrder, before: Uint8Array): number[] {
  const { operations } = order;
  const n = operations.length;
  const byWord = new Map<string, number>();
  const hold = operations.map(({ bay, teardown }, i) => {
    if (bay == null) return -1;
    if (teardown == null) return i;
    const known = byWord.get(teardown) ?? i;
    byWord.set(teardown, known);
    return known;
  });
  const isBetween = (a: number, x: number, b: number): boolean =>
    before[a * n + x] === 1 && before[x * n + b] === 1;
  for (let changed = true; changed;) {
    changed = false;
    for (let a = 0; a < n; a++)
      for (let b = 0; b < n; b++) {
        const [own, others] = [hold[a] ?? -1, hold[b] ?? -1];
        if (own < 0 || own !== others || a === b) continue;
        for (let x = 0; x < n; x++) {
          const third = hold[x] ?? -1;
          if (third < 0 || third === own || !isBetween(a, x, b)) continue;
          for (let y = 0; y < n; y++) if (hold[y] === third) hold[y] = own;
          changed = true;
        }
      }
  }
  return hold;
}
