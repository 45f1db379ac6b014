/** Numbers from 0 up to but not including 1, always the same for a seed (xorshift32, G. Marsaglia 2003; from memory). */
export function seeded(seed: number): () => number {
  let state = Math.imul(seed | 0, 0x9e3779b1) ^ 0x5bd1e995 || 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 4_294_967_296;
  };
}
