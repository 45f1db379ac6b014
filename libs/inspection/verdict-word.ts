import { assertNever } from '#libs/kernel';
import type { MayDrive, Verdict } from './verdict.js';

export type VerdictWord = 'Sound' | 'Watch' | 'Repair' | 'Unsafe' | 'Not seen';

/** The word that every surface shows. A repair with which the car may not be driven is the fifth word, Unsafe. */
export function verdictWord(observation: {
  readonly verdict: Verdict;
  readonly mayDrive: MayDrive | null;
}): VerdictWord {
  switch (observation.verdict) {
    case 'sound':
      return 'Sound';
    case 'watch':
      return 'Watch';
    case 'repair':
      return observation.mayDrive === 'no' ? 'Unsafe' : 'Repair';
    case 'unseen':
      return 'Not seen';
    default:
      return assertNever(observation.verdict);
  }
}
