/** What a healthy supply and a real site can show; what lies beyond is no reading. */
export interface DecodeLimits {
  /** Line to neutral. [V] */
  readonly voltageV: readonly [least: number, most: number];
  /** [Hz] */
  readonly frequencyHz: readonly [least: number, most: number];
  /** Greatest current there can be in a line; null where that is not known. [A] */
  readonly mostA: number | null;
}

/**
 * Room for what is no wrong scale: harmonics of 32 % of the current make S larger than √(P² + Q²) by 5 %. [1]
 *
 * Source: S = √(P² + Q²) · √(1 + THD²) for a sine of voltage.
 */
const TOLERANCE_RATIO = 0.05;
/** A current shown in tenths of an ampere is out by up to 2.3 % at 500 VA and 230 V, less than the tolerance. [VA] */
export const LEAST_VA = 500;

export const identityLimits = ({ voltageV, mostA }: DecodeLimits) => ({
  toleranceRatio: TOLERANCE_RATIO,
  leastVa: LEAST_VA,
  voltageV,
  mostA,
});
