import { worstAgainstLimit, type Unit } from '#libs/inspection';
import type { ProposalResponse } from '../dto/inspection.response.js';
import { limitOfCheckpoint, limitText, type StoredCheckpoint } from './checkpoint.mapping.js';

/**
 * What the checkpoint's limit makes of the readings: the worst of them counts. Null where there is no limit, nothing
 * was measured, or a reading cannot be held against it (which checkObservation has said already).
 */
export function proposalFor(
  checkpoint: StoredCheckpoint,
  readings: readonly { readonly value: string; readonly unit: string }[],
): ProposalResponse | null {
  const limit = limitOfCheckpoint(checkpoint);
  if (!limit) return null;
  const worst = worstAgainstLimit(
    readings.map(({ value, unit }) => ({ value, unit: unit as Unit })),
    limit,
  );
  if (!worst.ok || worst.value === null) return null;
  return {
    verdict: worst.value === 'beyond' ? 'repair' : 'sound',
    outcome: worst.value,
    limitText: limitText(limit),
    limitSource: limit.source,
  };
}
