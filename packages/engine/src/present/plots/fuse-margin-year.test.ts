import { describe, expect, it } from "vitest";
import { fuseMarginYear } from "./fuse-margin-year.ts";

const NAMES = { id: "year", title: "Year", firstDayIso: "2026-01-30" };

describe("the fuse's margin through a year", () => {
  it("names the worst day, on both edges, and the highest of each month", () => {
    const { text, svg } = fuseMarginYear({
      ...NAMES,
      fastFraction: [0.1, 0.2, 0.7501, Number.NaN],
      slowFraction: [0.01, 0.02, 0.05, Number.NaN],
    });
    expect(text.sentences).toEqual([
      "Damage fraction of the main fuse, highest of each of 4 days from 2026-01-30; at 1 it melts.",
      "The worst is 0.751 on 2026-02-01, on the slow edge 0.050.",
      "Days on which the fuse may have melted, at 1 or more on the fast edge: 0; on which it has melted, at 1 or more on the slow edge: 0.",
      "Gaps are days without a usable figure on the fast edge: 1.",
    ]);
    expect(text.table?.rows).toEqual([
      ["2026-01", "0.200", "0.020"],
      ["2026-02", "0.751", "0.050"],
    ]);
    expect(svg).toContain("worst: 0.751, 2026-02-01");
  });

  it("counts 1 as melting, on either edge", () => {
    const { text } = fuseMarginYear({ ...NAMES, fastFraction: [1, 0.9999, 3], slowFraction: [0.5, 0.2, 1] });
    expect(text.sentences[2]).toMatch(/fast edge: 2; .* slow edge: 1\.$/);
  });

  it("is linear up to five, so that 1 stands where it is, and logarithmic beyond", () => {
    const heights = (highest: number) => {
      const { svg, text } = fuseMarginYear({ ...NAMES, fastFraction: [highest], slowFraction: [0] });
      const one = Number(/M[\d.]+ ([\d.]+)H[\d.]+" stroke-width="1.8" stroke-dasharray/.exec(svg)?.[1]);
      const foot = Number(/M[\d.]+ ([\d.]+)H[\d.]+"\/>/.exec(svg)?.[1]);
      return {
        share: (foot - one) / 170,
        isLog: text.sentences.some((words) => words.includes("logarithmic")),
      };
    };
    expect(heights(5).isLog).toBe(false);
    expect(Math.abs(heights(5).share - 1 / 5)).toBeLessThan(0.001); // two roundings to 0.1 of 170
    expect(heights(5.1).isLog).toBe(true);
    expect(Math.abs(heights(99).share - 1 / 2)).toBeLessThan(0.001); // 0.01, 0.1, 1, 10, 100
    expect(heights(0.02).isLog).toBe(false);
  });

  it("has no worst day where all are 0", () => {
    const { text, svg } = fuseMarginYear({ ...NAMES, fastFraction: [0, 0, 0], slowFraction: [0, 0, 0] });
    expect(text.sentences[1]).toBe("It is 0 on every day.");
    expect(text.sentences).toHaveLength(2);
    expect(svg).toContain(">0 on every day<");
    expect(svg).not.toContain("worst");
  });

  it("takes the slow edge where the fast was not worked", () => {
    const { text } = fuseMarginYear({ ...NAMES, fastFraction: [], slowFraction: [0.3], firstDayIso: null });
    expect(text.sentences[1]).toBe("The worst is 0.300 on day 1, on the slow edge 0.300.");
  });

  it("refuses a first day that is no date", () =>
    expect(() =>
      fuseMarginYear({ ...NAMES, fastFraction: [], slowFraction: [], firstDayIso: "30/01/2026" }),
    ).toThrow(/"30\/01\/2026".*2026-01-31/));
});
