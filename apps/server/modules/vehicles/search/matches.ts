import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import type { MatchCursor } from './cursors.js';
import { searchTerms, type SearchTerms } from './search-terms.js';

export interface Match {
  readonly id: string;
  readonly score: number;
  readonly sort: string;
}

export interface Matches {
  readonly how: MatchCursor['how'];
  /** Best first; one more than asked for where there are more. */
  readonly rows: readonly Match[];
}

export function termsOf(q: string): Result<SearchTerms> {
  const terms = searchTerms(q);
  if (terms) return ok(terms);
  const detail = 'Type two letters or digits at least.';
  return fail('request-invalid', detail, { fields: [{ pointer: '/q', detail }] });
}

/** Everything that was typed is there; if that is nowhere so, words that are similar. */
export async function findMatches(
  tx: Tx,
  table: 'customers' | 'vehicles',
  terms: SearchTerms,
  limit: number,
  after?: MatchCursor,
): Promise<Matches> {
  const ask = (alike: boolean): Promise<Match[]> =>
    tx.rows<Match>(`select id, score, sort from find_${table}($1, $2, $3, $4, $5, $6, $7)`, [
      terms.words,
      terms.joined,
      alike,
      after?.score ?? null,
      after?.sort ?? null,
      after?.id ?? null,
      limit + 1,
    ]);
  if (after?.how !== 'alike') {
    const rows = await ask(false);
    if (rows.length > 0 || after || !terms.canBeAlike) return { how: 'words', rows };
  }
  return { how: 'alike', rows: await ask(true) };
}

/** Rows in the order of the matches; a row that went meanwhile is left out. */
export function inOrder<Row extends { id: string }>(matches: readonly Match[], rows: readonly Row[]): Row[] {
  const known = new Map(rows.map((row) => [row.id, row]));
  return matches.flatMap(({ id }) => known.get(id) ?? []);
}
