import { normalQuantile } from '#libs/statistics';

const FOUR_OF_FIVE = 0.8;

/**
 * Working time that is kept in four of five cases, when it strays around `minutes` (as likely less as more) by a
 * log-normal factor with this coefficient of variation, in millionths. For such a factor the variance of the logarithm is
 * ln(1 + cv²) (Aitchison and Brown, The Lognormal Distribution, 1957, from memory; checked by drawing in the spec).
 *
 * @throws RangeError for minutes below 1 or a spread below 0.
 */
export function minutesP80(minutes: number, spreadPpm: number): number {
  if (!(minutes >= 1) || !(spreadPpm >= 0)) throw new RangeError(`no such work: ${minutes}, ${spreadPpm}`);
  const spread = Math.sqrt(Math.log1p((spreadPpm / 1_000_000) ** 2));
  return Math.ceil(minutes * Math.exp(spread * normalQuantile(FOUR_OF_FIVE)));
}
