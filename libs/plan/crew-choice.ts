import { FAR } from './far.js';
import type { PlanOperation, PlanTechnician } from './plan-problem.js';

/** One way to man an operation. */
export interface Crew {
  readonly lead: number;
  /** -1 when one is enough. */
  readonly helper: number;
  readonly minutes: number;
  /** It must be over by then: the first certificate that runs out. */
  readonly until: number;
}

/** How long a technician holds all of these skills; null when one is missing. */
export function skilledUntil(technician: PlanTechnician, skills: readonly string[]): number | null {
  let until = FAR;
  for (const wanted of skills) {
    const held = (technician.skills ?? []).filter(({ skill }) => skill === wanted);
    if (held.length === 0) return null;
    until = Math.min(until, Math.max(...held.map((one) => one.until ?? FAR)));
  }
  return until;
}

/** Everybody, or every two, who may do it. */
export function crewsOf(operation: PlanOperation, technicians: readonly PlanTechnician[]): Crew[] {
  const pinned = operation.pin?.technicians ?? null;
  const may = (
    skills: readonly string[],
    place: number,
  ): { index: number; until: number; minutes: number }[] =>
    technicians.flatMap((technician, index) => {
      const until = skilledUntil(technician, skills);
      const name = pinned?.[place];
      if (until === null || (name !== undefined && name !== technician.id)) return [];
      return [{ index, until, minutes: operation.minutesBy?.[technician.id] ?? operation.minutes }];
    });
  const leads = may(operation.skills ?? [], 0);
  if (operation.crew !== 2)
    return leads.map(({ index, until, minutes }) => ({ lead: index, helper: -1, minutes, until }));
  const helpers = may(operation.helperSkills ?? [], 1);
  return leads.flatMap((lead) =>
    helpers
      .filter(({ index }) => index !== lead.index)
      .map((helper) => ({
        lead: lead.index,
        helper: helper.index,
        minutes: Math.max(lead.minutes, helper.minutes),
        until: Math.min(lead.until, helper.until),
      })),
  );
}
