/** What a plan runs into that came too late: the check says so, or the database where the check could not see it. */
export const NO_LONGER_FITS: ReadonlySet<string> = new Set([
  ...['plan-outdated', 'bay-taken', 'technician-taken', 'tool-taken', 'work-order-already-assigned'],
]);
