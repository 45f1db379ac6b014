import type { DayPeriod, WhatIfFloor } from '#libs/what-if';
import type { FloorFacts, TechnicianFacts } from '../queries/what-if-shop.query.js';

const WORK_DAYS = [1, 2, 3, 4, 5];

/** The shop's floor for the replay, and what had to be taken to be so. */
export function floorOfShop(facts: FloorFacts): { floor: WhatIfFloor; assumed: string[] } {
  const { technicians, bays, tools, dayStartsMinute: from, dayEndsMinute: to } = facts;
  const known = technicians.filter(({ shifts }) => shifts.length > 0);
  const days = [...new Set(known.flatMap(({ shifts }) => shifts.map(({ weekday }) => weekday)))].sort();
  const openDays = days.length === 0 ? WORK_DAYS : days;
  const opening = openDays.map((weekday) => ({ weekday, from, to }));
  const unknown = technicians.filter(({ shifts }) => shifts.length === 0).map(({ name }) => name);
  return {
    floor: {
      opening,
      technicians: technicians.map((one) => ({
        id: one.id,
        hours: one.shifts.length === 0 ? opening : hoursOf(one),
        skills: one.skills,
      })),
      bays: bays.map(({ id, kind, maxHeightMm, liftKind, capacityKg }) => ({
        ...{ id, kind, maxHeightMm },
        lift: liftKind === null ? null : { kind: liftKind, capacityKg: capacityKg ?? 0 },
      })),
      tools: tools.flatMap(({ id, units }) =>
        Array.from({ length: units }, (_, unit) => ({ id: `${id}#${unit + 1}`, kind: id })),
      ),
    },
    assumed: [
      'The shop is open on the days on which somebody has a shift, from its opening to its closing time; what lies outside that is not worked.',
      'Every week is the same: no holidays, no absences, nothing out of service.',
      'Certificates and lift inspections are renewed in time.',
      ...(unknown.length === 0
        ? []
        : [`Nobody has said when ${unknown.join(', ')} work: they are there whenever the shop is open.`]),
    ],
  };
}

function hoursOf({ shifts }: TechnicianFacts): DayPeriod[] {
  return shifts.flatMap(({ weekday, from, to, breakFrom, breakTo }) =>
    breakFrom === null || breakTo === null
      ? [{ weekday, from, to }]
      : [
          { weekday, from, to: breakFrom },
          { weekday, from: breakTo, to },
        ].filter((period) => period.from < period.to),
  );
}
