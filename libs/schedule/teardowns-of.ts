/** Pieces of work that all have one step at one position: a bumper that comes off once for all of them. */
export interface SharedStep {
  readonly work: readonly string[];
}

/**
 * The teardown that each piece of work of a car belongs to, by its smallest id; work that shares nothing has none.
 *
 * Two pieces of work of one car that have the same step at the same position in the operations that their lines were
 * frozen with are one teardown: the step is done once, the car is apart from the first of them to the last, and while
 * it is apart it cannot be moved. What shares a step with something that shares another step with a third is one
 * teardown with it (connected components), because the car never gets whole in between.
 */
export function teardownsOf(shared: readonly SharedStep[]): Map<string, string> {
  const root = new Map<string, string>();
  const find = (id: string): string => {
    let top = id;
    for (let above = root.get(top); above !== undefined && above !== top; above = root.get(top)) top = above;
    for (let at = id; at !== top;) {
      const above = root.get(at) ?? top;
      root.set(at, top);
      at = above;
    }
    return top;
  };
  for (const { work } of shared) {
    if (new Set(work).size < 2) continue;
    for (const id of work) {
      if (!root.has(id)) root.set(id, id);
      const [one, other] = [find(work[0] ?? id), find(id)];
      if (one !== other) root.set(one < other ? other : one, one < other ? one : other);
    }
  }
  return new Map([...root.keys()].map((id) => [id, find(id)]));
}
