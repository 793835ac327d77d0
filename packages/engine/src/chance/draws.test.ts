import { describe, expect, it } from "vitest";
import { drawExponential, drawLognormal, drawNormal, drawPoisson } from "./draws.ts";
import { RandomStream } from "./random-stream.ts";

const COUNT = 100_000;
const sample = (draw: (random: RandomStream) => number) => {
  const random = new RandomStream(2024).start("household", { site: 3, day: 0 });
  return Float64Array.from({ length: COUNT }, () => draw(random)).sort();
};
const mean = (values: Float64Array) => values.reduce((sum, value) => sum + value, 0) / values.length;
const central = (values: Float64Array, power: number) => {
  const centre = mean(values);
  return values.reduce((sum, value) => sum + (value - centre) ** power, 0) / values.length;
};
/** A stream that gives one uniform number for ever. */
const fixed = (uniform: number) => ({ uniform: () => uniform }) as RandomStream;

/** Four standard errors: a sound draw fails one seed in 16,000. */
const near = (estimate: number, exact: number, spread: number) =>
  expect(Math.abs(estimate - exact)).toBeLessThan((4 * spread) / Math.sqrt(COUNT));
/** Largest distance between the sampled and the exact distribution, the Kolmogorov–Smirnov distance. */
const distance = (sorted: Float64Array, exact: (x: number) => number) =>
  sorted.reduce(
    (worst, value, index) =>
      Math.max(worst, exact(value) - index / COUNT, (index + 1) / COUNT - exact(value)),
    0,
  );
// Exceeded by a sound sample once in a thousand: 1.95 / √n.
const FAR = 1.95 / Math.sqrt(COUNT);

describe("drawNormal", () => {
  const values = sample(drawNormal);
  it("has the four moments of the normal distribution", () => {
    near(mean(values), 0, 1);
    near(central(values, 2), 1, Math.sqrt(2));
    near(central(values, 3), 0, Math.sqrt(6));
    near(central(values, 4), 3, Math.sqrt(96));
  });
  it("lies as often below a quantile as it should", () => {
    for (const [quantile, share] of [
      [-1.959964, 0.025],
      [0.6744898, 0.75],
      [2.326348, 0.99],
    ] as const)
      near(values.filter((value) => value < quantile).length / COUNT, share, Math.sqrt(share * (1 - share)));
  });
});

describe("drawExponential", () => {
  const values = sample((random) => drawExponential(random, 3));
  it("has the mean asked for, and the spread that goes with it", () => {
    near(mean(values), 3, 3);
    near(central(values, 2), 9, 9 * Math.sqrt(8));
  });
  it("follows 1 − exp(−x / mean)", () =>
    expect(distance(values, (x) => 1 - Math.exp(-x / 3))).toBeLessThan(FAR));
  it("is never negative and can be nothing", () => {
    expect(values[0]).toBeGreaterThanOrEqual(0);
    expect(drawExponential(fixed(0.5), 0)).toBeCloseTo(0, 15);
  });
});

describe("drawLognormal", () => {
  const values = sample((random) => drawLognormal(random, { median: 7.5, sigma: 0.6 }));
  it("has the median asked for, and the mean that goes with it", () => {
    near(values.filter((value) => value < 7.5).length / COUNT, 0.5, 0.5);
    const exact = 7.5 * Math.exp(0.18);
    near(mean(values), exact, exact * Math.sqrt(Math.exp(0.36) - 1));
  });
});

describe("drawPoisson", () => {
  it.each([0.03, 1, 4.2, 60])("of mean %d has that mean, and as variance the same", (exact) => {
    const values = sample((random) => drawPoisson(random, exact));
    near(mean(values), exact, Math.sqrt(exact));
    near(central(values, 2), exact, Math.sqrt(exact + 2 * exact ** 2));
    expect(values.every(Number.isInteger)).toBe(true);
  });
  it("gives each count as often as it should", () => {
    const values = sample((random) => drawPoisson(random, 2));
    let probability = Math.exp(-2);
    for (let count = 0; count < 8; count++) {
      const share = values.filter((value) => value === count).length / COUNT;
      near(share, probability, Math.sqrt(probability * (1 - probability)));
      probability *= 2 / (count + 1);
    }
  });
  it("is 0 for a mean of 0, and ends for the largest mean and the rarest number", () => {
    expect(drawPoisson(fixed(1 - 2 ** -33), 0)).toBe(0);
    expect(drawPoisson(fixed(1 - 2 ** -33), 500)).toBeLessThan(700);
  });
  it.each([-1, 501, Number.NaN])("refuses a mean of %d", (mean) =>
    expect(() => drawPoisson(fixed(0.5), mean)).toThrow(expect.objectContaining({ code: "OUT_OF_DOMAIN" })),
  );
});
