/** The whole numbers from zero up of a text that is nothing else; null when anything else is in it. */
export const allNumbers = (text: string): readonly number[] | null =>
  /^[\s\d]*$/.test(text) ? text.trim().split(/\s+/).filter(Boolean).map(Number) : null;
