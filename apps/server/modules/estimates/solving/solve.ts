import { ladderFor, setsFor, type FoundLadder, type FoundSets, type SetsQuestion } from '#libs/choice';
import type { Result } from '#libs/kernel';

/** Beyond these the best found is told, with what could be missed. */
const SETS_LIMIT_MS = 400;
const LADDER_LIMIT_MS = 800;
/** Any will do; the same one gives the same answer to the same question. */
const SEED = 1;

/** One question for the thread. */
export type Asked =
  | { readonly what: 'sets'; readonly question: SetsQuestion }
  | { readonly what: 'ladder'; readonly question: SetsQuestion };
export type Found = Result<FoundSets | FoundLadder>;

export interface Numbered<T> {
  readonly id: number;
  readonly about: T;
}

const now = (): number => performance.now();

export function solve({ what, question }: Asked): Found {
  return what === 'sets'
    ? setsFor(question, { timeLimitMs: SETS_LIMIT_MS, now, seed: SEED })
    : ladderFor(question, { timeLimitMs: LADDER_LIMIT_MS, now, seed: SEED });
}
