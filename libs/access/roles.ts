/** What a person may be in a shop; one person may hold several. */
export const ROLES = ['front-desk', 'technician', 'manager', 'administrator'] as const;
export type Role = (typeof ROLES)[number];
