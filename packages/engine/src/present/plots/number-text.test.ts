import { expect, it } from "vitest";
import { numberText } from "./number-text.ts";

it.each([
  [0, 1, "nearest", "0.0"],
  [59.96, 1, "nearest", "60.0"],
  [60.01, 1, "up", "60.1"],
  [999_999, 0, "nearest", "999\u202f999"],
  [1e6, 0, "nearest", "10⁶"],
  [-2.5e7, 1, "nearest", "-2.5×10⁷"],
  [-1e12, 0, "nearest", "-10¹²"],
  [0.004, 1, "nearest", "4×10⁻³"],
] as const)("%d with %i decimals, %s, is %s", (value, decimals, rounding, expected) => {
  expect(numberText(value, decimals, rounding)).toBe(expected);
  expect(numberText(value, decimals, rounding, "A")).toBe(`${expected}\u00a0A`);
});
