import type { ActivityMode, ProjectProblem } from './project-problem.js';

export type IndexedMode = ActivityMode & { readonly index: number };

const leastOf = (modes: readonly IndexedMode[], resource: number): number =>
  Math.min(...modes.map(({ consumes }) => consumes[resource] ?? 0));

/**
 * The modes that some best plan may use (Sprecher, Hartmann, Drexl 1997, from memory): not those that hold or use up more
 * than there is when all others use up their least, nor those that another mode of the activity is never worse than.
 */
export function usefulModes({ activities, renewable, nonrenewable }: ProjectProblem): IndexedMode[][] {
  let modes: IndexedMode[][] = activities.map(({ modes: all }) =>
    all
      .map((mode, index) => ({ ...mode, index }))
      .filter(
        ({ duration, holds }) =>
          // What takes no time holds nothing.
          duration === 0 || renewable.every((units, resource) => (holds[resource] ?? 0) <= units),
      ),
  );
  for (let before = Infinity, count = 0; count < before;) {
    before = modes.flat().length;
    const least = nonrenewable.map((_, resource) =>
      modes.reduce((sum, list) => sum + leastOf(list, resource), 0),
    );
    modes = modes.map((list) =>
      list
        .filter(({ consumes }) =>
          nonrenewable.every(
            (units, resource) =>
              (least[resource] ?? 0) - leastOf(list, resource) + (consumes[resource] ?? 0) <= units,
          ),
        )
        .filter((mode, at, rest) => !rest.some((other, place) => isNoWorse(other, mode, place < at))),
    );
    count = modes.flat().length;
  }
  return modes;
}

/** Whether a mode is no worse than another in everything; of two that are equal, the earlier one stays. */
function isNoWorse(mode: IndexedMode, than: IndexedMode, isEarlier: boolean): boolean {
  if (mode.index === than.index) return false;
  const pairs = [
    [mode.duration, than.duration] as const,
    ...than.holds.map((units, resource) => [mode.holds[resource] ?? 0, units] as const),
    ...than.consumes.map((units, resource) => [mode.consumes[resource] ?? 0, units] as const),
  ];
  return (
    pairs.every(([own, other]) => own <= other) && (isEarlier || pairs.some(([own, other]) => own < other))
  );
}
