import type { Period } from '#libs/plan';
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
        away: awayOf(one, facts.monday),
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
      calendarWords(facts),
      'Certificates and lift inspections are renewed in time.',
      ...(unknown.length === 0
        ? []
        : [`Nobody has said when ${unknown.join(', ')} work: they are there whenever the shop is open.`]),
    ],
  };
}

const count = (n: number, one: string): string => `${n} ${one}${n === 1 ? '' : 's'}`;

function calendarWords({ monday, closedDays, technicians }: FloorFacts): string {
  const absences = technicians.reduce((sum, one) => sum + one.absences.length, 0);
  const begins = `The years begin on Monday, ${monday}`;
  return closedDays.length + absences === 0
    ? `${begins}. Every week is the same: no closed days and no absences are entered from then on, and nothing is out of service.`
    : `${begins}, with what is entered from then on: ${count(closedDays.length, 'closed day')}, ${count(absences, 'absence')}. Nothing is out of service.`;
}

/** Minutes by the clock on the wall, which an hour that is changed at night does not move. */
function awayOf({ absences }: TechnicianFacts, monday: string): Period[] {
  const first = Date.parse(`${monday}T00:00Z`);
  const minute = (wall: string): number => (Date.parse(`${wall}Z`) - first) / 60_000;
  return absences.map(({ from, to }): Period => [minute(from), minute(to)]).filter(([from, to]) => from < to);
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
