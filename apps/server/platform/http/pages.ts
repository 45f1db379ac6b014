import { problem } from './problem-error.js';
import { QueryWhole, Text } from './fields.js';

/** Cursor pages: `limit` rows after `cursor`, newest or best first as each list says. */
export class PageQuery {
  @QueryWhole({ optional: true, min: 1, max: 200, description: 'Rows a page, 50 unless given.' })
  limit?: number;

  @Text({ optional: true, max: 400, description: 'The `nextCursor` of the page before.' })
  cursor?: string;
}

export const limitOf = (query: PageQuery): number => query.limit ?? 50;

export function encodeCursor(parts: readonly (string | number)[]): string {
  return Buffer.from(JSON.stringify(parts)).toString('base64url');
}

/** The sort key of the last row seen, or undefined on the first page. */
export function decodeCursor(cursor: string | undefined, length: number): (string | number)[] | undefined {
  if (cursor === undefined) return undefined;
  try {
    const parts: unknown = JSON.parse(Buffer.from(cursor, 'base64url').toString('utf8'));
    if (
      Array.isArray(parts) &&
      parts.length === length &&
      parts.every((p) => typeof p === 'string' || typeof p === 'number')
    )
      return parts;
  } catch {
    // told below
  }
  throw problem('request-invalid', 'The cursor is not one of ours. Start again without it.', {
    fields: [{ pointer: '/cursor', detail: 'Use the nextCursor of the page before, unchanged.' }],
  });
}

/** Ask the database for `limit + 1` rows; the extra one only says that there is a next page. */
export function pageOf<Row, Item>(
  rows: readonly Row[],
  limit: number,
  item: (row: Row) => Item,
  key: (row: Row) => readonly (string | number)[],
): { items: Item[]; nextCursor: string | null } {
  const shown = rows.slice(0, limit);
  const last = shown.at(-1);
  return {
    items: shown.map(item),
    nextCursor: rows.length > limit && last !== undefined ? encodeCursor(key(last)) : null,
  };
}
