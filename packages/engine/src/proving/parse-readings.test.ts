import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parseReadings, parseReadingsValue } from "./parse-readings.ts";

describe(parseReadings, () => {
  it("gives readings or problems for any JSON, and never throws", () => {
    fc.assert(
      fc.property(fc.json(), (text) => {
        const result = parseReadings(text);
        expect(result.ok || result.problems.length > 0).toBe(true);
      }),
    );
  });

  it("gives readings or problems for anything that begins rightly", () => {
    fc.assert(
      fc.property(fc.jsonValue(), (steps) => {
        const result = parseReadingsValue({ format: "underfuse-readings", formatVersion: 1, steps });
        expect(result.ok || result.problems.every(({ message }) => message !== "")).toBe(true);
      }),
    );
  });

  it.each([
    ["not JSON", "{", "JSON_SYNTAX"],
    ["another format", '{"format":"something"}', "NOT_READINGS"],
    ["no steps", '{"format":"underfuse-readings","formatVersion":1,"steps":[]}', "FIELD_OUT_OF_RANGE"],
    [
      "a unit nobody knows",
      '{"format":"underfuse-readings","formatVersion":1,"steps":[{"id":"a","meter":{"L1":{"horsepower":1}}}]}',
      "FIELD_UNKNOWN",
    ],
    [
      "text for a number",
      '{"format":"underfuse-readings","formatVersion":1,"steps":[{"id":"a","meter":{"L1":{"watts":"1 kW"}}}]}',
      "FIELD_WRONG_TYPE",
    ],
  ])("refuses %s", (_what, text, code) => {
    const result = parseReadings(text);
    expect(result.ok ? [] : result.problems.map((problem) => problem.code)).toContain(code);
  });
});
