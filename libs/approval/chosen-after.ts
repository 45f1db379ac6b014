import type { GivenAnswer, Standing } from './standing-decision.js';

interface ChosenInput {
  readonly answers: readonly GivenAnswer[];
  readonly standing: Standing;
  /** Lines on which work has begun: their price is fixed and they are outside every later choice. */
  readonly begun: ReadonlySet<string>;
}

/**
 * The lines that are priced together once these answers are in: those approved now, and those approved before that the
 * answers leave alone; without those on which work has begun.
 */
export function chosenAfter({ answers, standing, begun }: ChosenInput): string[] {
  const chosen = new Set<string>();
  for (const [lineId, decision] of standing) if (decision.answer === 'approved') chosen.add(lineId);
  for (const { lineId, answer } of answers) {
    if (answer === 'approved') chosen.add(lineId);
    else chosen.delete(lineId);
  }
  return [...chosen].filter((lineId) => !begun.has(lineId));
}
