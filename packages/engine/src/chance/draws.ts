/**
 * Draws from the usual distributions, each from one uniform number of a stream.
 *
 * Every draw turns one uniform number over the inverse of the distribution, so draws keep the order of their
 * uniform numbers; those of the exponential run the other way. The uniform number has steps of 2^−32: draws rarer
 * than one in four thousand million on either side do not occur.
 *
 * @module
 */
import { requireInRange } from "../quantities/index.ts";
import { normalQuantile } from "./normal-quantile.ts";
import type { RandomStream } from "./random-stream.ts";

/** Normal, mean 0 and standard deviation 1. Within ±6.4. */
export const drawNormal = (random: RandomStream): number => normalQuantile(random.uniform());

/**
 * Exponential: the wait for what happens at random.
 *
 * @param mean Mean of the distribution, not its rate. Any number from 0.
 */
export const drawExponential = (random: RandomStream, mean: number): number =>
  -mean * Math.log(random.uniform());

/**
 * Lognormal: exp(ln(median) + sigma · z), z normal.
 *
 * @param shape.median Half of the draws are smaller. Any positive number, in the unit of the result.
 * @param shape.sigma Standard deviation of the logarithm. 0 to 10
 */
export const drawLognormal = (
  random: RandomStream,
  shape: { readonly median: number; readonly sigma: number },
): number => shape.median * Math.exp(shape.sigma * drawNormal(random));

/**
 * Poisson: how often something happens that happens at random.
 *
 * @param mean Mean number of times. 0 to 500; split a larger mean over several draws and add them.
 * @throws EngineError OUT_OF_DOMAIN for another mean.
 */
export function drawPoisson(random: RandomStream, mean: number): number {
  requireInRange("mean", mean, 0, 500);
  const uniform = random.uniform();
  let count = 0;
  let probability = Math.exp(-mean);
  let cumulative = probability;
  while (uniform > cumulative) {
    count++;
    probability *= mean / count;
    cumulative += probability;
  }
  return count;
}
