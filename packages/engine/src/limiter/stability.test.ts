import { describe, expect, it } from "vitest";
import { promptControl } from "../testing/prompt-control.ts";
import { type ControlSettings, requireControl } from "./control.ts";
import { calmGainLimit, stabilityOf, stableGainLimit } from "./stability.ts";

const LIMITS: readonly [lateDecisions: number, stable: number, calm: number][] = [
  [0, 2, 1],
  [1, 1, 0.25],
  [2, 0.618, 0.1481],
  [3, 0.445, 0.1055],
  [4, 0.3473, 0.0819],
  [5, 0.2846, 0.067],
];

/** x(k+1) = x(k) − g · x(k−d), after having stood at 1: the whole answer to a load step. */
function errors(gain: number, lateDecisions: number, count: number): number[] {
  const x = new Array<number>(lateDecisions + 1).fill(1);
  while (x.length < count) x.push((x.at(-1) as number) - gain * (x.at(-1 - lateDecisions) as number));
  return x;
}

const most = (x: readonly number[]) => Math.max(...x.map(Math.abs));

describe("limits of the gain", () => {
  it.each(LIMITS)("%d decisions late: stable below %d, calm up to %d", (lateDecisions, stable, calm) => {
    expect(stableGainLimit(lateDecisions)).toBeCloseTo(stable, 4);
    expect(calmGainLimit(lateDecisions)).toBeCloseTo(calm, 4);
  });
  it.each(LIMITS)("%d decisions late: dies away just under, grows just over", (lateDecisions) => {
    const limit = stableGainLimit(lateDecisions);
    const under = errors(0.99 * limit, lateDecisions, 4000);
    const over = errors(1.01 * limit, lateDecisions, 4000);
    expect(most(under.slice(-200))).toBeLessThan(most(under.slice(1800, 2000)) / 2);
    expect(most(over.slice(-200))).toBeGreaterThan(most(over.slice(1800, 2000)) * 2);
  });
  it.each(LIMITS)("%d decisions late: never passes its aim just under, does just over", (lateDecisions) => {
    const limit = calmGainLimit(lateDecisions);
    const least = (gain: number) => Math.min(...errors(gain, lateDecisions, 600));
    expect(least(0.999 * limit)).toBeGreaterThanOrEqual(0);
    expect(least(1.01 * limit)).toBeLessThan(0);
  });
  it("refuses a count of decisions below 0", () => {
    expect(() => stableGainLimit(-1)).toThrow("lateDecisions is -1");
    expect(() => calmGainLimit(Number.NaN)).toThrow("lateDecisions is NaN");
  });
});

const settings = (changed: Partial<ControlSettings>): ControlSettings => {
  const control: ControlSettings = {
    ...promptControl,
    marginA: 1,
    law: { kind: "integrating", gain: 1 },
    commandS: 2,
    fallbackA: null,
    ...changed,
  };
  requireControl(control);
  return control;
};

describe("stabilityOf", () => {
  it("has nothing to say of the direct law", () => {
    expect(stabilityOf(settings({ law: { kind: "direct" } }), 3)).toBeNull();
  });
  it("calls five late decisions unstable at a gain of 1", () => {
    expect(stabilityOf(settings({}), 3)).toEqual({
      lateDecisions: 5,
      gain: 1,
      stableBelow: stableGainLimit(5),
      calmUpTo: calmGainLimit(5),
      state: "unstable",
    });
  });
  it.each([
    [1, "unstable"],
    [0.9, "rings"],
    [0.26, "rings"],
    [0.25, "calm"],
  ])("decides every 5 s with the same chain, gain %d: %s", (gain, state) => {
    const stability = stabilityOf(settings({ law: { kind: "integrating", gain }, readEveryS: 5 }), 3);
    expect(stability).toMatchObject({ lateDecisions: 1, state });
  });
  it("calls a gain at the limit itself unstable: what rings for ever does not settle", () => {
    // No decision late: x(k+1) = x(k) − 2 · x(k) changes its sign for ever.
    const edge = settings({ law: { kind: "integrating", gain: 2 }, averageS: 0, commandS: 0 });
    expect(stabilityOf(edge, 0)).toMatchObject({ stableBelow: 2, state: "unstable" });
  });
  it("counts the average as delay, and the slower of reading and deciding as the period", () => {
    const slow = settings({ averageS: 10, readEveryS: 2, decideEveryS: 4 });
    expect(stabilityOf(slow, 3)?.lateDecisions).toBe(4);
    expect(stabilityOf({ ...slow, decideEveryS: 0 }, 3)?.lateDecisions).toBe(8);
  });
  it("does not take a rounding error for one more decision", () => {
    // 0.1 + 0.2 is more than 0.3 in binary.
    const exact = settings({ averageS: 0.1, commandS: 0.2, readEveryS: 0.3 });
    expect(stabilityOf(exact, 0)?.lateDecisions).toBe(1);
  });
});
