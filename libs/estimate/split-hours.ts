/** Members joined by the hours that they share, directly or through others; by the index of one of each group. */
function groupsOf(members: readonly (readonly number[])[], isShared: (step: number) => boolean): number[] {
  const group = [...members.keys()];
  const rootOf = (at: number): number => {
    let root = at;
    while (group[root] !== root) root = group[root] ?? root;
    return root;
  };
  const firstUser = new Map<number, number>();
  members.forEach((steps, at) => {
    for (const step of steps) {
      if (!isShared(step)) continue;
      const other = firstUser.get(step);
      if (other === undefined) firstUser.set(step, at);
      else group[rootOf(at)] = rootOf(other);
    }
  });
  return group.map((_, at) => rootOf(at));
}

const gcd = (a: bigint, b: bigint): bigint => (b === 0n ? a : gcd(b, a % b));

/**
 * `shares` of libs/labour for members whose steps are small whole numbers: each step's hours split evenly among the
 * members that use it, whole hundredths by largest remainder within each group that shares hours, ties to the earlier
 * member. A step stands once in a member's list.
 */
export function splitHours(
  members: readonly (readonly number[])[],
  hoursOf: (step: number) => number,
): number[] {
  const users = new Map<number, number>();
  for (const steps of members) for (const step of steps) users.set(step, (users.get(step) ?? 0) + 1);
  const isShared = (step: number): boolean => (users.get(step) ?? 0) > 1 && hoursOf(step) > 0;
  const counts = new Set<number>();
  for (const [step, count] of users) if (isShared(step)) counts.add(count);
  const own = members.map((steps) =>
    steps.reduce((sum, step) => (isShared(step) ? sum : sum + hoursOf(step)), 0),
  );
  if (counts.size === 0) return own;

  const parts = [...counts].reduce((lcm, count) => (lcm / gcd(lcm, BigInt(count))) * BigInt(count), 1n);
  const shared = members.map((steps) => {
    const sums = new Map<number, number>();
    for (const step of steps) {
      if (!isShared(step)) continue;
      const count = users.get(step) ?? 1;
      sums.set(count, (sums.get(count) ?? 0) + hoursOf(step));
    }
    let weight = 0n;
    for (const [count, sum] of sums) weight += BigInt(sum) * (parts / BigInt(count));
    return { whole: Number(weight / parts), rest: weight % parts };
  });
  const left = new Map<number, bigint>();
  const group = groupsOf(members, isShared);
  group.forEach((root, at) => left.set(root, (left.get(root) ?? 0n) + (shared[at]?.rest ?? 0n)));
  for (const [root, rests] of left) left.set(root, rests / parts);
  const byRest = [...members.keys()].sort((a, b) => {
    const [x, y] = [shared[a]?.rest ?? 0n, shared[b]?.rest ?? 0n];
    return x === y ? a - b : x > y ? -1 : 1;
  });
  const raised = new Set<number>();
  for (const at of byRest) {
    const root = group[at] ?? at;
    const open = left.get(root) ?? 0n;
    if (open === 0n) continue;
    left.set(root, open - 1n);
    raised.add(at);
  }
  return own.map((hours, at) => hours + (shared[at]?.whole ?? 0) + (raised.has(at) ? 1 : 0));
}
