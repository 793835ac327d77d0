import { describe, expect, it } from "vitest";
import { movementOf } from "./movement.ts";

/** Half-hours of some days, each value from its place in the day and the day. */
const days = (count: number, value: (slot: number, day: number) => number): Float64Array =>
  Float64Array.from({ length: 48 * count }, (_, at) => value(at % 48, Math.floor(at / 48)));

describe("which way values move", () => {
  it("counts rises and falls from each present value to the next, and finds the first fall", () => {
    expect(movementOf(Float64Array.from([1, 2, Number.NaN, 3, 3, 1, 2, 0]), 1800)).toEqual({
      riseCount: 3,
      fallCount: 2,
      firstFall: { slot: 5, before: 3, after: 1 },
      isDaily: false,
    });
  });
  it("knows a counter that starts anew each day, whether or not its clock keeps summer", () => {
    expect(
      movementOf(
        days(4, (slot) => 0.2 * slot),
        1800,
      ),
    ).toMatchObject({ fallCount: 3, isDaily: true });
    const moved = days(6, (slot, day) => (day < 3 ? slot : (slot + 2) % 48));
    expect(movementOf(moved, 1800)).toMatchObject({ isDaily: true });
    // Coarse, and still for half the day: few rises to a fall.
    expect(
      movementOf(
        days(9, (slot) => Math.floor(slot / 12)),
        1800,
      ),
    ).toMatchObject({ isDaily: true });
  });
  it("takes no day of intervals for one, nor falls at any time, or far from zero", () => {
    expect(
      movementOf(
        days(9, (slot) => (slot > 30 && slot < 40 ? 1.2 : 0.1)),
        1800,
      ).isDaily,
    ).toBe(false);
    expect(
      movementOf(
        days(9, (slot) => 100 + slot),
        1800,
      ).isDaily,
    ).toBe(false);
    expect(
      movementOf(
        days(9, (slot, day) => (slot + 5 * day) % 48),
        1800,
      ).isDaily,
    ).toBe(false);
    expect(
      movementOf(
        days(2, (slot) => slot),
        1800,
      ).isDaily,
    ).toBe(false);
    expect(
      movementOf(
        days(9, (slot) => slot % 24),
        1800,
      ).isDaily,
    ).toBe(false);
  });
});
