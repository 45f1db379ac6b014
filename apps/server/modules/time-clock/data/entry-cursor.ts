import { isInstant } from '../../../platform/http/is-instant.js';
import { decodeCursor } from '../../../platform/http/pages.js';
import { problem } from '../../../platform/http/problem-error.js';

/** Start and id of the last entry seen, or two nulls on the first page. */
export function entryCursor(cursor: string | undefined): [Date | null, string | null] {
  const parts = decodeCursor(cursor, 2);
  if (!parts) return [null, null];
  const [startedAt, id] = parts;
  if (isInstant(startedAt) && typeof id === 'string') return [new Date(startedAt), id];
  throw problem('request-invalid', 'The cursor is not one of ours. Start again without it.', {
    fields: [{ pointer: '/cursor', detail: 'Use the nextCursor of the page before, unchanged.' }],
  });
}
