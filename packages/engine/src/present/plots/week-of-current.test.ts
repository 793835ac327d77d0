import { describe, expect, it } from "vitest";
import { faultsOf } from "../../testing/svg-texts.ts";
import { weekOfCurrent } from "./week-of-current.ts";
import type { WeekOfCurrent } from "./week-text.ts";

const plain = (words: string): string => words.replaceAll("\u00a0", " ");
const FLAT = {
  name: "L1",
  supplyMeanA: [10, 20, 60],
  supplyMaxA: [12, 60, 60.04],
  carMeanA: [0, 0, 32],
  carMaxA: [0, 6, 32],
};
const SHORT: WeekOfCurrent = {
  id: "short",
  title: "Three periods",
  periodS: 600,
  lines: [FLAT],
  days: [
    { period: 0, label: "Mon" },
    { period: 2, label: "Tue" },
  ],
  limitA: 60,
  fuseA: 80,
  moment: null,
};
const said = (week: WeekOfCurrent) => plain(weekOfCurrent(week).text.sentences.join(" "));

describe("a week of current", () => {
  it("says the highest, when, and against what; on the limit is not above it", () => {
    const { text } = weekOfCurrent(SHORT);
    expect(plain(text.sentences.join(" "))).toBe(
      "Current of L1 over 30 minutes, in 3 periods of 10 minutes. The highest is 60.1 A on L1, Tue 00:00, above the limit of 60 A, not above the fuse rating of 80 A.",
    );
    expect(text.table?.head.map(plain)).toEqual([
      "Line",
      "Supply, highest",
      "When",
      "Supply, mean",
      "Periods above limit 60 A",
      "Periods above fuse 80 A",
      "Cars, highest",
      "Cars, mean",
    ]);
    expect(text.table?.rows.map((row) => row.map(plain))).toEqual([
      ["L1", "60.1 A", "Tue 00:00", "30.0 A", "1", "0", "32.0 A", "10.7 A"],
    ]);
  });

  it("calls a highest on the limit not above it", () =>
    expect(said({ ...SHORT, lines: [{ ...FLAT, supplyMaxA: [12, 60, 60] }] })).toContain(
      "60.0 A on L1, Mon 00:10, not above the limit of 60 A,",
    ));

  it("counts the time of day from where the day begins", () => {
    const days = [{ period: 1, label: "Wed" }];
    expect(said({ ...SHORT, days })).toContain("Wed 00:10");
    expect(said({ ...SHORT, days: [] })).toContain("on L1, period 3");
  });

  it("draws limit and currents at the heights of one scale that begins at zero", () => {
    const { svg } = weekOfCurrent(SHORT);
    const heightOf = (pattern: RegExp): number => Number(pattern.exec(svg)?.[1]);
    const limit = heightOf(/M[\d.]+ ([\d.]+)H[\d.]+" stroke-width="1.3"/);
    const fuse = heightOf(/M[\d.]+ ([\d.]+)H[\d.]+" stroke-width="1.8" stroke-dasharray/);
    const [, mean10, mean20, mean60] = (
      /M[\d.]+ ([\d.]+)H[\d.]+V([\d.]+)H[\d.]+V([\d.]+)H[\d.]+" stroke-width="1.8"\/>/.exec(svg) ?? []
    ).map(Number);
    // Ten amperes are an eighth of the field of 170 px that ends at 80 A; heights are rounded to 0.1.
    const perTen = 170 / 8;
    expect(Math.abs((mean10 ?? 0) - (mean20 ?? 0) - perTen)).toBeLessThan(0.11);
    expect(Math.abs((mean60 ?? 0) - limit)).toBeLessThan(0.11);
    expect(Math.abs(limit - fuse - 2 * perTen)).toBeLessThan(0.11);
  });

  it("keeps the highest of a run when columns are merged, and says that it merges", () => {
    const spike = Array.from({ length: 1008 }, (_, period) => (period === 500 ? 79 : 1));
    const text = said({ ...SHORT, lines: [{ ...FLAT, supplyMaxA: spike }] });
    expect(text).toContain("The highest is 79.0 A");
    expect(text).toContain("Each column drawn stands for 30 minutes");
    const { svg } = weekOfCurrent({ ...SHORT, lines: [{ ...FLAT, supplyMaxA: spike }] });
    const path = /d="(M[^"]*V[^"]*)" stroke-width="0.7"/.exec(svg)?.[1] ?? "";
    const ys = [...path.matchAll(/[V ]([\d.]+)/g)].map((match) => Number(match[1]));
    expect(Math.abs(Math.max(...ys) - Math.min(...ys) - (170 * 78) / 80)).toBeLessThan(0.11);
  });

  it("says what is not known, missing, or outside", () => {
    const text = said({
      ...SHORT,
      lines: [FLAT, { ...FLAT, name: "L2", supplyMaxA: [Number.NaN, 5] }],
      limitA: null,
      fuseA: Number.NaN,
      moment: { period: 7, line: "L2", label: "here" },
    });
    expect(text).toContain("No usable limit is known, so none is drawn.");
    expect(text).toContain("No usable fuse rating is known, so none is drawn.");
    expect(text).toContain("Gaps are periods without a usable record: L1 0, L2 2.");
    expect(text).toContain("A mark on L2 in period 8 lies outside what was recorded and is not drawn: here.");
  });

  it("says so in the field where there is nothing", () => {
    const none = { name: "L1", supplyMeanA: [], supplyMaxA: [], carMeanA: [], carMaxA: [] };
    const { svg, text } = weekOfCurrent({ ...SHORT, lines: [none] });
    expect(svg).toContain(">nothing recorded<");
    expect(text.sentences).toContain("Nothing was recorded.");
    expect(faultsOf(svg)).toEqual([]);
  });

  it("refuses a fourth line", () =>
    expect(() => weekOfCurrent({ ...SHORT, lines: [FLAT, FLAT, FLAT, FLAT] })).toThrow(/lines.length is 4/));

  it("points at a moment on its own line", () => {
    const lines = ["L1", "L2"].map((name) => ({ ...FLAT, name }));
    const moment = { period: 1, line: "L2", label: "kettle" };
    const { svg, text } = weekOfCurrent({ ...SHORT, lines, moment });
    expect(text.sentences.map(plain)).toContain("Marked on L2, Mon 00:10: kettle.");
    const footOf = (words: string) => Number(new RegExp(`y="([\\d.]+)"[^>]*>${words}`).exec(svg)?.[1]);
    expect(Math.abs(footOf("kettle") - footOf("L2"))).toBeLessThan(3);
  });
});
