import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { demand } from "../testing/knowledge.ts";
import { street } from "../testing/street.ts";
import { parsePortfolio } from "./parse-portfolio.ts";

const parse = (value: unknown) =>
  parsePortfolio(typeof value === "string" ? value : JSON.stringify(value), demand.appliances);
const problems = (value: unknown) => {
  const result = parse(value);
  return result.ok ? [] : result.problems;
};

describe("parsePortfolio", () => {
  it("opens a portfolio as it is", () => expect(parse(street())).toEqual({ ok: true, portfolio: street() }));
  it.each([
    ["no JSON", "{", "JSON_SYNTAX", "line 1, column 2"],
    ["another document", { format: "underfuse-job" }, "NOT_A_PORTFOLIO", "format"],
    ["a list", [], "NOT_A_PORTFOLIO", "format"],
    ["no homes", street({ homes: 0 }), "FIELD_OUT_OF_RANGE", "homes"],
    ["half a home", street({ homes: 1.5 }), "FIELD_WRONG_TYPE", "homes"],
    ["a share in per cent", street({ heatPumpShare: 30 }), "FIELD_OUT_OF_RANGE", "heatPumpShare"],
    ["a word for a number", { ...street(), homes: "sixty" }, "FIELD_WRONG_TYPE", "homes"],
    ["a field too many", { ...street(), homs: 60 }, "FIELD_UNKNOWN", "homs"],
    ["a field missing", { ...street(), draws: undefined }, "FIELD_MISSING", "draws"],
    ["a car below 6 A", street({}, { rateA: 5 }), "FIELD_OUT_OF_RANGE", "cars.rateA"],
    [
      "two lines",
      street({ feeder: { lines: 2 as 3, voltageV: 230, limitA: null } }),
      "FIELD_NOT_ALLOWED",
      "feeder.lines",
    ],
    [
      "an appliance nobody knows",
      street({ ownedShares: { sauna: 1 } }),
      "FIELD_UNKNOWN",
      "ownedShares.sauna",
    ],
    [
      "a shower where it has a field of its own",
      street({ ownedShares: { "electric-shower": 1 } }),
      "FIELD_UNKNOWN",
      "ownedShares.electric-shower",
    ],
    [
      "more than anybody waits for",
      street({ homes: 20_000, draws: 1000, days: { first: 0, count: 365 } }),
      "FIELD_OUT_OF_RANGE",
      "draws",
    ],
    [
      "more days than are kept",
      street({ homes: 1, draws: 1000, days: { first: 0, count: 3650 } }),
      "FIELD_OUT_OF_RANGE",
      "draws",
    ],
  ])("refuses %s, with its place and a cure", (_what, value, code, path) => {
    const [problem] = problems(value);
    expect(problem).toMatchObject({ code, path });
    expect(problem?.message).toMatch(/\.$/);
  });
  it("takes just as much as anybody waits for", () => {
    // 20 000 homes on 1000 days of 10 streets: 200 million days of a home.
    const most = street({ homes: 20_000, draws: 10, days: { first: 0, count: 1000 } });
    expect(parse(most).ok).toBe(true);
    expect(parse({ ...most, draws: 11 }).ok).toBe(false);
  });
  it("never throws, whatever stands in the file", () => {
    const changed = fc.tuple(fc.constantFrom(...Object.keys(street())), fc.jsonValue());
    fc.assert(
      fc.property(changed, ([key, value]) => {
        const result = parse({ ...street(), [key]: value });
        if (!result.ok) expect(result.problems.length).toBeGreaterThan(0);
      }),
      { numRuns: 300 },
    );
    fc.assert(
      fc.property(fc.string(), (text) => {
        expect(parse(text).ok).toBe(false);
      }),
    );
  });
});
