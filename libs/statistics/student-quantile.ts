/**
 * The part of Student's distribution with so many degrees of freedom that lies below `t`, in its finite form for whole
 * numbers of them.
 *
 * Source: M. Abramowitz, I. A. Stegun, "Handbook of Mathematical Functions" (1964), 26.7.3 and 26.7.4.
 *
 * @throws RangeError unless the degrees of freedom are a whole number from 1.
 */
export function studentBelow(t: number, degrees: number): number {
  if (!Number.isSafeInteger(degrees) || degrees < 1)
    throw new RangeError(`degrees of freedom are a whole number from 1, got ${degrees}`);
  const angle = Math.atan(t / Math.sqrt(degrees));
  const [sin, cos] = [Math.sin(angle), Math.cos(angle)];
  const isOdd = degrees % 2 === 1;
  let term = isOdd ? cos : 1;
  let sum = degrees === 1 ? 0 : term;
  for (let k = isOdd ? 3 : 2; k < degrees; k += 2) {
    term *= (cos * cos * (k - 1)) / k;
    sum += term;
  }
  const within = isOdd ? (2 / Math.PI) * (angle + sin * sum) : sin * sum;
  return (1 + within) / 2;
}

/**
 * The point below which Student's distribution has probability `p`, by bisection.
 *
 * @throws RangeError unless 0 < p < 1.
 */
export function studentQuantile(p: number, degrees: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`a probability must lie between 0 and 1, got ${p}`);
  if (p < 0.5) return -studentQuantile(1 - p, degrees);
  let [low, high] = [0, 1];
  while (studentBelow(high, degrees) < p) high *= 2;
  for (let middle = (low + high) / 2; middle > low && middle < high; middle = (low + high) / 2)
    if (studentBelow(middle, degrees) < p) low = middle;
    else high = middle;
  return high;
}
