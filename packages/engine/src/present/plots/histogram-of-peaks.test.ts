import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { histogramOfPeaks } from "./histogram-of-peaks.ts";

const plain = (words: string): string => words.replaceAll("\u00a0", " ");
const NAMES = { id: "peaks", title: "Peaks", peakOf: "day", limitA: 60, fuseA: 80 };

describe("a histogram of peaks", () => {
  it("counts what is on a bound with what is not above it", () => {
    const { text } = histogramOfPeaks({ ...NAMES, peaksA: [59, 60, 60.01, 80, 80.5, Number.NaN, 0] });
    expect(text.sentences.map(plain)).toEqual([
      "The highest one-minute current of each of 6 days: half are at or below 60.0 A, the highest is 80.5 A, above the limit of 60 A, above the fuse rating of 80 A.",
      "Above limit 60 A for a minute: 3 of 6 days.",
      "Above fuse 80 A for a minute: 1 of 6 days.",
      "Left out, without a usable record: 1.",
    ]);
    expect(text.table?.rows).toEqual([
      ["0 to 5", "1", "0", "0"],
      ["55 to 60", "2", "0", "0"],
      ["60 to 65", "1", "1", "0"],
      ["75 to 80", "1", "1", "0"],
      ["80 to 85", "1", "1", "1"],
    ]);
  });

  it("parts a class that a bound cuts", () => {
    const { text, svg } = histogramOfPeaks({ ...NAMES, limitA: 62, peaksA: [61, 61.5, 62, 63] });
    expect(text.table?.rows).toEqual([["60 to 65", "4", "1", "0"]]);
    // Three of four parts grey, on a field of 150 px whose axis ends at 4.
    expect(svg).toMatch(/height="112\.5" fill="currentColor"/);
  });

  it("loses and invents no peak, in any class", () => {
    fc.assert(
      fc.property(
        fc.array(fc.oneof(fc.double(), fc.double({ min: -50, max: 150 })), { maxLength: 60 }),
        fc.option(fc.double({ min: 1, max: 100, noNaN: true })),
        (peaksA, limitA) => {
          const usable = peaksA.filter((peak) => Math.abs(peak) <= 1e12);
          const { text } = histogramOfPeaks({ ...NAMES, peaksA, limitA, fuseA: null });
          const sum = (column: number): number =>
            (text.table?.rows ?? []).reduce((total, row) => total + Number(row[column]), 0);
          expect(sum(1)).toBe(usable.length);
          if (limitA !== null) expect(sum(2)).toBe(usable.filter((peak) => peak > limitA).length);
        },
      ),
    );
  });

  it("says so where there is nothing", () => {
    const { text, svg } = histogramOfPeaks({ ...NAMES, peaksA: [] });
    expect(text.sentences).toEqual(["No day was recorded."]);
    expect(svg).toContain(">nothing recorded<");
  });
});
