import type { DayPeriod, KindOfOperation, KindOfOrder, WhatIfFloor } from '#libs/what-if';

interface Resource {
  readonly id: string;
  /** Minutes a week. */
  readonly minutes: number;
}

interface Asked {
  readonly minutes: number;
  /** Those who could do it, or the bays in which it could be done. */
  readonly able: ReadonlySet<string>;
}

/** How many cars, of all kinds equally often, the floor could do in a week with its scarcest people or bays always busy. */
export function mostPerWeek(floor: WhatIfFloor, kinds: readonly KindOfOrder[]): number {
  const work = kinds.flatMap(({ operations, vehicle }) =>
    operations.map((operation) => ({ operation, weightKg: vehicle?.weightKg ?? 0 })),
  );
  const people = work.map(({ operation }) => ({
    minutes: operation.hours.minutes,
    able: namesOf(
      floor.technicians.filter(({ skills = [] }) =>
        (operation.skills ?? []).every((skill) => skills.includes(skill)),
      ),
    ),
  }));
  const places = work
    .filter(({ operation }) => operation.bay != null)
    .map(({ operation, weightKg }) => ({
      minutes: operation.hours.minutes,
      able: namesOf(floor.bays.filter((bay) => isFit(bay, operation, weightKg))),
    }));
  const technicians = floor.technicians.map(({ id, hours }) => ({ id, minutes: minutesOf(hours) }));
  const bays = floor.bays.map(({ id }) => ({ id, minutes: minutesOf(floor.opening) }));
  const times = Math.min(timesOver(technicians, people), timesOver(bays, places));
  // Where nothing can be done here, a car a day shows as much as any other number.
  return Number.isFinite(times) ? kinds.length * times : floor.opening.length;
}

/**
 * How often all of this work could be done with these resources. Work that only some of them can do is no help to the rest:
 * for each group that some work needs, what can be done nowhere else must fit into it (as in Hall's theorem on distinct
 * representatives, P. Hall 1935). What nobody can do is turned away and asks for nothing.
 */
function timesOver(resources: readonly Resource[], work: readonly Asked[]): number {
  const possible = work.filter(({ able }) => able.size > 0);
  const groups = [namesOf(resources), ...possible.map(({ able }) => able)];
  return Math.min(
    ...groups.map((group) => {
      const has = resources.reduce((sum, { id, minutes }) => sum + (group.has(id) ? minutes : 0), 0);
      const only = possible.filter(({ able }) => [...able].every((id) => group.has(id)));
      const asked = only.reduce((sum, { minutes }) => sum + minutes, 0);
      return asked === 0 ? Infinity : has / asked;
    }),
  );
}

function isFit(
  { kind = '', lift }: WhatIfFloor['bays'][number],
  { bay }: KindOfOperation,
  weightKg: number,
): boolean {
  const kinds = bay?.kinds ?? [];
  if (kinds.length > 0 && !kinds.includes(kind)) return false;
  return bay?.lift !== true || (lift != null && lift.capacityKg >= weightKg);
}

const namesOf = (things: readonly { readonly id: string }[]): ReadonlySet<string> =>
  new Set(things.map(({ id }) => id));

const minutesOf = (periods: readonly DayPeriod[]): number =>
  periods.reduce((sum, { from, to }) => sum + to - from, 0);
