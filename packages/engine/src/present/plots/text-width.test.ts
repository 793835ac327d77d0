import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { shortened, textWidth } from "./text-width.ts";

describe("textWidth", () => {
  // Lengths that a browser gave for 12 px DejaVu Sans; it rounds advances to its own grid.
  it.each([
    ["supply, highest", 91.67],
    ["WMWM [A] %&@", 102.41],
    ["worst: 0.929, 2026-01-14", 152.63],
    ["10 000", 42],
    ["2×10⁶ kWh", 68.02],
    ["limit 60\u00a0A", 57.52],
  ])("of %s", (text, measuredPx) => expect(Math.abs(textWidth(text) - measuredPx)).toBeLessThan(0.05));
});

describe("shortened", () => {
  it("keeps what fits and cuts what does not", () => {
    expect(shortened("Consumer unit", 200)).toBe("Consumer unit");
    expect(shortened("Consumer unit in the hall", 80)).toBe("Consumer…");
    expect(shortened("two\nlines", 200)).toBe("two lines");
    expect(shortened("😀".repeat(100_000), 60)).toBe("😀😀…");
  });
  it("is never wider than its room", () => {
    fc.assert(
      fc.property(fc.string({ unit: "grapheme" }), fc.integer({ min: 12, max: 300 }), (text, roomPx) => {
        expect(textWidth(shortened(text, roomPx))).toBeLessThanOrEqual(roomPx);
      }),
    );
  });
});
