import type { Tx } from '../../../platform/database/tx.js';
import { tokenHash } from '../sign-in/opaque-token.js';

export async function sessionOfToken(tx: Tx, refreshToken: string): Promise<string | undefined> {
  const row = await tx.one<{ sessionId: string }>(
    'select session_id as "sessionId" from refresh_tokens where shop_id = $1 and token_hash = $2',
    [tx.shopId, tokenHash(refreshToken)],
  );
  return row?.sessionId;
}
