import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parseRegisterMap, parseRegisterMapValue } from "./parse-register-map.ts";

const ROW = { quantity: "V", channel: "L1", address: 0, type: "uint16", scale: 0.1, unit: "V" };
const MAP = {
  format: "underfuse-register-map",
  formatVersion: 1,
  id: "invented",
  table: "input",
  source: "invented",
  rows: [ROW],
};
const firstProblem = (value: unknown) => {
  const result = parseRegisterMapValue(value);
  return result.ok ? null : result.problems[0];
};

describe(parseRegisterMap, () => {
  it("takes a map, with or without an order", () => {
    expect(parseRegisterMap(JSON.stringify(MAP)).ok).toBe(true);
    expect(firstProblem({ ...MAP, rows: [{ ...ROW, order: "CDAB" }] })).toBeNull();
  });
  it.each([
    ["a job", { format: "underfuse-job" }, { code: "NOT_REGISTER_MAP", path: "format" }],
    ["a list", [MAP], { code: "NOT_REGISTER_MAP", path: "format", received: "nothing" }],
    ["a later version", { ...MAP, formatVersion: 2 }, { path: "formatVersion", received: "2" }],
    ["no rows", { ...MAP, rows: [] }, { path: "rows", received: "a list of 0" }],
    [
      "another unit",
      { ...MAP, rows: [{ ...ROW, unit: "A" }] },
      { path: "rows[0].unit", received: '"A"', message: "The value must be one of V, mV, kV for V." },
    ],
    [
      "a type nobody knows",
      { ...MAP, rows: [{ ...ROW, type: "double" }] },
      { path: "rows[0].type", received: '"double"' },
    ],
    [
      "a word for an address",
      { ...MAP, rows: [{ ...ROW, address: "0x10" }] },
      { path: "rows[0].address", received: '"0x10"' },
    ],
    ["one row twice", { ...MAP, rows: [ROW, ROW] }, { path: "rows[1]" }],
  ])("refuses %s with path and value", (_what, value, problem) => {
    expect(firstProblem(value)).toMatchObject(problem);
  });
  it("throws nothing, whatever stands in it", () => {
    fc.assert(fc.property(fc.string(), (text) => void parseRegisterMap(text)));
    fc.assert(
      fc.property(fc.dictionary(fc.constantFrom(...Object.keys(ROW), "order"), fc.jsonValue()), (row) => {
        parseRegisterMapValue({ ...MAP, rows: [row] });
      }),
    );
  });
});
