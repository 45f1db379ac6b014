import { fail, ok } from '#libs/kernel';
import type { Fault, Result } from '#libs/kernel';
import { dayPeriodFaults } from './check-description.js';
import type { WhatIfFloor } from './what-if-floor.js';

/** One thing that would be different. */
export type FloorChange =
  | { readonly kind: 'bay'; readonly like: string }
  | { readonly kind: 'bay-away'; readonly bay: string }
  | { readonly kind: 'technician'; readonly like: string }
  | { readonly kind: 'technician-away'; readonly technician: string }
  /** The shop is open then too, and these (all, when left out) work then. */
  | {
      readonly kind: 'day-open';
      readonly weekday: number;
      readonly from: number;
      readonly to: number;
      readonly technicians?: readonly string[];
    }
  | { readonly kind: 'tool'; readonly tool: string };

export type ChangeFault = Fault<'floor-change-not-possible'>;

const not = (pointer: string, detail: string): Result<never, ChangeFault> =>
  fail('floor-change-not-possible', detail, { fields: [{ pointer, detail }] });

/** The floor with this different. */
export function changeFloor(floor: WhatIfFloor, change: FloorChange): Result<WhatIfFloor, ChangeFault> {
  const { bays, technicians, tools = [] } = floor;
  switch (change.kind) {
    case 'bay': {
      const like = bays.find(({ id }) => id === change.like);
      if (like === undefined) return not('/like', `There is no bay "${change.like}".`);
      return ok({ ...floor, bays: [...bays, { ...like, id: another(bays, like.id) }] });
    }
    case 'bay-away':
      if (!bays.some(({ id }) => id === change.bay)) return not('/bay', `There is no bay "${change.bay}".`);
      return ok({ ...floor, bays: bays.filter(({ id }) => id !== change.bay) });
    case 'technician': {
      const like = technicians.find(({ id }) => id === change.like);
      if (like === undefined) return not('/like', `There is no technician "${change.like}".`);
      return ok({
        ...floor,
        technicians: [...technicians, { ...like, id: another(technicians, like.id) }],
      });
    }
    case 'technician-away':
      if (!technicians.some(({ id }) => id === change.technician))
        return not('/technician', `There is no technician "${change.technician}".`);
      return ok({ ...floor, technicians: technicians.filter(({ id }) => id !== change.technician) });
    case 'day-open':
      return openedOn(floor, change);
    case 'tool':
      return ok({ ...floor, tools: [...tools, { id: another(tools, change.tool), kind: change.tool }] });
  }
}

/** All of them, one after the other, so that a technician can be added and then work on a Saturday. */
export function changeFloorBy(
  floor: WhatIfFloor,
  changes: readonly FloorChange[],
): Result<WhatIfFloor, ChangeFault> {
  let changed: Result<WhatIfFloor, ChangeFault> = ok(floor);
  for (const change of changes) if (changed.ok) changed = changeFloor(changed.value, change);
  return changed;
}

function openedOn(
  floor: WhatIfFloor,
  { weekday, from, to, technicians }: Extract<FloorChange, { kind: 'day-open' }>,
): Result<WhatIfFloor, ChangeFault> {
  const period = { weekday, from, to };
  const faults: string[] = [];
  dayPeriodFaults(period, '', (_, detail) => void faults.push(detail));
  if (faults.length > 0) return not('', faults.join(' '));
  const unknown = technicians?.find((one) => !floor.technicians.some(({ id }) => id === one));
  if (unknown !== undefined) return not('/technicians', `There is no technician "${unknown}".`);
  return ok({
    ...floor,
    opening: [...floor.opening, period],
    technicians: floor.technicians.map((one) =>
      technicians === undefined || technicians.includes(one.id)
        ? { ...one, hours: [...one.hours, period] }
        : one,
    ),
  });
}

/** An id that nothing here has. */
function another(things: readonly { readonly id: string }[], like: string): string {
  const taken = new Set(things.map(({ id }) => id));
  let count = 2;
  while (taken.has(`${like} (${count})`)) count++;
  return `${like} (${count})`;
}
