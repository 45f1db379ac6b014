import type { Observation, Unit } from '#libs/inspection';
import type { PutObservationRequest } from '../dto/inspection.request.js';
import type { StoredCheckpoint } from './checkpoint.mapping.js';
import type { ObservationRow } from './observation.entity.js';

export interface DraftReading {
  readonly name: string;
  readonly value: string;
  readonly unit: Unit;
}

/** What a technician says about a checkpoint, with every field that was left out made plain. */
export interface ObservationDraft extends Pick<
  ObservationRow,
  'mayDrive' | 'unseenReason' | 'lookAgainOn' | 'lookAgainOdometer' | 'note' | 'consequence' | 'title'
> {
  readonly verdict: Observation['verdict'];
  readonly readings: readonly DraftReading[];
}

export function draftOf(request: PutObservationRequest, checkpoint: StoredCheckpoint): ObservationDraft {
  const isFinding = request.verdict === 'watch' || request.verdict === 'repair';
  return {
    verdict: request.verdict,
    // "may be driven" goes without saying for a sound part, and the database keeps it for findings only
    mayDrive: !isFinding && request.mayDrive === 'yes' ? null : (request.mayDrive ?? null),
    unseenReason: request.unseenReason ?? null,
    lookAgainOn: request.lookAgainOn ?? null,
    lookAgainOdometer: request.lookAgainOdometer ?? null,
    note: request.note ?? null,
    consequence: request.consequence ?? null,
    title: request.title ?? null,
    readings: (request.readings ?? []).map(({ name, value, unit }) => ({
      name: name ?? checkpoint.readingName ?? 'reading',
      value,
      unit,
    })),
  };
}

export function observationOf(draft: ObservationDraft, checkpointId: string): Observation {
  return {
    checkpointId,
    verdict: draft.verdict,
    mayDrive: draft.mayDrive as Observation['mayDrive'],
    unseenReason: draft.unseenReason,
    lookAgainOn: draft.lookAgainOn,
    lookAgainOdometer: draft.lookAgainOdometer,
    readings: draft.readings.map(({ name, value, unit }) => ({ measure: name, value, unit })),
    note: draft.note,
  };
}

const FIELDS = [
  'verdict',
  'mayDrive',
  'unseenReason',
  'lookAgainOn',
  'lookAgainOdometer',
  'note',
  'consequence',
  'title',
] as const;

/** Whether this is what is stored already: a tablet that never saw the answer sends the same again. */
export function saysTheSame(
  draft: ObservationDraft,
  stored: ObservationRow,
  readings: readonly { readonly name: string; readonly value: string; readonly unit: string }[],
): boolean {
  return (
    FIELDS.every((field) => draft[field] === stored[field]) &&
    draft.readings.length === readings.length &&
    draft.readings.every(({ name, value, unit }, at) => {
      const other = readings[at];
      return other?.name === name && other.value === value && other.unit === unit;
    })
  );
}
