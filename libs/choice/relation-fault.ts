import type { ChoiceLine } from './choice-problem.js';
import { shapeOf } from './shape.js';

export type RelatedLine = Pick<ChoiceLine, 'id' | 'requires' | 'excludes'>;

/**
 * Why lines cannot be related like this. `unknown`: `other` is none of them. `itself`: a line requires or excludes
 * itself. `contradiction`: to do the line, both `one` and `other` would have to be done, and they exclude each other.
 */
export type RelationFault =
  | { readonly kind: 'unknown'; readonly lineId: string; readonly other: string }
  | { readonly kind: 'itself'; readonly lineId: string }
  | { readonly kind: 'contradiction'; readonly lineId: string; readonly one: string; readonly other: string };

/** The first thing that is wrong with what these lines require and exclude; null when every line can be chosen. */
export function relationFault(lines: readonly RelatedLine[]): RelationFault | null {
  const ids = new Set(lines.map(({ id }) => id));
  for (const { id, requires = [], excludes = [] } of lines) {
    if (requires.includes(id) || excludes.includes(id)) return { kind: 'itself', lineId: id };
    const other = [...requires, ...excludes].find((name) => !ids.has(name));
    if (other !== undefined) return { kind: 'unknown', lineId: id, other };
  }
  const shape = shapeOf({ lines: lines.map((line) => ({ ...line, benefit: 0 })) });
  if (!shape.ok) return null;
  const at = shape.value.rivals.findIndex((rivals, line) => rivals.includes(line));
  const line = lines[at];
  if (line === undefined) return null;
  const together = [at, ...(shape.value.needs[at] ?? [])].flatMap((one) => lines[one] ?? []);
  for (const one of together) {
    const other = together.find(({ id }) => one.excludes?.includes(id) === true);
    if (other !== undefined) return { kind: 'contradiction', lineId: line.id, one: one.id, other: other.id };
  }
  return null;
}
