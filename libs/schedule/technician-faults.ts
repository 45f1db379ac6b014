import type { Fault } from '#libs/kernel';
import type { FloorTechnician } from './needs.js';

/**
 * Why this technician may not do work that needs these skills through `lastDay` (ISO date in the shop's zone); empty
 * when they may. A certificate counts through its last day, so one that runs out before the work ends does not.
 */
export function technicianFaults(
  skills: readonly string[],
  technician: FloorTechnician,
  lastDay: string,
): Fault<'technician-not-qualified'>[] {
  if (!technician.active) {
    const detail = `${technician.name} no longer works on the floor.`;
    return [{ code: 'technician-not-qualified', detail, facts: { reason: 'inactive' } }];
  }
  return skills.flatMap((skill) => {
    const held = technician.skills.filter((candidate) => candidate.skill === skill);
    if (held.some(({ expiresOn }) => expiresOn === null || expiresOn >= lastDay)) return [];
    const expired = held
      .map(({ expiresOn }) => expiresOn ?? '')
      .sort()
      .at(-1);
    const detail =
      expired === undefined
        ? `${technician.name} does not hold "${skill}".`
        : `${technician.name}'s certificate for "${skill}" ends on ${expired}, before this work does.`;
    return [{ code: 'technician-not-qualified', detail, facts: { skill, expiresOn: expired ?? null } }];
  });
}
