import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readNumber } from "./number-cell.ts";

const marks = () => ({ pointLine: 0, commaLine: 0, doubtfulLine: 0 });
const read = (text: string) => readNumber(text, 1, marks());

describe("readNumber", () => {
  it.each([
    ["0.25", 0.25],
    [" 12 ", 12],
    ["-0.5", -0.5],
    ["+3", 3],
    [".5", 0.5],
    ["1e-3", 0.001],
    ["0,25", 0.25],
    ["-1,5", -1.5],
  ])("%j is %d", (text, value) => expect(read(text)).toBe(value));
  it.each(["", " ", "?", "-", "N/A", "null", "NaN"])("%j was not recorded", (text) =>
    expect(read(text)).toBeNaN(),
  );
  it.each([
    "x",
    "0x10",
    "0b1",
    "1_000",
    "1,2,3",
    "1.2.3",
    "Infinity",
    "1e999",
    "1e16",
    "99999999999999999",
    "1 000",
    "12kWh",
    "--1",
    ".",
  ])("%j is none", (text) => expect(read(text)).toBeNull());
  it("tells decimal commas from those that may part thousands", () => {
    const seen = marks();
    for (const [line, text] of ["1,234", "0,123", "1,5", "2.5"].entries()) readNumber(text, line + 1, seen);
    expect(seen).toEqual({ pointLine: 4, commaLine: 2, doubtfulLine: 1 });
  });
  it("reads every number as it was printed", () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, min: -1e15, max: 1e15 }), (value) => {
        expect(read(String(value))).toBe(value + 0);
      }),
    );
  });
});
