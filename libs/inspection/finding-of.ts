import type { Observation } from './observation.js';
import type { MayDrive } from './verdict.js';
import { verdictWord } from './verdict-word.js';
import type { VerdictWord } from './verdict-word.js';

/** An observation as the thing that is discussed, priced, decided on and followed up. */
export interface Finding {
  readonly checkpointId: string;
  readonly verdict: 'watch' | 'repair';
  readonly word: VerdictWord;
  readonly mayDrive: MayDrive;
  readonly lookAgainOn: string | null;
  readonly lookAgainOdometer: number | null;
  readonly note: string | null;
}

/**
 * The finding in an observation, or null where nothing is to be done. An observation that was never checked may lack
 * the driving fact; a finding then says `to-the-shop-only`, because silence must not read as a yes.
 */
export function findingOf(observation: Observation): Finding | null {
  const { verdict, checkpointId, mayDrive, lookAgainOn, lookAgainOdometer, note } = observation;
  if (verdict !== 'watch' && verdict !== 'repair') return null;
  return {
    checkpointId,
    verdict,
    word: verdictWord(observation),
    mayDrive: mayDrive ?? 'to-the-shop-only',
    lookAgainOn,
    lookAgainOdometer,
    note,
  };
}
