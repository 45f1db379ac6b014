import { fillUniform, streamOf } from './stream.js';

const { cos, exp, log, log1p, PI, sin, sqrt } = Math;

/**
 * The common factor of each draw: exp(σ z - σ²/2), z normal, lognormal with mean 1 and the standard deviation given, for
 * which σ² = ln(1 + sd²) (N. L. Johnson, S. Kotz, N. Balakrishnan, "Continuous Univariate Distributions" 1, chapter 14;
 * from memory). Never negative; its ratio to its median is as likely r as 1/r. Null where it is always 1.
 */
export function commonFactor(sd: number, seed: number, draws: number): Float64Array | null {
  if (sd === 0) return null;
  const variance = log1p(sd * sd);
  const sigma = sqrt(variance);
  const factor = standardNormal(seed, draws);
  for (let at = 0; at < draws; at++) factor[at] = exp(sigma * (factor[at] ?? 0) - variance / 2);
  return factor;
}

/** Two normal numbers from two uniform ones (G. E. P. Box and M. E. Muller, 1958), a good deal faster than by inversion. */
function standardNormal(seed: number, draws: number): Float64Array {
  const normal = fillUniform(streamOf(seed, 'common'), new Float64Array(draws + (draws % 2)));
  for (let at = 0; at < normal.length; at += 2) {
    const radius = sqrt(-2 * log(normal[at] ?? 0.5));
    const angle = 2 * PI * (normal[at + 1] ?? 0);
    normal[at] = radius * cos(angle);
    normal[at + 1] = radius * sin(angle);
  }
  return normal.subarray(0, draws);
}
