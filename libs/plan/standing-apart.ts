import type { PlanAssignment, PlanOperation } from './plan-problem.js';

/** How long the car of one repair order stands apart in bays, and how much of that nothing is done in a bay, in minutes. */
export interface StandingApart {
  readonly minutes: number;
  readonly blocked: number;
}

/** What the teardowns of a repair order take of bays, by the places that its operations have. */
export function standingApart(
  operations: readonly PlanOperation[],
  placeOf: (id: string) => PlanAssignment | undefined,
): StandingApart {
  const inBays = operations.flatMap(({ id, teardown, bay }) => {
    const is = placeOf(id);
    return bay == null || is === undefined ? [] : [{ teardown, is }];
  });
  const words = new Set(inBays.flatMap(({ teardown }) => teardown ?? []));
  let [minutes, blocked] = [0, 0];
  for (const word of words) {
    const own = inBays.filter(({ teardown }) => teardown === word);
    const from = Math.min(...own.map(({ is }) => is.start));
    const to = Math.max(...own.map(({ is }) => is.end));
    const inside = inBays.filter(({ is }) => is.start >= from && is.end <= to);
    minutes += to - from;
    blocked += to - from - inside.reduce((sum, { is }) => sum + is.end - is.start, 0);
  }
  return { minutes, blocked };
}
