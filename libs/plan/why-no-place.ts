import { crewsOf } from './crew-choice.js';
import { FAR } from './far.js';
import type { PlanOperation, PlanPin, PlanPlace, PlanProblem, PlanRepairOrder } from './plan-problem.js';

export const NO_PLACE_REASONS = [
  'nobody-qualified',
  'nobody-works',
  'no-such-bay',
  'too-high',
  'no-lift',
  'weight-unknown',
  'lift-too-weak',
  'lift-not-inspected',
  'tool-missing',
  'pinned',
  'no-room',
] as const;
export type NoPlaceReason = (typeof NO_PLACE_REASONS)[number];

/** Why there is no place for a repair order; what is not about it is left out. */
export interface NoPlace {
  readonly reason: NoPlaceReason;
  /** The operation that is in the way; null when it is only that there is no room for them. */
  readonly operation: string | null;
  /** Of `nobody-qualified`: what would have to be held, by one person or by the two of a crew. */
  readonly skills?: readonly string[];
  /** Of `tool-missing`. */
  readonly toolKind?: string;
  readonly weightKg?: number;
  /** The most that a lift here carries, of those that would suit otherwise. */
  readonly strongestKg?: number;
  readonly heightMm?: number;
  /** Of `pinned`: what a person laid down, without which there would be a place, or there might be. */
  readonly pin?: PlanPin;
  /** Of `pinned`: what is fixed at that time in that bay or with those people; null when it is not that. */
  readonly by?: string | null;
  /** Of `pinned`: true when it cannot be met whatever else is planned; else the calendars may be full as well. */
  readonly isSure?: boolean;
  /** The highest vehicle that a bay here takes, of those that would suit otherwise. */
  readonly highestMm?: number;
}

/**
 * The first thing about this shop that rules a repair order out, whatever the time: a skill that nobody holds, working
 * times that nobody has entered, a bay, a lift or a tool that is not there. Where only the operation's own pin rules it out, and
 * where each operation could be done and one is pinned, the pin is named. `no-room` when only the calendars are full. That a
 * teardown needs one bay for all of its operations is not looked at.
 */
export function whyNoPlace(problem: PlanProblem, order: PlanRepairOrder): NoPlace {
  const since = Math.max(problem.now, order.arrives ?? 0);
  for (const operation of order.operations) {
    const found = ownReason(problem, order, operation, since);
    if (found === null) continue;
    const isByPin = ownReason(problem, order, { ...operation, pin: null }, since) === null;
    return isByPin ? { ...pinned(problem, operation), isSure: true } : found;
  }
  const laidDown = order.operations.find(isPinned);
  return laidDown === undefined ? { reason: 'no-room', operation: null } : pinned(problem, laidDown);
}

function ownReason(
  problem: PlanProblem,
  order: PlanRepairOrder,
  operation: PlanOperation,
  since: number,
): NoPlace | null {
  const bay = operation.pin?.bay ?? null;
  const bays = bay === null ? problem.bays : problem.bays.filter(({ id }) => id === bay);
  return (
    crewReason(problem, operation, since) ??
    bayReason({ ...problem, bays }, order, operation, since) ??
    toolReason(problem, operation)
  );
}

const isPinned = ({ pin, started }: PlanOperation): boolean =>
  started == null && (pin?.start ?? pin?.bay ?? pin?.technicians?.[0] ?? null) !== null;

/** Two things laid down for one time, one bay or one person: the other one is named. */
function pinned(problem: PlanProblem, operation: PlanOperation): NoPlace {
  const { id, minutes } = operation;
  const pin = operation.pin ?? {};
  const start = pin.start ?? null;
  const isThere = (other: PlanOperation): boolean => {
    const place = fixedPlace(other);
    if (start === null || place === null || other.id === id) return false;
    const isShared =
      (place.bay !== null && place.bay === pin.bay) ||
      place.technicians.some((one) => pin.technicians?.includes(one));
    return isShared && place.start < start + minutes && start < place.end;
  };
  const by = problem.repairOrders.flatMap(({ operations }) => operations).find(isThere)?.id ?? null;
  return { reason: 'pinned', operation: id, pin, by, isSure: by !== null };
}

/** Where work stands that does not move; pauses in it make it only longer. */
function fixedPlace({ started, pin, minutes }: PlanOperation): Omit<PlanPlace, 'tools'> | null {
  if (started != null) return started;
  const start = pin?.start ?? null;
  return start === null
    ? null
    : { start, end: start + minutes, bay: pin?.bay ?? null, technicians: pin?.technicians ?? [] };
}

function crewReason(problem: PlanProblem, operation: PlanOperation, since: number): NoPlace | null {
  const crews = crewsOf(operation, problem.technicians);
  const able = crews.filter(({ until }) => until > since);
  const isThere = (index: number): boolean =>
    index < 0 || (problem.technicians[index]?.works.some(([, to]) => to > since) ?? false);
  if (able.some(({ lead, helper }) => isThere(lead) && isThere(helper))) return null;
  if (able.length > 0) return { reason: 'nobody-works', operation: operation.id };
  const skills = [...new Set([...(operation.skills ?? []), ...(operation.helperSkills ?? [])])];
  return { reason: 'nobody-qualified', operation: operation.id, skills };
}

function bayReason(
  { bays }: PlanProblem,
  { vehicle }: PlanRepairOrder,
  operation: PlanOperation,
  since: number,
): NoPlace | null {
  const need = operation.bay ?? null;
  if (need === null) return null;
  const say = (reason: NoPlaceReason, more: Partial<NoPlace> = {}): NoPlace => ({
    reason,
    operation: operation.id,
    ...more,
  });
  const kinds = need.kinds ?? [];
  const ofKind = bays.filter(({ kind }) => kinds.length === 0 || kinds.includes(kind ?? ''));
  if (ofKind.length === 0) return say('no-such-bay');
  const [weightKg, heightMm] = [vehicle?.weightKg ?? null, vehicle?.heightMm ?? null];
  const highEnough = ofKind.filter(({ maxHeightMm }) => (maxHeightMm ?? FAR) >= (heightMm ?? 0));
  if (highEnough.length === 0 && heightMm !== null)
    return say('too-high', {
      heightMm,
      highestMm: Math.max(...ofKind.map((bay) => bay.maxHeightMm ?? 0)),
    });
  if (need.lift !== true) return null;
  const lifts = highEnough.flatMap(({ lift }) =>
    lift == null || (need.liftKind ?? lift.kind) !== lift.kind ? [] : [lift],
  );
  if (lifts.length === 0) return say('no-lift');
  if (weightKg === null) return say('weight-unknown');
  const strong = lifts.filter(({ capacityKg }) => capacityKg >= weightKg);
  if (strong.length === 0)
    return say('lift-too-weak', {
      weightKg,
      strongestKg: Math.max(...lifts.map(({ capacityKg }) => capacityKg)),
    });
  if (!strong.some(({ until }) => (until ?? FAR) > since)) return say('lift-not-inspected');
  return null;
}

function toolReason({ tools = [] }: PlanProblem, operation: PlanOperation): NoPlace | null {
  const wanted = operation.tools ?? [];
  const missing = wanted.find(
    (kind) =>
      tools.filter((tool) => tool.kind === kind).length < wanted.filter((other) => other === kind).length,
  );
  return missing === undefined
    ? null
    : { reason: 'tool-missing', operation: operation.id, toolKind: missing };
}
