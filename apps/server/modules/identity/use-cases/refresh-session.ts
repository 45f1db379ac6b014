import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { RefreshTokenRow } from '../data/refresh-token.entity.js';
import { tokenHash } from '../sign-in/opaque-token.js';
import { refreshVerdict } from '../sign-in/refresh-verdict.js';
import { rolesBy, type How } from '../sign-in/roles-by.js';
import { endSessions } from './end-sessions.js';
import type { OpenedSession } from './open-session.js';

interface Found {
  usedAt: Date | null;
  isSuccessorUnused: boolean;
  sessionId: string;
  how: How;
  sessionEndedAt: Date | null;
  sessionExpiresAt: Date;
  isStaffActive: boolean;
  staffId: string;
  displayName: string;
  roles: string[];
  name: string;
  timeZone: string;
  currency: string;
}

/**
 * Trades a refresh token for its successor. A refusal is a value: the end of a session whose token was used twice
 * has to be committed. The roles are read anew, so a change of roles arrives with the next refresh.
 */
export async function refreshSession(
  tx: Tx,
  token: string,
  successor: string,
): Promise<Result<OpenedSession | undefined>> {
  const found = await find(tx, token, successor);
  if (!found) return ok(undefined);
  const verdict = refreshVerdict(found, tx.wall);
  if (verdict === 'ended') return ok(undefined);
  if (verdict === 'reused') {
    await endSessions(tx, { sessionId: found.sessionId }, 'token-reused');
    return ok(undefined);
  }
  if (verdict === 'rotate') await rotate(tx, found, token, successor);
  return ok({
    sessionId: found.sessionId,
    expiresAt: found.sessionExpiresAt,
    refreshToken: successor,
    staff: { id: found.staffId, displayName: found.displayName, roles: rolesBy(found.how, found.roles) },
    shop: { id: tx.shopId, name: found.name, timeZone: found.timeZone, currency: found.currency },
  });
}

/** Locks the session first: two requests with one token, or one and its successor, come one after the other. */
async function find(tx: Tx, token: string, successor: string): Promise<Found | undefined> {
  await tx.rows(
    `select 1 from sessions s where s.shop_id = $1
        and s.id = (select session_id from refresh_tokens where shop_id = $1 and token_hash = $2) for update`,
    [tx.shopId, tokenHash(token)],
  );
  return tx.one<Found>(
    `select t.used_at as "usedAt", s.id as "sessionId", s.how, s.ended_at as "sessionEndedAt",
            s.expires_at as "sessionExpiresAt", p.is_active as "isStaffActive", p.id as "staffId",
            p.display_name as "displayName", p.roles, shop.name, shop.time_zone as "timeZone", shop.currency,
            exists (select 1 from refresh_tokens n where n.shop_id = $1 and n.token_hash = $3
                       and n.session_id = s.id and n.used_at is null) as "isSuccessorUnused"
       from refresh_tokens t
       join sessions s on s.shop_id = t.shop_id and s.id = t.session_id
       join staff p on p.shop_id = s.shop_id and p.id = s.staff_id
       join shops shop on shop.shop_id = t.shop_id
      where t.shop_id = $1 and t.token_hash = $2`,
    [tx.shopId, tokenHash(token), tokenHash(successor)],
  );
}

async function rotate(tx: Tx, found: Found, token: string, successor: string): Promise<void> {
  await tx.em.update(
    RefreshTokenRow,
    { shopId: tx.shopId, tokenHash: tokenHash(token) },
    { usedAt: tx.wall },
  );
  await tx.em.insert(RefreshTokenRow, {
    shopId: tx.shopId,
    tokenHash: tokenHash(successor),
    sessionId: found.sessionId,
    issuedAt: tx.wall,
    expiresAt: found.sessionExpiresAt,
    usedAt: null,
  });
}
