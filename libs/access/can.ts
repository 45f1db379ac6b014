import { ACTION_TABLE } from './actions.js';
import type { Action } from './actions.js';
import type { Role } from './roles.js';

/**
 * Whether somebody who holds these roles may do this. Denied unless a row of the table says otherwise: no role, an
 * unknown role and an unknown action are all denied.
 *
 * @example can(['front-desk'], 'estimate.send') // true
 * @example can(['front-desk'], 'clock.correct') // false
 */
export function can(roles: readonly Role[], action: Action): boolean {
  if (!Object.hasOwn(ACTION_TABLE, action)) return false;
  const allowed: readonly Role[] = ACTION_TABLE[action];
  return roles.some((role) => allowed.includes(role));
}
