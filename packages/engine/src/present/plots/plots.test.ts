import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { expectAsCommitted } from "../../testing/committed-drawing.ts";
import * as samples from "../../testing/plot-samples.ts";
import { faultsOf } from "../../testing/svg-texts.ts";
import { afterDiversityDemand } from "./after-diversity-demand.ts";
import { energyPerSession } from "./energy-per-session.ts";
import { fuseMarginYear } from "./fuse-margin-year.ts";
import { histogramOfPeaks } from "./histogram-of-peaks.ts";
import type { Plot } from "./plot.ts";
import { sweepTable } from "./sweep-table.ts";
import { timeCurrentChart } from "./time-current-chart.ts";
import { weekOfCurrent } from "./week-of-current.ts";

const COMMITTED: Readonly<Record<string, () => Plot>> = {
  "week-of-current": () => weekOfCurrent(samples.WEEK),
  "week-of-export": () => weekOfCurrent(samples.WEEK_OF_EXPORT),
  "histogram-of-peaks": () => histogramOfPeaks(samples.PEAKS),
  "fuse-margin-year": () => fuseMarginYear(samples.YEAR),
  "fuse-margin-year-beyond": () => fuseMarginYear(samples.YEAR_BEYOND),
  "time-current-chart": () => timeCurrentChart(samples.CHART),
  "energy-per-session": () => energyPerSession(samples.SESSIONS),
  "energy-of-many-sessions": () => energyPerSession(samples.MANY_SESSIONS),
  "after-diversity-demand": () => afterDiversityDemand(samples.DIVERSITY),
  "sweep-table": () => sweepTable(samples.SWEEP),
};

describe.each(Object.entries(COMMITTED))("%s", (name, draw) => {
  it("is drawn as committed, and has no fault that needs no eye", () => {
    const { svg } = draw();
    expectAsCommitted(new URL("drawings/", import.meta.url), name, svg);
    expect(faultsOf(svg)).toEqual([]);
  });
  it("is the same bytes each time, and says in its description what its text says", () => {
    const { svg, text } = draw();
    expect(draw().svg).toBe(svg);
    expect(text.sentences.length).toBeGreaterThan(0);
    for (const sentence of text.sentences) expect(sentence).toMatch(/^[A-Z0-9].*\.$/);
    expect(svg).toContain(`<desc id="${/aria-labelledby="(\S+)-title/.exec(svg)?.[1]}-desc">`);
  });
});

/** What a caller may hand over, good or bad. */
interface Given {
  readonly numbers: readonly number[];
  readonly others: readonly number[];
  readonly words: string;
  readonly limitA: number | null;
  readonly fuseA: number | null;
}

const DRAWERS: Readonly<Record<string, (given: Given) => Plot>> = {
  weekOfCurrent: ({ numbers, others, words, limitA, fuseA }) =>
    weekOfCurrent({
      id: words,
      title: words,
      periodS: 600,
      lines: ["L1", words, "L3"].map((name) => ({
        name,
        supplyMeanA: numbers,
        supplyMaxA: others,
        carMeanA: others,
        carMaxA: numbers,
      })),
      days: numbers.map((_, period) => ({ period, label: words })),
      limitA,
      fuseA,
      moment: { period: numbers.length - 1, line: words, label: words },
    }),
  histogramOfPeaks: ({ numbers, words, limitA, fuseA }) =>
    histogramOfPeaks({ id: words, title: words, peaksA: numbers, peakOf: words, limitA, fuseA }),
  fuseMarginYear: ({ numbers, others, words }) =>
    fuseMarginYear({
      id: words,
      title: words,
      fastFraction: numbers,
      slowFraction: others,
      firstDayIso: numbers.length % 2 === 0 ? "2024-02-27" : null,
    }),
  timeCurrentChart: ({ numbers, others, words, limitA, fuseA }) =>
    timeCurrentChart({
      id: words,
      title: words,
      band: numbers.length % 2 === 0 ? samples.CHART.band : { fast: [], slow: [] },
      excursions: numbers.map((currentA, index) => ({ currentA, durationS: others[index] ?? 1 })),
      limitA,
      fuseA,
    }),
  energyPerSession: ({ numbers, others, words }) =>
    energyPerSession({
      id: words,
      title: words,
      wantedKwh: numbers,
      deliveredKwh: others,
      names: numbers.length % 2 === 0 ? numbers.map(() => words) : null,
    }),
  afterDiversityDemand: ({ numbers, others, words }) =>
    afterDiversityDemand({
      id: words,
      title: words,
      bandOf: words,
      points: numbers.map((customerCount, index) => ({
        customerCount,
        demandKw: others[index] ?? 1,
        lowKw: others[index + 1] ?? 1,
        highKw: numbers[index - 1] ?? 2,
      })),
    }),
  sweepTable: ({ numbers, others, words, limitA }) =>
    sweepTable({
      id: words,
      title: words,
      rowsName: words,
      rows: [words, "60 A"],
      columnsName: words,
      columns: numbers.slice(0, 100).map((_, index) => (index % 2 === 0 ? words : "2 s")),
      cells: [numbers, others],
      outcome: { name: words, unit: "A", decimals: 1, bound: limitA },
    }),
};

