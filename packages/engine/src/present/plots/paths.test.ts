import { describe, expect, it } from "vitest";
import { hatching } from "./hatch.ts";
import { stepArea, stepPath } from "./paths.ts";

const COLUMNS = { fromPx: 10, columnPx: 2 };

describe("steps", () => {
  it("are level across a column, and equal neighbours are one", () =>
    expect(stepPath([5, 5, 7], COLUMNS)).toBe("M10.0 5.0H14.0V7.0H16.0"));
  it("break at a gap; a lone column is still drawn", () =>
    expect(stepPath([null, 5, null, 7], COLUMNS)).toBe("M12.0 5.0H14.0M16.0 7.0H18.0"));
  it("close down to the base", () =>
    expect(stepArea([5, 7], COLUMNS, 30)).toBe("M10.0 5.0H12.0V7.0H14.0V30.0H10.0Z"));
  it("of nothing are nothing", () => expect(stepPath([null, null], COLUMNS)).toBe(""));
});

describe("hatching", () => {
  const box = { x: 100, y: 50, width: 30, height: 10 };
  it.each(["rising", "falling"] as const)("%s stays in its box and slants as it says", (slant) => {
    const lines = [...hatching(box, { px: 4, slant }).matchAll(/M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)/g)].map(
      (match) => match.slice(1).map(Number),
    );
    expect(lines).toHaveLength(10); // (30 + 10) / 4
    for (const [x1 = 0, y1 = 0, x2 = 0, y2 = 0] of lines) {
      for (const x of [x1, x2]) expect(x >= 100 && x <= 130).toBe(true);
      for (const y of [y1, y2]) expect(y >= 50 && y <= 60).toBe(true);
      expect(Math.abs(x2 - x1 - (slant === "rising" ? y1 - y2 : y2 - y1))).toBeLessThan(0.25); // four roundings
    }
  });
  it("of a box without size is nothing", () =>
    expect(hatching({ ...box, height: 0 }, { px: 4, slant: "rising" })).toBe(""));
});
