import { MAY_DRIVE } from './verdict.js';
import type { MayDrive, Verdict } from './verdict.js';

interface Judged {
  readonly verdict: Verdict;
  readonly mayDrive: MayDrive | null;
}

/** From the least to the worst; what keeps a car from being driven weighs more than how worn a part is. */
const VERDICT_ORDER: readonly Verdict[] = ['sound', 'unseen', 'watch', 'repair'];

/** The finding that speaks for several: the first of those that weigh most, undefined when there is none. */
export function worstFinding<F extends Judged>(findings: readonly F[]): F | undefined {
  const weight = ({ verdict, mayDrive }: Judged): number =>
    (mayDrive === null ? 0 : MAY_DRIVE.indexOf(mayDrive)) * VERDICT_ORDER.length +
    VERDICT_ORDER.indexOf(verdict);
  return findings.reduce<F | undefined>(
    (worst, one) => (worst === undefined || weight(one) > weight(worst) ? one : worst),
    undefined,
  );
}
