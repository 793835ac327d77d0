import { describe, expect, it } from "vitest";
import { normalQuantile } from "./normal-quantile.ts";

describe("normalQuantile", () => {
  it.each([
    // Made with SciPy 1.17.1, scipy.stats.norm.ppf, an implementation of another algorithm.
    [1e-300, -37.0470962993612],
    [1e-12, -7.034483825301131],
    [1.1641532182693481e-10, -6.3379577545537895],
    [1e-5, -4.264890793922825],
    [0.001, -3.090232306167813],
    [0.025, -1.9599639845400545],
    [0.075, -1.4395314709384563],
    [0.0750001, -1.4395307645017301],
    [0.3, -0.5244005127080409],
    [0.6, 0.2533471031357997],
    [0.9, 1.2815515655446004],
    // Where the middle formula no longer holds.
    [0.9375, 1.5341205443525459],
    [0.975, 1.959963984540054],
    [0.9999, 3.719016485455709],
  ])("of %d is %d", (probability, value) =>
    // The two algorithms each promise about fifteen figures.
    expect(Math.abs(normalQuantile(probability) - value)).toBeLessThanOrEqual(4e-15 * Math.abs(value)),
  );
  it("is odd about one half", () => {
    for (const probability of [0.01, 0.2, 0.4375])
      expect(normalQuantile(1 - probability)).toBeCloseTo(-normalQuantile(probability), 12);
    expect(normalQuantile(0.5)).toBe(0);
  });
  it.each([0, 1, -0.1, 1.1, Number.NaN])("refuses %d", (probability) =>
    expect(() => normalQuantile(probability)).toThrow(expect.objectContaining({ code: "OUT_OF_DOMAIN" })),
  );
});
