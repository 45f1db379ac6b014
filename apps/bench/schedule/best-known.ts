/** Best-known values as a file has them: sections by kind of problem, or one kind's values alone. */
export type BestKnownFile = Readonly<Record<string, unknown>>;

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** A number, `{ upper }`, or the number-th of `{ values }`. */
function valueOf(entry: unknown, number: number | null): number | null {
  if (typeof entry === 'number') return entry;
  if (!isRecord(entry)) return null;
  if (number === null) return typeof entry.upper === 'number' ? entry.upper : null;
  const listed: unknown = Array.isArray(entry.values) ? entry.values[number - 1] : null;
  return typeof listed === 'number' ? listed : null;
}

/**
 * The best-known value of an instance, or null. An entry is found by the end of the file's path without its ending
 * ("edata/la03", or "la03" alone), the longest end first; an entry's own name may have more in front, as long as only
 * one entry ends so.
 */
export function bestKnownOf(
  values: BestKnownFile,
  section: string,
  path: string,
  number: number | null,
): number | null {
  const own = values[section];
  const entries = isRecord(own) ? own : values;
  const parts = path.replace(/\.[^./\\]*$/, '').split(/[/\\]/);
  for (let from = 0; from < parts.length; from++) {
    const end = parts.slice(from).join('/');
    const names = Object.keys(entries).filter((name) => name === end || name.endsWith(`/${end}`));
    const [only] = names;
    if (names.length === 1 && only !== undefined) return valueOf(entries[only], number);
  }
  return null;
}
