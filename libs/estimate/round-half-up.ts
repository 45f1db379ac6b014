import { divideHalfUp } from '#libs/money';

/** Beyond this a doubled numerator would no longer be exact as a number. */
const SAFE = Number.MAX_SAFE_INTEGER / 4;

/** `a × b / den`, half up, for whole numbers from zero up; exact however large the product is. */
export function roundHalfUp(a: number, b: number, den: number): number {
  const product = a * b;
  if (product > SAFE || den > SAFE) return Number(divideHalfUp(BigInt(a) * BigInt(b), BigInt(den)));
  const top = 2 * product + den;
  return (top - (top % (2 * den))) / (2 * den);
}
