import type { Period, PlanOperation, PlanPin } from '#libs/plan';
import type { WorkOrderFactsRow } from '../../work-orders/index.js';
import { expectedWork } from './expected-work.js';
import { apart, less, workedWithin } from './minutes.js';
import type { PlanFacts, WorkFacts } from './plan-facts.query.js';
import { partsAt } from './plannable.js';
import type { PlanHorizon, PlanNote, StoredPlace } from './shop-plan.js';

/** What an open work order is seen with on its way into the problem. */
export interface WorkInView {
  readonly row: WorkOrderFactsRow;
  readonly work: WorkFacts;
  readonly place: StoredPlace | null;
  /** The teardown that it belongs to. */
  readonly teardown: string | null;
  /** The bay in which its car stands apart. */
  readonly apartIn: string | null;
}

/** Who works when, as minutes; a pin may add to it. */
export class Rosters {
  private readonly works = new Map<string, readonly Period[]>();
  private readonly away = new Map<string, Period[]>();

  constructor(
    works: Iterable<readonly [technicianId: string, works: readonly Period[]]>,
    absences: PlanFacts['absences'],
    { minuteOf }: PlanHorizon,
  ) {
    for (const [id, periods] of works) this.works.set(id, periods);
    for (const { technicianId, from, to } of absences) {
      const known = this.away.get(technicianId) ?? [];
      this.away.set(technicianId, [...known, [minuteOf(new Date(from)), minuteOf(new Date(to))]]);
    }
  }

  readonly of = (technicianId: string): readonly Period[] => this.works.get(technicianId) ?? [];

  /** Minutes of [start, end) in which a technician is away, in or outside their shifts. */
  awayWithin(technicianId: string, start: number, end: number): number {
    return workedWithin(apart(this.away.get(technicianId) ?? []), start, end);
  }

  /**
   * That a person laid work down outside the shifts of its technician says that they work then, unless they are away:
   * they take over nothing else in this time, because the work fills it.
   */
  takeIn(technicianId: string, start: number, end: number): void {
    const works = this.of(technicianId);
    const isIn = (minute: number): boolean => works.some(([from, to]) => from <= minute && minute < to);
    if (isIn(start) && isIn(end - 1)) return;
    const more = less([[start, end]], this.away.get(technicianId) ?? []);
    const merged = [...less(works, more), ...more].sort((a, b) => a[0] - b[0]);
    this.works.set(technicianId, merged);
  }
}

/** What a work order asks of the floor, its time, and what it follows. */
export function operationOf(
  { row, work, teardown }: WorkInView,
  isInPlan: (workOrderId: string) => boolean,
  { minuteOf }: PlanHorizon,
): PlanOperation {
  const parts = partsAt(row);
  return {
    id: row.id,
    ...expectedWork(row, work.spread),
    after: row.earlier.filter(({ id, finished }) => !finished && isInPlan(id)).map(({ id }) => id),
    earliest: parts === null ? null : Math.max(0, minuteOf(parts)),
    bay: { lift: row.needsLift, liftKind: null, kinds: row.bayKinds },
    skills: row.skills,
    tools: row.tools.map(({ id }) => id).sort(),
    teardown,
  };
}

/**
 * Work that is not on the clock: whoever holds it does it, and what a person laid down stays as it was laid down, its
 * length included. A start that has passed, or lies before the parts or the car are there, cannot be kept: then bay and
 * technician are, the start is free, and a note says so.
 */
export function pinned(
  operation: PlanOperation,
  { row, place, apartIn }: WorkInView,
  arrives: number | null,
  { now }: PlanHorizon,
  rosters: Rosters,
): { operation: PlanOperation; notes: PlanNote[] } {
  const holder = row.claim?.technicianId ?? null;
  if (place?.isPinned !== true) {
    const pin = holder === null ? null : { technicians: [holder] };
    return { operation: { ...operation, pin }, notes: [] };
  }
  const notes: PlanNote[] = [];
  const note = (words: string): void =>
    void notes.push({ about: 'work-order', id: row.id, words: `Work order ${row.number} ${words}` });
  const technician = holder ?? place.technicianId;
  if (technician !== place.technicianId)
    note(
      `is pinned to somebody else than ${row.claim?.displayName ?? 'its holder'}, who holds it and does it.`,
    );
  const isElsewhere = apartIn !== null && apartIn !== place.bayId;
  if (isElsewhere)
    note('is pinned to another bay than the one in which its car stands apart; it stays there.');
  const pin: PlanPin = { technicians: [technician], ...(apartIn === null ? { bay: place.bayId } : {}) };
  const soonest = Math.max(operation.earliest ?? 0, arrives ?? 0);
  if (place.start < now) note('was pinned to a time that has passed. It keeps its bay and technician.');
  else if (place.start < soonest)
    note('is pinned to a time before its parts or its car are there. It keeps its bay and technician.');
  if (place.start < Math.max(now, soonest)) return { operation: { ...operation, pin }, notes };
  rosters.takeIn(technician, place.start, place.end);
  const minutes = lengthLaidDown(place, operation.minutes, rosters, technician);
  const { minutesP80 } = operation;
  return {
    operation: {
      ...operation,
      minutes,
      ...(minutesP80 === undefined ? {} : { minutesP80: Math.max(minutes, minutesP80) }),
      pin: { ...pin, start: place.start },
    },
    notes,
  };
}

/**
 * How much work a pinned place stands for. An absence that reaches into it makes the work no shorter: it goes on when its
 * technician is back. Where the plan let the place end later for that, it is no longer than its work once nobody is away.
 */
function lengthLaidDown(
  { start, end, planRunId }: StoredPlace,
  expected: number,
  rosters: Rosters,
  technician: string,
): number {
  const within = workedWithin(rosters.of(technician), start, end);
  const lost = rosters.awayWithin(technician, start, end);
  const least = Math.min(expected, within + lost);
  return Math.max(1, planRunId === null ? Math.max(within, least) : least);
}
