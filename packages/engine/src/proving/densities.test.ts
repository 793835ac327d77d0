import { describe, expect, it } from "vitest";
import { logNormalCdf } from "./densities.ts";

describe(logNormalCdf, () => {
  // Source: tables of the normal distribution, as in any handbook of statistics.
  it.each([
    [0, 0.5],
    [1, 0.841345],
    [1.96, 0.975002],
    [-1, 0.158655],
    [-2, 0.0227501],
    [-3, 0.0013499],
    [-5, 2.8665e-7],
  ])("Φ(%f) = %f", (z, phi) => {
    // The approximation's own error is below 7.5e-8.
    expect(Math.abs(Math.exp(logNormalCdf(z)) - phi)).toBeLessThan(6e-7);
  });

  it("goes on falling where the series takes over", () => {
    // ln Φ(−7) = ln 1.27981e-12; the first term of the series is 2 % high there.
    expect(logNormalCdf(-7)).toBeCloseTo(Math.log(1.27981e-12), 1);
    expect(logNormalCdf(-6.01)).toBeLessThan(logNormalCdf(-5.99));
  });
});
