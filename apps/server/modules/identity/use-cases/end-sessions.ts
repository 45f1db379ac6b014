import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';

export type EndReason =
  'signed-out' | 'token-reused' | 'deactivated' | 'password-changed' | 'pin-changed' | 'device-revoked';

/** Which sessions: one, all of a person (or only those by PIN), all of a tablet. */
export type Whose =
  | { readonly sessionId: string }
  | { readonly staffId: string; readonly how?: 'pin'; readonly except?: string | undefined }
  | { readonly deviceId: string };

/** An ended session cannot be refreshed; an access token issued before still holds for its few minutes. */
export async function endSessions(tx: Tx, whose: Whose, reason: EndReason): Promise<Result<void>> {
  const [where, values] = conditionOf(whose);
  const ended = await tx.rows<{ id: string }>(
    `update sessions set ended_at = $2, end_reason = $3
      where shop_id = $1 and ended_at is null and ${where} returning id`,
    [tx.shopId, tx.wall, reason, ...values],
  );
  for (const { id } of ended) await tx.audit('session.end', 'session', id, { reason });
  return ok(undefined);
}

function conditionOf(whose: Whose): [string, unknown[]] {
  if ('sessionId' in whose) return ['id = $4', [whose.sessionId]];
  if ('deviceId' in whose) return ['device_id = $4', [whose.deviceId]];
  return [
    'staff_id = $4 and ($5::text is null or how = $5) and ($6::uuid is null or id <> $6)',
    [whose.staffId, whose.how ?? null, whose.except ?? null],
  ];
}
