import { ROLES, type Role } from './roles.js';

/** Whether a value read from outside (a token, a row) names a role. */
export function isRole(value: unknown): value is Role {
  return ROLES.some((role) => role === value);
}
