import { hashText } from './hash-text.js';

const { imul } = Math;

/** The four words of a generator. Not all zero. */
export type StreamState = readonly [number, number, number, number];

/**
 * A stream of its own for everything that is drawn, by its name: what is added to an estimate does not change what
 * was drawn for the rest. Each word is a hash of the name after a salt of its own, stirred (the finaliser of MurmurHash3,
 * A. Appleby, public domain; from memory).
 */
export function streamOf(seed: number, name: string): StreamState {
  const word = (salt: string): number => {
    let mixed = hashText(`${salt}/${seed}/${name}`);
    mixed = imul(mixed ^ (mixed >>> 16), 0x85ebca6b);
    mixed = imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
    return mixed ^ (mixed >>> 16);
  };
  // The last bit keeps the state away from the one value at which the generator stands still.
  return [word('a') | 1, word('b'), word('c'), word('d')];
}

/**
 * Fills `into` with numbers between 0 and 1, neither of them included: the middles of 2^32 equal steps.
 *
 * Source: xoshiro128** 1.1, D. Blackman and S. Vigna (2018), public domain.
 */
export function fillUniform(state: StreamState, into: Float64Array): Float64Array {
  let [s0, s1, s2, s3] = state;
  for (let at = 0; at < into.length; at++) {
    const scrambled = imul(s1, 5);
    const word = imul((scrambled << 7) | (scrambled >>> 25), 9) >>> 0;
    const shifted = s1 << 9;
    s2 ^= s0;
    s3 ^= s1;
    s1 ^= s2;
    s0 ^= s3;
    s2 ^= shifted;
    s3 = (s3 << 11) | (s3 >>> 21);
    into[at] = (word + 0.5) / 4_294_967_296;
  }
  return into;
}
