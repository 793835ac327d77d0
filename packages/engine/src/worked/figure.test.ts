import { describe, expect, it } from "vitest";
import { type Figure, figureOn } from "./figure.ts";

const citation = { source: "test", at: "here", standing: "seen" } as const;
const figure: Figure = {
  symbol: "Cmin",
  label: "voltage factor",
  unit: "",
  series: [
    { from: "2008-07-01", value: 1, citation },
    { from: "2015-07-01", value: 0.95, citation },
    { from: "2030-01-01", value: null, citation },
  ],
};

describe("figureOn", () => {
  it.each([
    ["2008-07-01", 1],
    ["2015-06-30", 1],
    ["2015-07-01", 0.95],
    ["2029-12-31", 0.95],
  ])("on %s it is %d", (date, value) =>
    expect(figureOn(figure, date)).toMatchObject({ kind: "figure", value }),
  );
  it.each(["2008-06-30", "2030-01-01"])("on %s there is none, and it says so", (date) => {
    expect(figureOn(figure, date)).toMatchObject({
      kind: "unknown",
      missing: [{ what: "figure", label: expect.stringContaining(date) }],
    });
  });
});
