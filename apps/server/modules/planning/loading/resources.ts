import { DateTime } from 'luxon';
import type { Period, PlanBay, PlanTechnician, PlanTool } from '#libs/plan';
import { liftGoodThrough } from '#libs/schedule';
import type { FloorCalendar } from '../../floor/index.js';
import { apart, minutesOfPeriods } from './minutes.js';
import type { BayFacts, PlanFacts } from './plan-facts.query.js';
import type { PlanHorizon, PlanNote } from './shop-plan.js';

/** The unit of a tool as a resource of the problem. */
export const unitId = (toolId: string, unit: number): string => `${toolId}#${unit}`;

/** Back from `unitId`. */
export function unitOf(id: string): { toolId: string; unit: number } {
  const [toolId = '', unit = '0'] = id.split('#');
  return { toolId, unit: Number(unit) };
}

/** Ids that the problem's work names and that must therefore be in it, gone from the floor or not. */
export interface Named {
  readonly technicians: ReadonlySet<string>;
  readonly bays: ReadonlySet<string>;
  readonly tools: ReadonlySet<string>;
}

/** Times that are taken by places that are not work of the problem, by id of the resource. */
export type Taken = ReadonlyMap<string, readonly Period[]>;

/** People, bays and tools as the problem has them. */
export interface Resources {
  readonly technicians: PlanTechnician[];
  readonly bays: PlanBay[];
  readonly tools: PlanTool[];
}

/** The first minute of the day after `day`, so that what ends on the day still ends before it. */
function dayAfter({ minuteOf, timeZone }: PlanHorizon, day: string): number {
  const after = DateTime.fromISO(day, { zone: timeZone }).plus({ days: 1 }).startOf('day');
  return Math.max(0, minuteOf(after.toJSDate()));
}

export function resourcesOf(
  horizon: PlanHorizon,
  calendar: FloorCalendar,
  facts: Pick<PlanFacts, 'bays'>,
  worksOf: (technicianId: string) => readonly Period[],
  named: Named,
  taken: Taken,
): Resources {
  const known = new Set(calendar.technicians.map(({ id }) => id));
  const whoLeft = [...named.technicians].filter((id) => !known.has(id));
  return {
    technicians: [
      ...calendar.technicians.map(({ id, skills }) => ({
        id,
        works: worksOf(id),
        engaged: taken.get(id) ?? [],
        skills: skills.map(({ skill, expiresOn }) => ({
          skill,
          until: expiresOn === null ? null : dayAfter(horizon, expiresOn),
        })),
      })),
      ...whoLeft.map((id) => ({ id, works: [] })),
    ],
    bays: baysOf(horizon, calendar, facts.bays, named.bays, taken),
    tools: toolsOf(horizon, calendar, named.tools, taken),
  };
}

function baysOf(
  horizon: PlanHorizon,
  calendar: FloorCalendar,
  bays: readonly BayFacts[],
  named: ReadonlySet<string>,
  taken: Taken,
): PlanBay[] {
  const open = new Map(calendar.bays.map((bay) => [bay.id, bay]));
  return bays.flatMap(({ id, kind, maxHeightMm, lift }) => {
    const found = open.get(id);
    if (found === undefined && !named.has(id)) return [];
    const last = lift === null ? null : liftGoodThrough(lift.inspectedOn);
    const out = found === undefined ? [wholly(horizon)] : minutesOfPeriods(horizon, found.outOfService);
    return [
      {
        ...{ id, kind, maxHeightMm },
        lift: lift && {
          kind: lift.kind,
          capacityKg: lift.capacityKg,
          until: last === null ? 0 : dayAfter(horizon, last),
        },
        outOfService: apart([...out, ...(taken.get(id) ?? [])]),
      },
    ];
  });
}

function toolsOf(
  horizon: PlanHorizon,
  calendar: FloorCalendar,
  named: ReadonlySet<string>,
  taken: Taken,
): PlanTool[] {
  const here = calendar.tools.map(({ id, unit, outOfService }) => ({
    id: unitId(id, unit),
    kind: id,
    outOfService: apart([...minutesOfPeriods(horizon, outOfService), ...(taken.get(unitId(id, unit)) ?? [])]),
  }));
  const known = new Set(here.map(({ id }) => id));
  const gone = [...named].filter((id) => !known.has(id));
  return [...here, ...gone.map((id) => ({ id, kind: unitOf(id).toolId, outOfService: [wholly(horizon)] }))];
}

const wholly = ({ until }: PlanHorizon): Period => [0, until];

/** People for whom nothing can be planned, because nobody has said when they work. */
export function withoutShifts({ technicians }: FloorCalendar): PlanNote[] {
  return technicians
    .filter(({ hasShifts }) => !hasShifts)
    .map(({ id, name }) => ({
      about: 'technician',
      id,
      words: `Nobody has said when ${name} works, so nothing is planned for ${name}. Enter the shifts.`,
    }));
}
