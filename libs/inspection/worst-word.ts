import type { VerdictWord } from './verdict-word.js';

const WORST_FIRST: readonly VerdictWord[] = ['Unsafe', 'Repair', 'Watch', 'Not seen', 'Sound'];

/** The gravest of several words: what a line that answers several findings shows. Null for none. */
export function worstWord(words: readonly VerdictWord[]): VerdictWord | null {
  return WORST_FIRST.find((word) => words.includes(word)) ?? null;
}
