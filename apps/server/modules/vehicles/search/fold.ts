const EDGES = /^[@.]+|[@.]+$/g;

/**
 * Small letters (by way of capitals, so that "ß" is "ss") without accents; apostrophes dropped ("O'Brien" is "obrien");
 * whatever else is neither letter nor digit a gap, except @ and the dot, which hold an e-mail address together. What is
 * stored and what is typed go through the same function, so they meet; and nothing of what is left means anything in a
 * LIKE pattern.
 */
export function fold(text: string): string {
  return text
    .normalize('NFKD')
    .toLowerCase()
    .toUpperCase()
    .toLowerCase()
    .normalize('NFKD')
    .replace(/[\p{M}'’ʼ`]/gu, '')
    .split(/[^\p{L}\p{N}@.]+/u)
    .map((word) => word.replace(EDGES, ''))
    .filter((word) => word !== '')
    .join(' ');
}

/** Letters and digits run together: "AB-123 C" is "ab123c". */
export function joined(text: string): string {
  return fold(text).replace(/[^\p{L}\p{N}]/gu, '');
}
