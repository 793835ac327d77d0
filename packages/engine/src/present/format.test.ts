import { describe, expect, it } from "vitest";
import { durationWords, fill, inWorking, withUnit } from "./format.ts";

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

describe("durationWords", () => {
  it.each([
    [0, "0 s"],
    [13.64, "13.7 s"],
    [599, "599 s"],
    [600, "10 min"],
    [601, "11 min"],
    [3600, "1 h"],
    [14_783, "4 h 7 min"],
    [110_600, "30 h 44 min"],
    [7199, "2 h"],
  ])("%d s are %s", (durationS, words) =>
    expect(durationWords(durationS).replaceAll("\u00a0", " ")).toBe(words),
  );
  it("rounds down where more would be said than was", () =>
    expect(durationWords(659, "down")).toBe("10\u00a0min"));
});
