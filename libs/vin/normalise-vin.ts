/** Spaces of every kind, hyphens and dashes, and the invisible characters that travel along when a number is pasted. */
const SEPARATORS = /[\s\p{Pd}\u00ad\u200b-\u200d\u2060\ufeff]/gu;

export interface NormalisedVin {
  /** Trimmed, ASCII letters in capitals; nothing else touched. */
  readonly asTyped: string;
  /** `asTyped` without hyphens and spaces. */
  readonly compact: string;
}

/** Capitals are made of ASCII letters only: other alphabets have letters that would turn into ours and pass as them. */
export function normaliseVin(input: string): NormalisedVin {
  const asTyped = input.trim().replace(/[a-z]/g, (letter) => letter.toUpperCase());
  return { asTyped, compact: asTyped.replace(SEPARATORS, '') };
}
