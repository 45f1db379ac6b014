const { imul } = Math;
const PRIME = 0x01000193;
const OFFSET = 0x811c9dc5;

/**
 * FNV-1a, 32 bits, over the UTF-16 units of a text, low byte first where a unit needs two; for ASCII that is FNV-1a
 * over its bytes. Source: G. Fowler, L. C. Noll, K.-P. Vo; D. Eastlake, "The FNV Non-Cryptographic Hash Algorithm".
 */
export function hashText(text: string): number {
  let hash = OFFSET;
  for (let at = 0; at < text.length; at++) {
    const unit = text.charCodeAt(at);
    hash = imul(hash ^ (unit & 0xff), PRIME);
    if (unit > 0xff) hash = imul(hash ^ (unit >>> 8), PRIME);
  }
  return hash >>> 0;
}
