import { fail, ok } from '#libs/kernel';
import type { Fault, FieldFault, Result } from '#libs/kernel';
import { exactOf } from './exact.js';
import type { Observation } from './observation.js';
import type { Unit } from './units.js';

/** What a checkpoint accepts as readings; none for a checkpoint that is only looked at. */
export interface CheckpointReadings {
  readonly readingUnits: readonly Unit[];
}

const isBlank = (text: string | null): boolean => text === null || text.trim() === '';

function drivingFaults(observation: Observation): FieldFault[] {
  const { verdict, mayDrive } = observation;
  const pointer = '/mayDrive';
  if (verdict === 'watch' || verdict === 'repair') {
    if (mayDrive === null) return [{ pointer, detail: 'Say whether the car may be driven with it.' }];
    if (verdict === 'watch' && mayDrive === 'no') {
      return [{ pointer, detail: 'A part that forbids driving cannot be left and watched: choose repair.' }];
    }
    return [];
  }
  if (mayDrive === null || mayDrive === 'yes') return [];
  return [
    { pointer, detail: `A part that is ${verdict} cannot forbid driving: choose repair, or leave this out.` },
  ];
}

function lookAgainFaults({ verdict, lookAgainOn, lookAgainOdometer }: Observation): FieldFault[] {
  if (verdict === 'watch' && lookAgainOn === null && lookAgainOdometer === null) {
    return [{ pointer: '/lookAgainOn', detail: 'Give the date or the odometer at which to look again.' }];
  }
  if (lookAgainOdometer !== null && !(Number.isSafeInteger(lookAgainOdometer) && lookAgainOdometer > 0)) {
    return [{ pointer: '/lookAgainOdometer', detail: 'The odometer is a whole number above zero.' }];
  }
  return [];
}

function readingFaults(
  { readings, verdict }: Observation,
  { readingUnits }: CheckpointReadings,
): FieldFault[] {
  if (verdict === 'unseen' && readings.length > 0) {
    return [{ pointer: '/readings', detail: 'What could not be reached cannot have been measured.' }];
  }
  return readings.flatMap((reading, at) => {
    const faults: FieldFault[] = [];
    if (exactOf(reading.value) === null) {
      faults.push({ pointer: `/readings/${at}/value`, detail: 'Give a number such as 4.5.' });
    }
    if (!readingUnits.includes(reading.unit)) {
      const accepted = readingUnits.length === 0 ? 'no readings' : readingUnits.join(', ');
      faults.push({ pointer: `/readings/${at}/unit`, detail: `This checkpoint takes ${accepted}.` });
    }
    return faults;
  });
}

/**
 * Whether an observation means something: every fault at once, each with a pointer to its field. Shape (types, known
 * words) is checked before; this is about what belongs together.
 */
export function checkObservation(
  observation: Observation,
  checkpoint: CheckpointReadings,
): Result<Observation, Fault<'observation-incomplete'>> {
  const fields = [...drivingFaults(observation), ...lookAgainFaults(observation)];
  if (observation.verdict === 'unseen' && isBlank(observation.unseenReason)) {
    fields.push({ pointer: '/unseenReason', detail: 'Say why it could not be seen.' });
  }
  fields.push(...readingFaults(observation, checkpoint));
  if (fields.length === 0) return ok(observation);
  return fail('observation-incomplete', 'The observation does not say all that its verdict needs.', {
    fields,
  });
}
