import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { evenlyThinned, labelAbout, movedApart, thinned } from "./label.ts";

const at = (x: number, text: string) => ({ x, y: 20, text });

describe("labels", () => {
  it("that would touch are left out: the later one, or every so many", () => {
    const row = [10, 40, 70, 100, 130].map((x, index) => at(x, `wide ${index}`));
    expect(thinned(row).map(({ x }) => x)).toEqual([10, 70, 130]);
    const months = [10, 40, 70, 100, 130].map((x, index) => at(x, index === 2 ? "wider than most" : "Jan"));
    expect(thinned(months).map(({ x }) => x)).toEqual([10, 40, 70]);
    expect(evenlyThinned(months).map(({ x }) => x)).toEqual([10, 100]);
    expect(evenlyThinned([at(350, "outside")])).toEqual([]);
  });
  it("of a hundred thousand days are done with at once", () => {
    const many = Array.from({ length: 100_000 }, (_, index) => at(index / 300, "Mon"));
    expect(evenlyThinned(many).length).toBeGreaterThan(5);
  });
  it("stay between the edges", () => {
    expect(labelAbout(0, 10, "worst").x).toBeGreaterThan(15);
    expect(labelAbout(360, 10, "worst").x).toBeLessThan(345);
    expect(labelAbout(180, 10, "worst").x).toBe(180);
    expect(labelAbout(180, 10, "w".repeat(500)).text).toMatch(/^w+…$/);
  });
  it("beside an axis are moved apart, in order, inside their room", () => {
    expect(movedApart([50, 80], { topPx: 0, bottomPx: 100 })).toEqual([50, 80]);
    expect(movedApart([50, 50], { topPx: 0, bottomPx: 100 })).toEqual([50, 64]);
    expect(movedApart([99, 98], { topPx: 0, bottomPx: 100 })).toEqual([100, 86]);
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 100, noNaN: true }), { maxLength: 6 }), (wishes) => {
        const feet = movedApart(wishes, { topPx: 0, bottomPx: 100 }).toSorted((a, b) => a - b);
        feet.forEach((foot, index) => {
          // Additions of the pitch round in the last place.
          if (index > 0) expect(foot - (feet[index - 1] ?? 0)).toBeGreaterThanOrEqual(14 - 1e-9);
          expect(foot).toBeGreaterThanOrEqual(-1e-9);
          expect(foot).toBeLessThanOrEqual(100);
        });
      }),
    );
  });
});
