import type { Decision } from './decision.js';

/** The answer that counts for each line: the last one recorded. `decisions` is in the order of recording. */
export function latestDecisions<D extends Decision>(decisions: readonly D[]): Map<string, D> {
  const latest = new Map<string, D>();
  for (const decision of decisions) latest.set(decision.lineId, decision);
  return latest;
}
