import type { Rung } from '../../api/estimate-types.js';

const named = (ids: readonly string[], titles: ReadonlyMap<string, string>): string =>
  ids.map((id) => titles.get(id) ?? 'a line').join('; ');

/** `Adds: … Leaves out again: …` */
export function stepWords(rung: Rung, titles: ReadonlyMap<string, string>): string {
  const added = rung.added.length > 0 ? `Adds: ${named(rung.added, titles)}.` : '';
  const dropped = rung.dropped.length > 0 ? `Leaves out again: ${named(rung.dropped, titles)}.` : '';
  return [added, dropped].filter(Boolean).join(' ') || 'Nothing is done.';
}
