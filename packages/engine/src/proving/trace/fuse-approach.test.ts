import { describe, expect, it } from "vitest";
import { timeOnEdge } from "../../protection/index.ts";
import { type Stretch, sketchBounds, sketchTrace } from "../../testing/trace-sketch.ts";
import { excursionsOf } from "./excursion.ts";
import { fuseApproach } from "./fuse-approach.ts";

const { fuseBand } = sketchBounds();
if (fuseBand === null) throw new Error("no band");

const approach = (stretches: readonly Stretch[], stepS = 1) => {
  const { timesS, supplyA } = sketchTrace(stretches, [], stepS);
  const recorded = { timesS, currentA: supplyA.L1 as Float64Array };
  const [excursion] = excursionsOf({ ...recorded, carA: null }, 60);
  if (excursion === undefined) throw new Error("nothing over");
  return fuseApproach(recorded, excursion, fuseBand);
};

describe("fuseApproach", () => {
  it("of a constant current is its time over the time on the fast edge", () => {
    const edgeS = timeOnEdge(fuseBand.fast, 160, "fast");
    expect(edgeS).toBeCloseTo(10, 9); // the gate itself: 160 A, 10 s
    const { share } = approach([
      [5, 50],
      [4, 160],
      [5, 50],
    ]);
    expect(share[0]).toBeCloseTo(0.3, 9);
    expect(share[1]).toBeCloseTo(0.5, 9);
  });
  it("is nothing below the first gate, 1.25 times the rating, however long", () => {
    expect(
      approach([
        [5, 50],
        [5000, 78.7],
        [5, 50],
      ]).share,
    ).toEqual([0, 0]);
    expect(
      approach([
        [5, 50],
        [5000, 78.76],
        [5, 50],
      ]).share[1],
    ).toBeGreaterThan(0.1);
  });
  it("keeps a short high peak that the rms of a long excursion hides", () => {
    const { edgeS, share } = approach([
      [5, 50],
      [300, 61],
      [8, 160],
      [300, 61],
      [5, 50],
    ]);
    expect(edgeS).toBe(Number.POSITIVE_INFINITY);
    expect(share[1]).toBeGreaterThan(0.79);
  });
  it("is its time over the edge at its rms where that is more than the sum", () => {
    // 79 A half the time, just above the gate; 78 A below it: the sum counts only the first half.
    const swinging = Array.from({ length: 1000 }, (_, i): Stretch => [1, i % 2 ? 79.6 : 78.2]);
    const { edgeS, share } = approach([[5, 50], ...swinging, [5, 50]]);
    expect(share[0]).toBeCloseTo(999 / edgeS, 9);
  });
  it("of an excursion without an end has none either", () => {
    expect(
      approach([
        [5, 50],
        [4, 100],
      ]).share[1],
    ).toBe(Number.POSITIVE_INFINITY);
  });
  it("beyond the last gate is reached at once", () => {
    expect(
      approach([
        [5, 50],
        [4, 5000],
        [5, 50],
      ]).share[0],
    ).toBe(Number.POSITIVE_INFINITY);
  });
});
