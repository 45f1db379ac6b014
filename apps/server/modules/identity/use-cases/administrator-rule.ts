import { isRole } from '#libs/access';
import { fail, ok, type Result } from '#libs/kernel';
import type { Actor } from '../../../platform/context.js';
import type { Tx } from '../../../platform/database/tx.js';

const isAdministrator = (roles: readonly string[]): boolean => roles.includes('administrator');

/**
 * Only an administrator makes an administrator, or touches one (roles, password, PIN): a manager who could set an
 * administrator's password would be one.
 */
export function mayTouch(
  actor: Actor,
  before: readonly string[],
  after: readonly string[] = [],
): Result<void> {
  if (actor.kind === 'system') return ok(undefined);
  const isAllowed = actor.kind === 'staff' && isAdministrator(actor.roles.filter(isRole));
  if (isAllowed || (!isAdministrator(before) && !isAdministrator(after))) return ok(undefined);
  return fail('not-allowed', 'Only an administrator makes or changes an administrator. Ask one.');
}

/** Locks the active administrators, so that two who step down at once do not leave the shop without one. */
export async function othersAdminister(tx: Tx, staffId: string): Promise<boolean> {
  const rows = await tx.rows<{ id: string }>(
    `select id from staff where shop_id = $1 and is_active and 'administrator' = any (roles) order by id for update`,
    [tx.shopId],
  );
  return rows.some((row) => row.id !== staffId);
}
