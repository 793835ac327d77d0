import { describe, expect, it } from "vitest";
import { SWEEP } from "../../testing/plot-samples.ts";
import { type SweepTable, sweepTable } from "./sweep-table.ts";

const plain = (words: string): string => words.replaceAll("\u00a0", " ");
const SMALL: SweepTable = {
  id: "sweep",
  title: "Sweep",
  rowsName: "limit",
  rows: ["50 A", "60 A"],
  columnsName: "poll",
  columns: ["1 s", "5 s"],
  cells: [
    [0, 4],
    [10, 10.2],
  ],
  outcome: { name: "time above the fuse rating", unit: "s", decimals: 0, bound: 10 },
};
const heavy = (svg: string): number =>
  (svg.match(/width="[\d.]+" height="32.0" stroke-width="2.4"/g) ?? []).length;

describe("a sweep of settings", () => {
  it("says the least, the most, and how many are above the bound; on it is not above", () => {
    const { text, svg } = sweepTable(SMALL);
    expect(text.sentences.map(plain)).toEqual([
      "Shown: time above the fuse rating, by limit and poll.",
      "The least is 0 s at limit 50 A, poll 1 s; the most is 11 s at limit 60 A, poll 5 s.",
      "Above 10 s: 1 of 4 settings.",
    ]);
    expect(text.table).toEqual({
      head: ["limit \\ poll", "1 s", "5 s"],
      rows: [
        ["50 A", "0", "4"],
        ["60 A", "10", "11"],
      ],
    });
    expect(heavy(svg)).toBe(1);
  });

  it("hatches the denser the larger, and the least not at all", () => {
    const { svg } = sweepTable({
      ...SMALL,
      rows: ["50 A"],
      columns: ["a", "b", "c", "d", "e", "f"],
      cells: [[0, 20, 40, 60, 80, 100]],
    });
    const legendLines = 1;
    const counts = [...svg.matchAll(/d="(M[^"]*)" stroke-width="0.8"/g)]
      .slice(legendLines)
      .map((match) => match[1]?.match(/M/g)?.length ?? 0);
    // Fifths of the range: the last two values lie in one.
    expect(counts).toHaveLength(5);
    expect(counts).toEqual(counts.toSorted((a, b) => a - b));
    expect(new Set(counts).size).toBe(4);
  });

  it("marks what was not worked", () => {
    const { text } = sweepTable({ ...SMALL, cells: [[0, Number.NaN]] });
    expect(text.table?.rows).toEqual([
      ["50 A", "0", "?"],
      ["60 A", "?", "?"],
    ]);
    expect(text.sentences).toContain("Not worked: 3.");
  });

  it("goes on below where columns are too many for the width", () => {
    const columns = Array.from({ length: 14 }, (_, index) => `${index} s`);
    const heightOf = (svg: string): number => Number(/viewBox="0 0 360 (\d+)"/.exec(svg)?.[1]);
    const wide = sweepTable({
      ...SWEEP,
      columns,
      cells: SWEEP.rows.map(() => columns.map((_, index) => index)),
    });
    // One more block: its head, four rows, its gap.
    expect(heightOf(wide.svg) - heightOf(sweepTable(SWEEP).svg)).toBe(17 + 4 * 32 + 10);
  });

  it("refuses more cells than anybody reads", () =>
    expect(() => sweepTable({ ...SMALL, columns: Array.from({ length: 121 }, String) })).toThrow(
      expect.objectContaining({ code: "OUT_OF_DOMAIN" }),
    ));
});
