import { fail, type Failed } from '#libs/kernel';

export function closedFault(pickedUpAt: Date): Failed {
  return fail(
    'repair-order-closed',
    'The vehicle has been picked up, so this stay is over. Open a new repair order when it comes back.',
    { facts: { pickedUpAt: pickedUpAt.toISOString() } },
  );
}
