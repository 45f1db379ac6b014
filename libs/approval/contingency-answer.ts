import type { Cents } from '#libs/kernel';

/** What an owner says to a contingency: agreed in advance, up to its cap; or asked first, which is also how it starts. */
export interface ContingencyAnswer {
  readonly contingencyId: string;
  readonly agreed: boolean;
}

/** A contingency as it was offered, with what counts for it now. */
export interface OfferedContingency {
  readonly id: string;
  readonly lineId: string;
  /** Tax included. */
  readonly capCents: Cents;
  /** The latest answer; null while there is none. */
  readonly agreed: boolean | null;
  /** It has happened and is charged. */
  readonly triggered: boolean;
}

export const CONTINGENCY_STATES = ['proposed', 'agreed', 'refused', 'triggered'] as const;
export type ContingencyState = (typeof CONTINGENCY_STATES)[number];

/** Where a contingency stands, from the facts alone. */
export function contingencyState({
  agreed,
  triggered,
}: Pick<OfferedContingency, 'agreed' | 'triggered'>): ContingencyState {
  if (triggered) return 'triggered';
  if (agreed === null) return 'proposed';
  return agreed ? 'agreed' : 'refused';
}
