/** A LIKE pattern for "contains this text": what a person types is text, not a pattern. */
export function containsPattern(text: string): string {
  return `%${text.replace(/[\\%_]/g, '\\$&')}%`;
}
