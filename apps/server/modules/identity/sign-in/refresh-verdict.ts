/** Seconds in which a used refresh token may be shown again: two tabs, a page left before its answer came, weak Wi-Fi. */
const GRACE_SECONDS = 15;

export interface RefreshFacts {
  readonly usedAt: Date | null;
  readonly isSuccessorUnused: boolean;
  readonly sessionEndedAt: Date | null;
  readonly sessionExpiresAt: Date;
  readonly isStaffActive: boolean;
}

/**
 * `rotate`: mark it used and give its successor. `repeat`: give the same successor again. `reused`: two parties hold
 * this chain, and nobody can tell which one is ours, so the session ends.
 */
export function refreshVerdict(facts: RefreshFacts, at: Date): 'rotate' | 'repeat' | 'ended' | 'reused' {
  if (facts.sessionEndedAt !== null || facts.sessionExpiresAt <= at || !facts.isStaffActive) return 'ended';
  if (facts.usedAt === null) return 'rotate';
  const isInGrace = at.getTime() - facts.usedAt.getTime() <= GRACE_SECONDS * 1000;
  return isInGrace && facts.isSuccessorUnused ? 'repeat' : 'reused';
}
