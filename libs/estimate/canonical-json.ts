/** A value as JSON stores it. */
export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

/**
 * One text for one value, whatever order its keys are in: what a hash is taken of. A database may store the document
 * with its keys in another order and still give back the same text. Follows RFC 8785 (JSON Canonicalization Scheme)
 * for what we store: keys sorted by UTF-16 code units, no white space, whole numbers only.
 *
 * @throws RangeError for a number that is not a safe integer, or a text with half a surrogate pair: both have no single
 *   text that all readers agree on, and neither belongs in a frozen document.
 */
export function canonicalJson(value: Json): string {
  if (typeof value === 'number' && !Number.isSafeInteger(value)) {
    throw new RangeError(`canonicalJson: ${value} is not a whole number`);
  }
  if (typeof value === 'string' && /\p{Surrogate}/u.test(value)) {
    throw new RangeError('canonicalJson: a text holds half a surrogate pair');
  }
  if (value === null || typeof value !== 'object') return JSON.stringify(value === 0 ? 0 : value);
  if (isList(value)) return `[${value.map(canonicalJson).join(',')}]`;
  const members = Object.keys(value)
    .sort()
    .map((key) => `${canonicalJson(key)}:${canonicalJson(value[key] ?? null)}`);
  return `{${members.join(',')}}`;
}

const isList = (value: readonly Json[] | { readonly [key: string]: Json }): value is readonly Json[] =>
  Array.isArray(value);
