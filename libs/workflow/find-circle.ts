/**
 * Work orders that would wait for each other, in the order of waiting, the first one again at the end; null when every
 * one can come to its turn. `earlier` names for each work order those that must be finished before it.
 */
export function findCircle(earlier: ReadonlyMap<string, readonly string[]>): string[] | null {
  const settled = new Set<string>();
  for (const start of earlier.keys()) {
    const circle = walk(start, earlier, [], settled);
    if (circle !== null) return circle;
  }
  return null;
}

function walk(
  id: string,
  earlier: ReadonlyMap<string, readonly string[]>,
  path: readonly string[],
  settled: Set<string>,
): string[] | null {
  const met = path.indexOf(id);
  if (met >= 0) return [...path.slice(met), id];
  if (settled.has(id)) return null;
  for (const next of earlier.get(id) ?? []) {
    const circle = walk(next, earlier, [...path, id], settled);
    if (circle !== null) return circle;
  }
  settled.add(id);
  return null;
}
