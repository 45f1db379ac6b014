import { useLate } from '../estimate/use-late.js';

const load = () => import('./why-here.js');

/** Why the ticket's work is where it is: fetched when a ticket is opened. Null until it is there. */
export const useWhyHere = (): typeof import('./why-here.js').WhyHere | null =>
  useLate(load, true, null)?.WhyHere ?? null;