const range = (count: number, value: (index: number) => number): readonly number[] =>
  Array.from({ length: count }, (_, index) => value(index));
const NUMBERS: Readonly<Record<string, readonly number[]>> = {
  none: [],
  one: [5],
  zero: [0],
  "none usable": [Number.NaN, Number.POSITIVE_INFINITY, 1e300],
  "all equal": range(50, () => 7.3),
  negative: range(30, (index) => -index * 1.7),
  "huge and tiny": [-1e12, 1e12, 1e-12, 5e-324, -0],
  "gaps between": range(40, (index) => (index % 3 === 0 ? Number.NaN : index * 2.2)),
  "close together": [79.999_999_999, 80, 80.000_000_001],
  many: range(700, (index) => 40 + 39 * Math.sin(index)),
};
const WORDS = ["day", "", "W".repeat(2000), "名前 😀 <b a='1'>&\u0000\ud800", "a\nb\tc"];
const BOUNDS = [
  [60, 80],
  [80, 80],
  [79.6, 80.4],
  [null, null],
  [Number.NaN, 0],
  [1e12, -1e12],
  [0.001, 100_000],
] as const;

/** Kept by every plot, whatever it is given. */
const MAX_BYTES = 200_000;
const MANY = 20_000;
const MILLION = Float64Array.from({ length: 1_000_000 }, (_, index) => 1 + 50 * Math.abs(Math.sin(index)));

describe.each(Object.entries(DRAWERS))("%s", (_name, draw) => {
  it.each(Object.entries(NUMBERS))("draws %s", (_what, numbers) => {
    BOUNDS.forEach(([limitA, fuseA], index) => {
      const words = WORDS[index % WORDS.length] ?? "";
      const { svg, text } = draw({ numbers, others: numbers.toReversed(), words, limitA, fuseA });
      expect(faultsOf(svg), `${words.slice(0, 20)}, ${limitA}, ${fuseA}`).toEqual([]);
      expect(Buffer.byteLength(svg)).toBeLessThan(MAX_BYTES);
      expect(JSON.stringify(text)).not.toMatch(/NaN|Infinity|undefined/);
    });
  });

  it("draws whatever numbers come", () => {
    const number = fc.oneof(fc.double(), fc.double({ min: -100, max: 300 }));
    const bound = fc.option(number);
    fc.assert(
      fc.property(
        fc.array(number, { maxLength: 80 }),
        fc.array(number, { maxLength: 80 }),
        bound,
        bound,
        (numbers, others, limitA, fuseA) => {
          const { svg, text } = draw({ numbers, others, words: "day", limitA, fuseA });
          expect(faultsOf(svg)).toEqual([]);
          expect(JSON.stringify(text)).not.toMatch(/NaN|Infinity|undefined/);
        },
      ),
    );
  });

  it("keeps very many points small", () => {
    const numbers = range(MANY, (index) => 1 + 50 * Math.abs(Math.sin(index)));
    const others = range(MANY, (index) => 1 + 30 * Math.abs(Math.cos(index * 3)));
    const { svg, text } = draw({ numbers, others, words: "day", limitA: 60, fuseA: 80 });
    expect(faultsOf(svg)).toEqual([]);
    expect(Buffer.byteLength(svg)).toBeLessThan(MAX_BYTES);
    expect(text.table?.rows.length ?? 0).toBeLessThanOrEqual(60);
  });
});

describe("a million points", () => {
  const names = { id: "many", title: "Many" };
  const bounds = { limitA: 60, fuseA: 80 };
  const line = { name: "L1", supplyMeanA: MILLION, supplyMaxA: MILLION, carMeanA: MILLION, carMaxA: MILLION };
  it.each([
    [
      "weekOfCurrent",
      () =>
        weekOfCurrent({ ...names, ...bounds, periodS: 1, lines: [line, line, line], days: [], moment: null }),
    ],
    ["histogramOfPeaks", () => histogramOfPeaks({ ...names, ...bounds, peaksA: MILLION, peakOf: "minute" })],
    [
      "fuseMarginYear",
      () =>
        fuseMarginYear({ ...names, fastFraction: MILLION, slowFraction: MILLION, firstDayIso: "2026-01-01" }),
    ],
    [
      "energyPerSession",
      () => energyPerSession({ ...names, wantedKwh: MILLION, deliveredKwh: MILLION, names: null }),
    ],
  ])("%s", { timeout: 30_000 }, (_name, draw) => {
    const { svg, text } = draw();
    expect(faultsOf(svg)).toEqual([]);
    expect(Buffer.byteLength(svg)).toBeLessThan(MAX_BYTES);
    expect(JSON.stringify(text).length).toBeLessThan(5000);
  });
});
