import { crewsOf } from './crew-choice.js';
import { FAR } from './far.js';
import type { PlanOperation, PlanProblem, PlanRepairOrder } from './plan-problem.js';

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
  /** The highest vehicle that a bay here takes, of those that would suit otherwise. */
  readonly highestMm?: number;
}

/**
 * The first thing about this shop that rules a repair order out, whatever the time: a skill that nobody holds, working
 * times that nobody has entered, a bay, a lift or a tool that is not there. `no-room` when each operation could be done and only the calendars are full. That a
 * teardown needs one bay for all of its operations, and pins, are not looked at.
 */
export function whyNoPlace(problem: PlanProblem, order: PlanRepairOrder): NoPlace {
  const since = Math.max(problem.now, order.arrives ?? 0);
  for (const operation of order.operations) {
    const found =
      crewReason(problem, operation, since) ??
      bayReason(problem, order, operation, since) ??
      toolReason(problem, operation);
    if (found !== null) return found;
  }
  return { reason: 'no-room', operation: null };
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
