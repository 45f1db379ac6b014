import { cautionsFor } from '#libs/cautions';
import type { HoldResponse } from '../dto/hold.response.js';
import type { WorkOrderPlaceResponse, WorkOrderResponse } from '../dto/work-order.response.js';
import type { ClaimResponse } from '../dto/claim.response.js';
import type { WorkOrderFactsRow } from '../queries/work-order-facts.query.js';
import type { WorkOrderInHand } from './in-hand.js';
import type { Standing } from './standing.mapping.js';

const iso = (at: Date | string): string => new Date(at).toISOString();
const isoOrNull = (at: Date | string | null): string | null => (at === null ? null : iso(at));

export function holdResponses({ holds }: Standing): HoldResponse[] {
  return holds.map(({ kind, detail, until }) =>
    until === undefined ? { kind, detail } : { kind, detail, until: iso(until) },
  );
}

/** What to read before starting: what the shop chose for the operations, and what follows from the car and the work. */
export function cautionTexts(row: WorkOrderFactsRow): string[] {
  return cautionsFor({
    drivetrain: row.drivetrain,
    needsLift: row.needsLift,
    skills: row.skills,
    chosen: row.cautions,
    unsafe: row.isUnsafe,
  }).map(({ text }) => text);
}

export function claimOf({ id, claim }: WorkOrderFactsRow): ClaimResponse | null {
  if (!claim) return null;
  return {
    id: claim.id,
    workOrderId: id,
    technicianId: claim.technicianId,
    displayName: claim.displayName,
    claimedAt: iso(claim.claimedAt),
  };
}

export function placeOf({ assignment }: WorkOrderFactsRow): WorkOrderPlaceResponse | null {
  if (!assignment) return null;
  return { ...assignment, startsAt: iso(assignment.startsAt), endsAt: iso(assignment.endsAt) };
}

export function workOrderResponse({
  row,
  standing,
}: Pick<WorkOrderInHand, 'row' | 'standing'>): WorkOrderResponse {
  return {
    id: row.id,
    number: row.number,
    title: row.title,
    state: standing.state,
    holds: holdResponses(standing),
    canStart: standing.canStart,
    repairOrderId: row.repairOrderId,
    repairOrderNumber: row.repairOrderNumber,
    vehicle: { label: row.vehicleLabel, plate: row.plate },
    lineId: row.lineId,
    decisionId: row.decisionId,
    bookHundredths: row.bookHundredths,
    clockedSeconds: row.clockedSeconds,
    needsLift: row.needsLift,
    bayKinds: row.bayKinds,
    skills: row.skills,
    tools: row.tools.map(({ id, name }) => ({ id, name })),
    cautions: cautionTexts(row),
    unsafe: row.isUnsafe,
    earlier: row.earlier.map(({ id, number, title, finished }) => ({ id, number, title, finished })),
    claim: claimOf(row),
    assignment: placeOf(row),
    promisedAt: isoOrNull(row.promisedAt),
    releasedAt: iso(row.releasedAt),
    withdrawnAt: isoOrNull(row.withdrawnAt),
    finishedAt: isoOrNull(row.finishedAt),
    finishedBy: row.finishedBy,
    checkedAt: isoOrNull(row.checkedAt),
    checkedBy: row.checkedBy,
    checkNote: row.checkNote,
    version: row.version,
  };
}
