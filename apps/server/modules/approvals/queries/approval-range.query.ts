import type { Result } from '#libs/kernel';
import type { FrozenRevision } from '#libs/estimate';
import type { Tx } from '../../../platform/database/tx.js';
import { rangeOfOffer, type RangeResponse } from '../../estimates/index.js';
import { approvedOf, type Approval } from './approval.query.js';

/** As many lines as can be done at once: what is agreed to, then the others in order, none that another one stands in for. */
export function mostAtOnce({ lines }: FrozenRevision, approved: readonly string[]): string[] {
  const first = new Set(approved);
  const inTurn = [...lines.filter(({ id }) => first.has(id)), ...lines.filter(({ id }) => !first.has(id))];
  const taken: typeof inTurn = [];
  for (const line of inTurn) {
    const clashes = taken.some(
      (other) => line.choice?.excludes.includes(other.id) || other.choice?.excludes.includes(line.id),
    );
    if (!clashes) taken.push(line);
  }
  return taken.map(({ id }) => id);
}

/** What it may come to if the owner says yes to all that can be done at once. */
export function approvalRange(tx: Tx, { offer, document }: Approval): Promise<Result<RangeResponse>> {
  return rangeOfOffer(tx, offer, mostAtOnce(document, approvedOf(offer)));
}
