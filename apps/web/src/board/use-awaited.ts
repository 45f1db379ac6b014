import type { Ticket } from '../api/types.js';
import { useLate } from '../estimate/use-late.js';
import { type Person, mayPlan } from './may-plan.js';

const load = () => import('./awaited/awaited.js');

/** What the ticket waits for from elsewhere: fetched when the desk opens one that waits. Null until it is there. */
export function useAwaited(
  { holds }: Ticket,
  person: Person,
): typeof import('./awaited/awaited.js').Awaited | null {
  const waits = holds.some(({ kind }) => kind === 'parts' || kind === 'sublet');
  return useLate(load, waits && mayPlan(person), null)?.Awaited ?? null;
}
