/**
 * `num / den` to the nearest whole, a half to the even neighbour (bankers' rounding).
 *
 * @throws RangeError when `den` is zero, which is a bug of the caller.
 */
export function divideHalfEven(num: bigint, den: bigint): bigint {
  if (den === 0n) throw new RangeError('divideHalfEven: the divisor is zero');
  const isNegative = num < 0n !== den < 0n;
  const top = num < 0n ? -num : num;
  const bottom = den < 0n ? -den : den;
  const floor = top / bottom;
  const twiceRest = 2n * (top % bottom);
  const roundsUp = twiceRest > bottom || (twiceRest === bottom && floor % 2n === 1n);
  const quotient = roundsUp ? floor + 1n : floor;
  return isNegative ? -quotient : quotient;
}
