import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { linearTicks, logTicks } from "./ticks.ts";

const values = (ticks: readonly { readonly value: number }[]) => ticks.map(({ value }) => value);
const texts = (ticks: readonly { readonly text: string }[]) => ticks.map(({ text }) => text);
const anyRange = (bound: fc.Arbitrary<number>) =>
  fc.tuple(bound, bound, fc.integer({ min: 3, max: 100 })).map(([a, b, maxCount]) => ({
    min: Math.min(a, b),
    max: Math.max(a, b),
    maxCount,
  }));

describe("linearTicks", () => {
  it.each([
    [{ min: 0, max: 84.3, maxCount: 6 }, ["0", "20", "40", "60", "80", "100"]],
    [{ min: -23, max: 80, maxCount: 7 }, ["-40", "-20", "0", "20", "40", "60", "80"]],
    [{ min: 0, max: 0.37, maxCount: 5 }, ["0.0", "0.1", "0.2", "0.3", "0.4"]],
    [{ min: 0, max: 0, maxCount: 3 }, ["0.0", "0.5", "1.0"]],
    [{ min: 7, max: 7, maxCount: 5 }, ["6", "8", "10", "12", "14"]],
    [{ min: 0, max: 12_400, maxCount: 4 }, ["0", "5000", "10\u202f000", "15\u202f000"]],
    [{ min: 0, max: 3e9, maxCount: 4 }, ["0", "10⁹", "2×10⁹", "3×10⁹"]],
    [{ min: 0, max: 2, maxCount: 9, minStep: 1 }, ["0", "1", "2"]],
  ])("of %o", (range, expected) => expect(texts(linearTicks(range))).toEqual(expected));

  it("hold the range, stand even, are round, and are no more than asked", () => {
    fc.assert(
      fc.property(anyRange(fc.double({ min: -1e12, max: 1e12, noNaN: true })), (range) => {
        const ticks = values(linearTicks(range));
        const [first = Number.NaN, second = Number.NaN] = ticks;
        const step = second - first;
        expect(ticks.length).toBeGreaterThanOrEqual(2);
        expect(ticks.length).toBeLessThanOrEqual(range.maxCount);
        // A quotient or a difference of two ticks has the rounding of both.
        const rounding = 4 * Number.EPSILON * Math.max(...ticks.map(Math.abs));
        expect(first).toBeLessThanOrEqual(range.min + rounding);
        expect(ticks.at(-1)).toBeGreaterThanOrEqual(range.max - rounding);
        ticks.forEach((tick, index) => {
          expect(Math.abs(tick - (first + index * step))).toBeLessThanOrEqual((index + 1) * rounding);
        });
        if (step > 1e6 * rounding) {
          const digit = Number(step.toExponential(6).split("e")[0]);
          expect([1, 2, 5]).toContain(digit);
        }
        if (range.min <= 0 && range.max >= 0) expect(ticks).toContain(0);
      }),
    );
  });

  it("are as many as fit: a step finer would be too many", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 3, max: 40 }),
        fc.double({ min: 1, max: 1e6, noNaN: true }),
        (maxCount, max) => {
          const count = linearTicks({ min: 0, max, maxCount }).length;
          // From one step to the next finer is a factor of 2.5 at most.
          expect(2.5 * count + 1).toBeGreaterThanOrEqual(maxCount - 1);
        },
      ),
    );
  });

  it.each([
    { min: 2, max: 1, maxCount: 5 },
    { min: 0, max: 1e13, maxCount: 5 },
    { min: Number.NaN, max: 1, maxCount: 5 },
    { min: 0, max: 1, maxCount: 2 },
  ])("refuses %o", (range) =>
    expect(() => linearTicks(range)).toThrow(expect.objectContaining({ code: "OUT_OF_DOMAIN" })),
  );
});

describe("logTicks", () => {
  it.each([
    [{ min: 60, max: 1250, maxCount: 12 }, ["50", "100", "200", "500", "1000", "2000"]],
    [{ min: 0.01, max: 7200, maxCount: 10 }, ["0.01", "0.1", "1", "10", "100", "1000", "10\u202f000"]],
    [{ min: 50, max: 1000, maxCount: 12 }, ["50", "100", "200", "500", "1000"]],
    [{ min: 1, max: 1, maxCount: 5 }, ["1", "2"]],
    [{ min: 1e-6, max: 1e6, maxCount: 5 }, ["10⁻⁶", "0.001", "1", "1000", "10⁶"]],
    [{ min: 0.000_04, max: 0.000_3, maxCount: 5 }, ["2×10⁻⁵", "5×10⁻⁵", "10⁻⁴", "2×10⁻⁴", "5×10⁻⁴"]],
  ])("of %o", (range, expected) => expect(texts(logTicks(range))).toEqual(expected));

  it("hold the range, rise, and are no more than asked", () => {
    const positive = fc.double({ min: -12, max: 12, noNaN: true }).map((exponent) => 10 ** exponent);
    fc.assert(
      fc.property(anyRange(positive), (range) => {
        const clipped = { ...range, min: Math.max(range.min, 1e-12), max: Math.min(range.max, 1e12) };
        const ticks = values(logTicks(clipped));
        expect(ticks.length).toBeGreaterThanOrEqual(2);
        expect(ticks.length).toBeLessThanOrEqual(clipped.maxCount);
        expect(ticks[0]).toBeLessThanOrEqual(clipped.min);
        expect(ticks.at(-1)).toBeGreaterThanOrEqual(clipped.max);
        expect(ticks).toEqual(ticks.toSorted((a, b) => a - b));
      }),
    );
  });

  it("refuses what has no logarithm", () =>
    expect(() => logTicks({ min: 0, max: 1, maxCount: 5 })).toThrow(
      expect.objectContaining({ code: "OUT_OF_DOMAIN" }),
    ));
});
