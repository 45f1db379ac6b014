/**
 * Several small counters in one 32-bit word, each with a guard bit above it: subtracting what is wanted from what is free
 * clears a guard exactly where there is too little, so all resources are compared at once.
 */
export interface Packing {
  /** Words that hold one counter for each resource. */
  readonly words: number;
  /** The guard bits of each word. */
  readonly guards: Int32Array;
  readonly pack: (units: readonly number[]) => Int32Array;
}

const WORD_BITS = 32;

export function packingFor(capacities: readonly number[]): Packing {
  const largest = Math.max(1, ...capacities);
  const width = Math.floor(Math.log2(largest)) + 2;
  const perWord = Math.max(1, Math.floor(WORD_BITS / width));
  const words = Math.max(1, Math.ceil(capacities.length / perWord));
  const put = (units: readonly number[], add: number): Int32Array => {
    const packed = new Int32Array(words);
    capacities.forEach((_, resource) => {
      const word = Math.floor(resource / perWord);
      const shift = (resource % perWord) * width;
      packed[word] = (packed[word] ?? 0) | (((units[resource] ?? 0) + add) << shift);
    });
    return packed;
  };
  return {
    words,
    guards: put([], 2 ** (width - 1)),
    pack: (units) => put(units, 0),
  };
}
