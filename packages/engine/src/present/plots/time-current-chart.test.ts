import { describe, expect, it } from "vitest";
import { CHART } from "../../testing/plot-samples.ts";
import { timeCurrentChart } from "./time-current-chart.ts";

const plain = (words: string): string => words.replaceAll("\u00a0", " ");
/** From 100 A, 100 s to 1000 A, 1 s on the fast edge; the slow edge takes ten times as long. */
const BAND = {
  fast: [
    [100, 100],
    [1000, 1],
  ],
  slow: [
    [100, 1000],
    [1000, 10],
  ],
} as const;
const chart = (excursions: readonly { readonly currentA: number; readonly durationS: number }[]) =>
  timeCurrentChart({ ...CHART, band: BAND, excursions });

describe("a time-current chart", () => {
  it("judges each excursion by both edges; on an edge is at it", () => {
    const { text } = chart([
      { currentA: 99, durationS: 1e6 },
      { currentA: 100, durationS: 99 },
      { currentA: 100, durationS: 100 },
      { currentA: 100, durationS: 999 },
      { currentA: 100, durationS: 1000 },
      { currentA: 0, durationS: 5 },
      { currentA: 80, durationS: Number.NaN },
    ]);
    expect(text.sentences.map(plain)).toEqual([
      "Time-current band of the main fuse, and 5 excursions.",
      "The fuse holds in 2, may melt in 2, melts in 1.",
      "The nearest to melting is 100.0 A for 1000 s; on the fast edge it takes 100 s, on the slow edge 1000 s.",
      "Left out, without a current and a duration above zero: 2.",
      "Where points lie on each other, only the nearest to melting is drawn.",
    ]);
    expect(text.table?.rows.map((row) => row.map(plain))).toEqual([
      ["100.0 A", "1000 s", "100 s", "1000 s"],
      ["100.0 A", "999 s", "100 s", "1000 s"],
      ["100.0 A", "100 s", "100 s", "1000 s"],
      ["100.0 A", "99.0 s", "100 s", "1000 s"],
      ["99.0 A", "10⁶ s", "no melting", "no melting"],
    ]);
  });

  it("marks the three by three shapes", () => {
    const shapes = (currentA: number, durationS: number) => {
      const { svg } = chart([{ currentA, durationS }]);
      return [/a2 2 0 1 0 4/, /l3\.5 3\.5/, /m0 -6l-6 6/].map(
        (shape) => (svg.match(new RegExp(shape, "g")) ?? []).length,
      );
    };
    // Each shape stands once in the field and once in the legend.
    expect(shapes(150, 1)).toEqual([2, 0, 0]);
    expect(shapes(150, 100)).toEqual([0, 2, 0]);
    expect(shapes(150, 900)).toEqual([0, 0, 2]);
  });

  it("of points on each other keeps the nearest to melting", () => {
    // At 300 A the fast edge is at 100 s / 3², which is between the two.
    const points = [11, 11.2, 11.05].map((durationS) => ({ currentA: 300, durationS }));
    const { svg, text } = chart(points);
    expect(text.sentences[1]).toBe("The fuse holds in 2, may melt in 1, melts in 0.");
    expect(svg.match(/a2 2 0 1 0 4/g)).toHaveLength(1); // in the legend only
    expect(svg.match(/l3\.5 3\.5l/g)).toHaveLength(2);
  });

  it("judges nothing without a band", () => {
    const { text, svg } = timeCurrentChart({ ...CHART, band: { fast: [], slow: [] } });
    expect(text.sentences[0]).toContain("is not known, so none can be judged.");
    expect(text.table).toBeNull();
    expect(svg).toContain(">not judged<");
  });

  it("says so where none reaches the band", () => {
    expect(chart([{ currentA: 61, durationS: 5 }]).text.sentences).toContain(
      "None reaches the current from which it can melt.",
    );
  });
});
