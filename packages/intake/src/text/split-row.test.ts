import { parse } from "csv-parse/sync";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { isRow, splitRow } from "./split-row.ts";

describe("splitRow", () => {
  it.each([
    ["a,b,,", ["a", "b", "", ""]],
    ['"a,b",c', ["a,b", "c"]],
    ['"say ""so""",', ['say "so"', ""]],
    [' "a" ,b', ["a", "b"]],
    ['"two\nlines",b', ["two\nlines", "b"]],
    ["", [""]],
  ])("%j", (line, cells) => expect(splitRow(line, ",")).toEqual(cells));
  it("says where a quote may not stand, and that one is open", () => {
    expect(splitRow('a,6" pipe', ",")).toEqual({ strayAt: 4 });
    expect(splitRow('"a"b,c', ",")).toEqual({ strayAt: 4 });
    expect(splitRow('a,"b', ",")).toEqual({ open: true });
  });
  it("parts what an independent writer would quote, as an independent reader does", () => {
    const cell = fc.string({ unit: fc.constantFrom("a", "1", ",", ";", '"', "é", "."), maxLength: 8 });
    fc.assert(
      fc.property(fc.array(cell, { minLength: 2, maxLength: 6 }), (cells) => {
        const line = cells
          .map((text) => (/[",]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text))
          .join(",");
        const mine = splitRow(line, ",");
        expect(mine).toEqual(cells);
        expect([mine]).toEqual(parse(line, { relax_quotes: false }).slice(0, 1));
      }),
    );
  });
  it("gives cells or a reason for any line", () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom("a", ",", '"', " ", "\n") }), (line) => {
        const row = splitRow(line, ",");
        expect(isRow(row) ? row.length : Object.keys(row).length).toBeGreaterThan(0);
      }),
    );
  });
});
