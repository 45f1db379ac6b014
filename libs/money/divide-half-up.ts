/**
 * `num / den` to the nearest whole, a half away from zero. Works on the absolute value and restores the sign, so that
 * a credit undoes exactly what the charge did.
 *
 * @throws RangeError when `den` is zero, which is a bug of the caller.
 */
export function divideHalfUp(num: bigint, den: bigint): bigint {
  if (den === 0n) throw new RangeError('divideHalfUp: the divisor is zero');
  const isNegative = num < 0n !== den < 0n;
  const top = num < 0n ? -num : num;
  const bottom = den < 0n ? -den : den;
  const quotient = (2n * top + bottom) / (2n * bottom);
  return isNegative ? -quotient : quotient;
}
