import { describe, expect, it } from "vitest";
import { afterDiversityDemand, type DiversityPoint } from "./after-diversity-demand.ts";

const plain = (words: string): string => words.replaceAll("\u00a0", " ");
const NAMES = { id: "diversity", title: "Demand", bandOf: "90 % of drawn groups" };
const point = (
  customerCount: number,
  demandKw: number,
  lowKw = demandKw - 1,
  highKw = demandKw + 1,
): DiversityPoint => ({
  customerCount,
  demandKw,
  lowKw,
  highKw,
});

describe("demand after diversity", () => {
  it("says both ends, in order of customers", () => {
    const { text } = afterDiversityDemand({
      ...NAMES,
      points: [point(100, 1.5), point(1, 9), point(10, 3.25)],
    });
    expect(text.sentences.map(plain)).toEqual([
      "Maximum demand for each customer: 9.00 kW with 1 customer, 1.50 kW with 100 customers. The band holds 90 % of drawn groups.",
    ]);
    expect(text.table?.rows.map((row) => row.map(plain))).toEqual([
      ["1", "9.00 kW", "8.00 kW to 10.00 kW"],
      ["10", "3.25 kW", "2.25 kW to 4.25 kW"],
      ["100", "1.50 kW", "0.50 kW to 2.50 kW"],
    ]);
  });

  it("puts equal factors at equal distances, above zero", () => {
    const { svg } = afterDiversityDemand({ ...NAMES, points: [point(1, 8), point(10, 4), point(100, 2)] });
    const line = /d="(M[^"]*)" stroke-width="1.8"\/>\n<path d="M[^"]*a2.5/.exec(svg)?.[1] ?? "";
    const [[x1 = 0, y1 = 0] = [], [x2 = 0, y2 = 0] = [], [x3 = 0, y3 = 0] = []] = [
      ...line.matchAll(/[ML]([\d.]+) ([\d.]+)/g),
    ].map((match) => match.slice(1).map(Number));
    // Coordinates are rounded to a tenth: a difference may be off by one, a difference of two by two.
    expect(Math.abs(x2 - x1 - (x3 - x2))).toBeLessThan(0.21);
    expect(Math.abs(y2 - y1 - 2 * (y3 - y2))).toBeLessThan(0.31);
  });

  it("parts the band where there is none, and leaves out what cannot be used", () => {
    const gap = point(5, 4, Number.NaN, Number.NaN);
    const points = [
      point(1, 9),
      point(2, 6),
      gap,
      point(20, 2),
      point(50, 2),
      point(0, 3),
      point(7, Number.NaN),
    ];
    const { text, svg } = afterDiversityDemand({ ...NAMES, points });
    expect(text.sentences).toContain("Left out, without a usable figure: 2.");
    expect(text.table?.rows[2]?.[2]).toBe("–");
    const band = /d="(M[^"]*)" fill="currentColor" fill-opacity="0.28"/.exec(svg)?.[1] ?? "";
    expect(band.match(/M/g)).toHaveLength(2);
  });

  it("shows a dozen rows at most, the first and the last among them", () => {
    const points = Array.from({ length: 100 }, (_, index) => point(index + 1, 9 / (index + 1)));
    const { text } = afterDiversityDemand({ ...NAMES, points });
    expect(text.table?.rows.length).toBeLessThanOrEqual(12);
    expect([text.table?.rows[0]?.[0], text.table?.rows.at(-1)?.[0]]).toEqual(["1", "100"]);
    expect(text.sentences.at(-1)).toBe(`The table shows ${text.table?.rows.length} of 100 points.`);
  });

  it("says so where there is nothing", () =>
    expect(afterDiversityDemand({ ...NAMES, points: [] }).text.sentences).toEqual([
      "There is no demand to show.",
    ]));
});
