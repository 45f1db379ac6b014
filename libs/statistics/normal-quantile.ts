/** A ratio of two polynomials; coefficients by falling power. */
type Rational = readonly [above: readonly number[], below: readonly number[]];

const CENTRE: Rational = [
  [
    2509.0809287301226727, 33430.575583588128105, 67265.770927008700853, 45921.953931549871457,
    13731.693765509461125, 1971.5909503065514427, 133.14166789178437745, 3.387132872796366608,
  ],
  [
    5226.495278852854561, 28729.085735721942674, 39307.89580009271061, 21213.794301586595867,
    5394.1960214247511077, 687.1870074920579083, 42.313330701600911252, 1,
  ],
];

const SHOULDER: Rational = [
  [
    7.7454501427834140764e-4, 2.27238449892691845833e-2, 2.4178072517745061177e-1, 1.27045825245236838258,
    3.64784832476320460504, 5.7694972214606914055, 4.6303378461565452959, 1.42343711074968357734,
  ],
  [
    1.05075007164441684324e-9, 5.475938084995344946e-4, 1.51986665636164571966e-2, 1.4810397642748007459e-1,
    6.8976733498510000455e-1, 1.6763848301838038494, 2.05319162663775882187, 1,
  ],
];

const TAIL: Rational = [
  [
    2.01033439929228813265e-7, 2.71155556874348757815e-5, 1.2426609473880784386e-3, 2.6532189526576123093e-2,
    2.9656057182850489123e-1, 1.7848265399172913358, 5.4637849111641143699, 6.6579046435011037772,
  ],
  [
    2.04426310338993978564e-15, 1.4215117583164458887e-7, 1.8463183175100546818e-5, 7.868691311456132591e-4,
    1.48753612908506148525e-2, 1.3692988092273580531e-1, 5.9983220655588793769e-1, 1,
  ],
];

function ratio([above, below]: Rational, r: number): number {
  const value = (coefficients: readonly number[]) => coefficients.reduce((sum, next) => sum * r + next, 0);
  return value(above) / value(below);
}

/**
 * The point below which the standard normal distribution has probability `p`, to about sixteen digits.
 *
 * Source: M. J. Wichura, "Algorithm AS 241: The percentage points of the normal distribution", Applied Statistics 37
 * (1988) 477-484, routine PPND16.
 *
 * @throws RangeError unless 0 < p < 1.
 */
export function normalQuantile(p: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`a probability must lie between 0 and 1, got ${p}`);
  const q = p - 0.5;
  if (Math.abs(q) <= 0.425) return q * ratio(CENTRE, 0.180625 - q * q);
  const r = Math.sqrt(-Math.log(q < 0 ? p : 1 - p));
  const size = r <= 5 ? ratio(SHOULDER, r - 1.6) : ratio(TAIL, r - 5);
  return q < 0 ? -size : size;
}
