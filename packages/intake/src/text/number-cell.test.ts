import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { noMarks, readNumber } from "./number-cell.ts";

const read = (text: string) => readNumber(text, 1, noMarks());

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
    ["1,008.50", 1008.5],
    ["1.008,50", 1008.5],
    ["-12,345,678.9", -12_345_678.9],
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
    "1,08.5",
    "10.08,5.1",
    "12kWh",
    "--1",
    ".",
  ])("%j is none", (text) => expect(read(text)).toBeNull());
  it("tells decimal marks from those that may part thousands, and numbers without one", () => {
    const seen = noMarks();
    const cells = ["1.234", "0", "840", "1,234", "0,123", "1,5", "2.5", "3.456"];
    for (const [line, text] of cells.entries()) readNumber(text, line + 1, seen);
    expect(seen).toMatchObject({
      doubtfulPointLine: 1,
      bareLine: 3,
      doubtfulCommaLine: 4,
      commaLine: 5,
      pointLine: 7,
      partedLine: 0,
    });
  });
  it.each([
    ["1.234", true],
    ["-12.345", true],
    ["+123.456", true],
    ["1234.567", false],
    ["0.234", false],
    ["-0.234", false],
    [".234", false],
    ["1.23", false],
    ["1.2345", false],
    ["1.2e3", false],
  ])("%j may part thousands: %s", (text, may) => {
    const seen = noMarks();
    readNumber(text, 1, seen);
    expect([seen.doubtfulPointLine, seen.pointLine]).toEqual(may ? [1, 0] : [0, 1]);
  });
  it.each([
    [".", "1,680", 1680],
    [".", "-12,345,678", -12_345_678],
    [".", "1,680.5", 1680.5],
    [".", "1.680", 1.68],
    [",", "1.680", 1680],
    [",", "12.345.678", 12_345_678],
    [",", "1.680,5", 1680.5],
    [",", "1,680", 1.68],
    [",", "840", 840],
  ] as const)("where %s stands before the fraction %j is %d", (decimal, text, value) =>
    expect(readNumber(text, 1, noMarks(decimal))).toBe(value),
  );
  it("notes what contradicts the mark that was stated", () => {
    const [point, comma] = [noMarks("."), noMarks(",")];
    for (const text of ["1,680", "0,680"]) readNumber(text, 1, point);
    for (const text of ["1.680", "0.680"]) readNumber(text, 1, comma);
    expect(point).toMatchObject({ partedLine: 1, commaLine: 1, pointLine: 0, doubtfulCommaLine: 0 });
    expect(comma).toMatchObject({ partedLine: 1, pointLine: 1, commaLine: 0, doubtfulPointLine: 0 });
  });
  it("reads every number as it was printed", () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, min: -1e15, max: 1e15 }), (value) => {
        expect(read(String(value))).toBe(value + 0);
      }),
    );
  });
});
