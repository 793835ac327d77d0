const LOG_2PI = Math.log(2 * Math.PI);
/** Logarithm of a normal density at a difference from its mean. */
export const logDensity = (difference: number, variance: number): number =>
  -0.5 * (LOG_2PI + Math.log(variance) + (difference * difference) / variance);
/**
 * Greatest density of a reading: all of it within one step of the display. So of a dead channel's zero,
 * and of one that stands at the most it can show.
 */
export const censored = (resolution: number): number => -Math.log(resolution);

/**
 * Logarithm of the normal distribution function.
 *
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions, 26.2.17 (recalled); beyond −6 the
 * first term of the asymptotic series, 26.2.12 (recalled).
 */
export function logNormalCdf(z: number): number {
  if (z < -6) return -0.5 * z * z - 0.5 * LOG_2PI - Math.log(-z);
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const tail =
    Math.exp(-0.5 * z * z - 0.5 * LOG_2PI) *
    t *
    (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  return z >= 0 ? Math.log1p(-tail) : Math.log(tail);
}
