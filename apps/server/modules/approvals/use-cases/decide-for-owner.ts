import { fail, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import type { DecisionsResponse } from '../dto/approval-link.response.js';
import type { StaffDecideRequest } from '../dto/decision.request.js';
import { recordDecisions } from './record-decisions.js';

/** A JSON column takes no half of a surrogate pair, as a broken keyboard may send it. */
const wellFormed = (text: string): string => text.replace(/\p{Surrogate}/gu, '\ufffd');

/**
 * The owner said it by phone or at the desk. Who said it, the number called, who wrote it down and the totals before and
 * after are kept; several jurisdictions ask for exactly these of a spoken approval. Local law decides what is enough.
 */
export async function decideForOwner(
  tx: Tx,
  revisionId: string,
  request: StaffDecideRequest,
): Promise<Result<DecisionsResponse>> {
  const { channel, numberCalled, note } = request;
  if (channel === 'phone' && numberCalled == null)
    return fail('request-invalid', 'Give the number that was called.', {
      fields: [{ pointer: '/numberCalled', detail: 'Give the number that was called.' }],
    });
  return recordDecisions(tx, revisionId, request, {
    channel,
    linkId: null,
    recordedBy: tx.staffId,
    proof: {
      ...(numberCalled == null ? {} : { numberCalled: wellFormed(numberCalled) }),
      ...(note == null ? {} : { note: wellFormed(note) }),
    },
  });
}
