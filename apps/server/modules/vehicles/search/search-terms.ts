import { fold, joined } from './fold.js';

const MOST_WORDS = 8;
/** A word that can be mistyped and still be told apart: longer than four, and not a number. */
const CAN_RESEMBLE = /^(?!\d+$).{5,}$/u;

export interface SearchTerms {
  readonly words: readonly string[];
  /** All of it run together, where it was typed with gaps; null where that would say nothing new. */
  readonly joined: string | null;
  /** Whether a second try with similar words makes sense when the first finds nothing. */
  readonly canBeAlike: boolean;
}

/** What somebody typed, as the search takes it; undefined below two letters or digits. */
export function searchTerms(typed: string): SearchTerms | undefined {
  const words = [...new Set(fold(typed).split(' '))].filter((word) => word !== '').slice(0, MOST_WORDS);
  const together = joined(typed);
  if (together.length < 2 || words.length === 0) return undefined;
  return {
    words,
    joined: words.length === 1 && words[0] === together ? null : together,
    canBeAlike: words.some((word) => CAN_RESEMBLE.test(word)),
  };
}
