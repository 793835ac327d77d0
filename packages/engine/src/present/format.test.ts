import { describe, expect, it } from "vitest";
import { fill, inWorking, withUnit } from "./format.ts";

describe("withUnit", () => {
  it.each([
    [60.01, "A", 1, "up", "60.1\u00a0A"],
    [1.0925, "Ω", 2, "down", "1.09\u00a0Ω"],
    [12_345.6, "W", 0, "nearest", "12\u202f346\u00a0W"],
    [3, "", 0, "nearest", "3"],
  ] as const)("%d %s", (value, unit, decimals, rounding, expected) => {
    expect(withUnit(value, unit, decimals, rounding)).toBe(expected);
  });
});

describe("inWorking", () => {
  it.each([
    [0, "0"],
    [0.663781234, "0.66378"],
    [230, "230"],
    [0.00082558, "0.00082558"],
    [45_000, "45\u202f000"],
    [1_234_567.8, "1\u202f234\u202f568"],
    [0.1 + 0.2, "0.3"],
    [-1.48, "-1.48"],
    [1.5e-9, "1.5000e-9"],
    [Number.POSITIVE_INFINITY, "Infinity"],
  ])("%d is %s", (value, expected) => expect(inWorking(value)).toBe(expected));
});

describe("fill", () => {
  const amps = (value: number, rounding: "up" | "down" = "up") => ({
    value,
    unit: "A",
    decimals: 1,
    rounding,
  });
  it("puts rounded values in their places, without idle zeros", () => {
    expect(fill("{a} of {b}", { a: amps(60.01), b: amps(58, "down") })).toBe("60.1\u00a0A of 58\u00a0A");
  });
  it("keeps text as it is, and leaves an unknown place to be seen", () => {
    expect(fill("{where}: {what}", { where: "L1" })).toBe("L1: {what}");
  });
});
