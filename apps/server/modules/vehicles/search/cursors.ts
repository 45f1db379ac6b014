import { isUUID } from 'class-validator';
import { decodeCursor } from '../../../platform/http/pages.js';
import { isInstant } from '../../../platform/http/is-instant.js';

/** The last row seen in a list of matches. `how` keeps the pages of one search alike. */
export interface MatchCursor {
  readonly how: 'words' | 'alike';
  readonly score: number;
  readonly sort: string;
  readonly id: string;
}

/** Anything that decodes but is not what we gave out is refused as a whole, like one that does not decode. */
const notOurs = (): never => decodeCursor('?', 0) as never;

export function idCursor(cursor: string | undefined): string | undefined {
  const parts = decodeCursor(cursor, 1);
  if (!parts) return undefined;
  return isUUID(parts[0]) ? String(parts[0]) : notOurs();
}

export function timeCursor(cursor: string | undefined): { at: string; id: string } | undefined {
  const parts = decodeCursor(cursor, 2);
  if (!parts) return undefined;
  const [at, id] = parts;
  return isInstant(at) && isUUID(id) ? { at, id: String(id) } : notOurs();
}

export function matchCursor(cursor: string | undefined): MatchCursor | undefined {
  const parts = decodeCursor(cursor, 4);
  if (!parts) return undefined;
  const [how, score, sort, id] = parts;
  const isOurs =
    (how === 'words' || how === 'alike') &&
    typeof score === 'number' &&
    Number.isInteger(score) &&
    Math.abs(score) < 1_000_000 &&
    typeof sort === 'string' &&
    !sort.includes('\u0000') &&
    isUUID(id);
  return isOurs ? { how, score, sort, id: String(id) } : notOurs();
}
