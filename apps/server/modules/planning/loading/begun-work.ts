import type { PlanAssignment, PlanOperation, PlanPlace, PlanTechnician } from '#libs/plan';
import type { PlaceFacts } from './plan-facts.query.js';
import { endOfWork } from './minutes.js';
import type { Rosters, WorkInView } from './operation-of.js';
import type { OpenTeardown } from './plannable.js';
import { unitId } from './resources.js';
import type { PlanHorizon, PlanNote } from './shop-plan.js';

export interface Running {
  readonly operation: PlanOperation;
  /** From when its place is its own, where it is not just longer or shorter than its stored place. */
  readonly rowFrom: Date | null;
  readonly notes: readonly PlanNote[];
}

/** Bays and units of tools that work on the clock has, by whose car. */
export class InUse {
  private readonly bays = new Map<string, string>();
  private readonly units = new Set<string>();

  /** Whether nobody else has it; then this car does. Twice the same car in one bay is two people on one car. */
  takeBay(bayId: string, repairOrderId: string): boolean {
    if (this.bays.has(bayId)) return false;
    this.bays.set(bayId, repairOrderId);
    return true;
  }

  has(bayId: string, repairOrderId: string): boolean {
    return this.bays.get(bayId) === repairOrderId;
  }

  takeUnit(toolId: string, wanted: number | undefined, units: number): string[] {
    const all = wanted === undefined ? Array.from({ length: units }, (_, at) => at + 1) : [wanted];
    const free = all.map((unit) => unitId(toolId, unit)).find((id) => !this.units.has(id));
    if (free === undefined) return [];
    this.units.add(free);
    return [free];
  }
}

/**
 * Work on the clock is where it is: by whoever is on the clock, in the bay of its place, from the start of its place if
 * the clock was started within it, else from when it was, until what is left of it is done. Without a place nobody knows
 * in which bay the car stands; then it has none in the problem, and a note asks for it.
 */
export function running(
  operation: PlanOperation,
  { row, work, place }: WorkInView,
  horizon: PlanHorizon,
  rosters: Rosters,
  inUse: InUse,
  { unitsOf, past }: { readonly unitsOf: (toolId: string) => number; readonly past: readonly PlaceFacts[] },
): Running {
  const { now, minuteOf } = horizon;
  const entry = work.openEntry;
  if (entry === null) throw new Error('only work on the clock runs');
  const beganAt = new Date(entry.startedAt);
  const isInPlace = place !== null && place.startsAt <= beganAt && beganAt < place.endsAt;
  const start = isInPlace ? place.start : Math.min(now, minuteOf(beganAt));
  const end = Math.max(start + 1, endOfWork(rosters.of(entry.technicianId), now, operation.minutes));
  const isFree = place !== null && inUse.takeBay(place.bayId, row.repairOrderId);
  const bay = place !== null && isFree ? place.bayId : null;
  const isBesideAnother = place !== null && inUse.has(place.bayId, row.repairOrderId);
  const tools = (operation.tools ?? []).flatMap((toolId) =>
    inUse.takeUnit(toolId, place?.tools.find((tool) => tool.toolId === toolId)?.unit, unitsOf(toolId)),
  );
  const started = { start, end, bay, technicians: [entry.technicianId], tools };
  const isSame = isInPlace && place.technicianId === entry.technicianId && bay === place.bayId;
  const words = `Work order ${row.number} is on the clock, and nobody has said in which bay its car stands. Give it a place.`;
  return {
    operation: { ...operation, started, ...(bay === null ? { bay: null, teardown: null } : {}) },
    rowFrom: isSame ? null : afterOthers(isInPlace ? place.startsAt : beganAt, started, past),
    notes: bay === null && !isBesideAnother ? [{ about: 'work-order', id: row.id, words }] : [],
  };
}

/**
 * What is done keeps its place as it was stored, which may reach into the time in which the next work in its bay or by its
 * technician began: two rows cannot have it, so the later one has it from then on.
 */
function afterOthers(since: Date, { bay, technicians, tools }: PlanPlace, past: readonly PlaceFacts[]): Date {
  const ends = past.flatMap((other) => {
    const isShared =
      other.bayId === bay ||
      technicians.includes(other.technicianId) ||
      other.tools.some(({ toolId, unit }) => tools.includes(unitId(toolId, unit)));
    return isShared ? [Date.parse(other.endsAt)] : [];
  });
  return new Date(Math.max(since.getTime(), ...ends));
}

/** What keeps a bay for a car that stands apart, beside its work orders. */
export interface StandingCar {
  readonly repairOrderId: string;
  readonly operations: readonly PlanOperation[];
  readonly notes: readonly PlanNote[];
}

export const apartId = (word: string): string => `apart:${word}`;
export const heldId = (word: string): string => `held:${word}`;

/**
 * Somebody who stands for the unknown end of what cannot be planned, one for each teardown: works only when the calendars
 * have ended, so that the bay is held until then, and always in the same minute.
 */
export function nobodyFor(
  heldOperation: string,
  bay: string | null,
  start: number,
): { technician: PlanTechnician; previous: PlanAssignment } {
  const id = `nobody for ${heldOperation}`;
  return {
    technician: { id, works: [[start, start + 1]], skills: [{ skill: heldOperation }] },
    previous: { operation: heldOperation, start, end: start + 1, bay, technicians: [id], tools: [] },
  };
}

export const isHeldOperation = (id: string): boolean => id.startsWith(heldId(''));
export const wordOfHeld = (id: string): string => id.slice(heldId('').length);

/**
 * A car that stands apart keeps its bay although nobody works on it just now: a moment of work that is over holds it
 * from then on. Where something of its teardown cannot be planned, the bay is held until the calendars end.
 */
export function standingCar(
  { word, repairOrderId }: OpenTeardown,
  bayId: string,
  /** A minute at or before which nothing of this car is under way. */
  before: number,
  needs: { readonly isHeld: boolean; readonly isStuck: boolean; readonly bayName: string },
): StandingCar {
  const started = { start: before - 1, end: before, bay: bayId, technicians: [], tools: [] };
  const own = { minutes: 1, bay: {}, teardown: word };
  const words = `${needs.bayName} is held by a car that stands apart and waits for work that cannot be planned.`;
  return {
    repairOrderId,
    operations: [
      ...(needs.isHeld ? [] : [{ id: apartId(word), ...own, started }]),
      ...(needs.isStuck ? [{ id: heldId(word), ...own, skills: [heldId(word)], pin: { bay: bayId } }] : []),
    ],
    notes: needs.isStuck ? [{ about: 'bay', id: bayId, words }] : [],
  };
}
