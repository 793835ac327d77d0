import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { roundTo } from "./round.ts";

describe("roundTo", () => {
  it.each([
    ["a limit never grows", 0.728, "down", 2, 0.72],
    ["a figure already short stays itself", 0.29, "down", 2, 0.29],
    ["a demand never shrinks", 60.01, "up", 1, 60.1],
    ["a demand already short stays itself", 60.1, "up", 1, 60.1],
    ["halves go away from zero, as printed tables do", 2.185, "nearest", 2, 2.19],
    ["also below zero", -2.185, "nearest", 2, -2.19],
    ["negative zero is never printed", -0.001, "nearest", 2, 0],
  ] as const)("%s", (_what, value, direction, decimals, expected) => {
    expect(roundTo(value, direction, decimals)).toBe(expected);
    expect(Object.is(roundTo(value, direction, decimals), -0)).toBe(false);
  });

  it("down never exceeds, up never falls short, by more than the slack", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        fc.integer({ min: 0, max: 4 }),
        (value, decimals) => {
          const slack = 1e-9 * Math.max(1, Math.abs(value));
          expect(roundTo(value, "down", decimals)).toBeLessThanOrEqual(value + slack);
          expect(roundTo(value, "up", decimals)).toBeGreaterThanOrEqual(value - slack);
        },
      ),
    );
  });
});
