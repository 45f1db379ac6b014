import { isRole, type Role } from '#libs/access';

export type How = 'password' | 'pin';

/** A few digits typed in the bay do not open the shop's settings: a PIN session never acts as administrator. */
export function rolesBy(how: How, roles: readonly string[]): Role[] {
  return roles.filter(isRole).filter((role) => how === 'password' || role !== 'administrator');
}
