import { ACTIONS } from './actions.js';
import type { Action } from './actions.js';
import { can } from './can.js';
import type { Role } from './roles.js';

/** Everything that these roles allow, in the order of the table: what a screen asks once, at sign-in. */
export function actionsOf(roles: readonly Role[]): Action[] {
  return ACTIONS.filter((action) => can(roles, action));
}
