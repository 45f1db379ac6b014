import { actionsOf } from '#libs/access';
import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import type { CurrentSessionResponse } from '../dto/session.response.js';
import { rolesBy, type How } from '../sign-in/roles-by.js';
import { sessionEnded } from '../sign-in/sign-in-faults.js';

interface Row {
  how: How;
  startedAt: Date;
  expiresAt: Date;
  staffId: string;
  displayName: string;
  roles: string[];
  name: string;
  timeZone: string;
  currency: string;
}

/** Looks at the session itself, so it tells earlier than the access token that it has ended. */
export async function currentSession(tx: Tx, sessionId: string): Promise<Result<CurrentSessionResponse>> {
  const row = await tx.one<Row>(
    `select s.how, s.started_at as "startedAt", s.expires_at as "expiresAt", p.id as "staffId",
            p.display_name as "displayName", p.roles, shop.name, shop.time_zone as "timeZone", shop.currency
       from sessions s
       join staff p on p.shop_id = s.shop_id and p.id = s.staff_id
       join shops shop on shop.shop_id = s.shop_id
      where s.shop_id = $1 and s.id = $2 and s.ended_at is null and s.expires_at > $3 and p.is_active`,
    [tx.shopId, sessionId, tx.wall],
  );
  if (!row) return sessionEnded();
  const roles = rolesBy(row.how, row.roles);
  return ok({
    staff: { id: row.staffId, displayName: row.displayName, roles },
    shop: { id: tx.shopId, name: row.name, timeZone: row.timeZone, currency: row.currency },
    how: row.how,
    startedAt: row.startedAt.toISOString(),
    expiresAt: row.expiresAt.toISOString(),
    may: actionsOf(roles),
  });
}
