import type { Role } from '#libs/access';
import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { RefreshTokenRow } from '../data/refresh-token.entity.js';
import { SessionRow } from '../data/session.entity.js';
import { ShopRow } from '../data/shop.entity.js';
import { StaffMemberRow } from '../data/staff-member.entity.js';
import { isLocked } from '../sign-in/attempts.js';
import { newToken, tokenHash } from '../sign-in/opaque-token.js';
import { rolesBy, type How } from '../sign-in/roles-by.js';
import { deviceUnknown, passwordWrong, pinWrong } from '../sign-in/sign-in-faults.js';

/** A working day with some overtime; a shift. The session ends then, however often it was refreshed. */
const LIFE_HOURS: Readonly<Record<How, number>> = { password: 12, pin: 10 };

export interface OpenedSession {
  readonly sessionId: string;
  readonly expiresAt: Date;
  readonly refreshToken: string;
  readonly staff: { readonly id: string; readonly displayName: string; readonly roles: Role[] };
  readonly shop: {
    readonly id: string;
    readonly name: string;
    readonly timeZone: string;
    readonly currency: string;
  };
}

interface Verified {
  readonly staffId: string;
  readonly how: How;
  readonly deviceId: string | null;
  /** The hash that the password or PIN was found to match; if it was changed meanwhile, the sign-in is void. */
  readonly hash: string;
}

/** For somebody whose password or PIN was just found right. */
export async function openSession(tx: Tx, verified: Verified): Promise<Result<OpenedSession>> {
  const { how, deviceId, staffId } = verified;
  const person = await tx.em.findOne(StaffMemberRow, {
    where: { shopId: tx.shopId, id: staffId },
    lock: { mode: 'pessimistic_write' },
  });
  if (!person?.isActive || !isStillRight(person, verified, tx.wall))
    return how === 'pin' ? pinWrong() : passwordWrong();
  if (deviceId !== null && !(await isEnrolled(tx, deviceId))) return deviceUnknown();
  const shop = await tx.em.findOneBy(ShopRow, { shopId: tx.shopId });
  if (!shop) return fail('not-found', 'There is no such shop.');

  const session = {
    shopId: tx.shopId,
    id: tx.newId(),
    staffId,
    deviceId,
    how,
    startedAt: tx.wall,
    expiresAt: new Date(tx.wall.getTime() + LIFE_HOURS[how] * 3_600_000),
    endedAt: null,
    endReason: null,
  };
  const refreshToken = newToken(tx.shopId);
  await tx.em.update(StaffMemberRow, { shopId: tx.shopId, id: staffId }, forgiven(how));
  await forgetOldTokens(tx, staffId);
  await tx.em.insert(SessionRow, session);
  await tx.em.insert(RefreshTokenRow, {
    shopId: tx.shopId,
    tokenHash: tokenHash(refreshToken),
    sessionId: session.id,
    issuedAt: tx.wall,
    expiresAt: session.expiresAt,
    usedAt: null,
  });
  await tx.audit('session.open', 'session', session.id, { staffId, how, deviceId });
  return ok({
    sessionId: session.id,
    expiresAt: session.expiresAt,
    refreshToken,
    staff: { id: staffId, displayName: person.displayName, roles: rolesBy(how, person.roles) },
    shop: { id: shop.shopId, name: shop.name, timeZone: shop.timeZone, currency: shop.currency },
  });
}

function isStillRight(person: StaffMemberRow, { how, hash }: Verified, at: Date): boolean {
  if (how === 'pin') return person.pinHash === hash && !isLocked({ lockedUntil: person.pinLockedUntil }, at);
  return person.passwordHash === hash && !isLocked(person, at);
}

function forgiven(how: How): Partial<StaffMemberRow> {
  return how === 'pin' ? { failedPins: 0, pinLockedUntil: null } : { failedSignIns: 0, lockedUntil: null };
}

/** Held until commit, so that a tablet revoked at this moment does not keep a session. */
async function isEnrolled(tx: Tx, deviceId: string): Promise<boolean> {
  const device = await tx.one(
    'select 1 from devices where shop_id = $1 and id = $2 and revoked_at is null for share',
    [tx.shopId, deviceId],
  );
  return device !== undefined;
}

/** Tokens of sessions that are over serve no purpose any more, not even to notice a reuse. */
async function forgetOldTokens(tx: Tx, staffId: string): Promise<void> {
  await tx.rows(
    `delete from refresh_tokens t using sessions s
      where s.shop_id = $1 and s.staff_id = $2 and (s.ended_at is not null or s.expires_at <= $3)
        and t.shop_id = s.shop_id and t.session_id = s.id`,
    [tx.shopId, staffId, tx.wall],
  );
}
