import { describe, expect, it } from "vitest";
import { sketchBounds, sketchTrace, soundTrace } from "../../testing/trace-sketch.ts";
import { judgeTrace } from "./judge-trace.ts";
import { settledFacts } from "./settled-facts.ts";
import type { Trace } from "./trace.ts";
import type { TraceBounds } from "./trace-bounds.ts";

const settled = (traces: readonly Trace[], bounds: Partial<TraceBounds> = {}) =>
  Object.fromEntries(
    settledFacts(traces.map((trace) => judgeTrace(trace, sketchBounds(bounds)))).map(
      ({ path, value, trace, unseen }) => [path, { value, trace, unseen }],
    ),
  );
const overFor = (samples: number, stepS = 1) =>
  sketchTrace(
    [
      [20, 50, 32],
      [samples, 70, 32],
      [60, 50, 12],
    ],
    [],
    stepS,
  );
const loss = (after: number) =>
  sketchTrace(
    [
      [20, 50, 32],
      [5, 50, 32],
      [40, 24, after],
    ],
    [{ atS: 20, what: "meter-lost" }],
  );

describe(settledFacts, () => {
  it("time to come back, and the current after each loss, by the names the job has for them", () => {
    expect(settled([soundTrace()])).toEqual({
      "limiter.responseS": { value: 9, trace: 0, unseen: [] },
      "limiter.failures[bus-lost].offeredA": { value: 6, trace: 0, unseen: [] },
      "limiter.failures[meter-power-lost].offeredA": { value: 6, trace: 0, unseen: [] },
      "limiter.failures[manager-power-lost].offeredA": { value: 6, trace: 0, unseen: [] },
    });
  });
  it("rounds a time and a current up", () => {
    // Over for 71 samples of 0.1 s, seen to within a sample at either end: 7.2 s at the most.
    expect(settled([overFor(71, 0.1)])["limiter.responseS"]?.value).toBe(7.2);
    expect(settled([overFor(7, 0.33)])["limiter.responseS"]?.value).toBe(2.7);
    expect(settled([loss(6.01)])["limiter.failures[meter-power-lost].offeredA"]?.value).toBe(6.1);
  });
  it("the slowest of several traces counts", () => {
    expect(settled([overFor(8), overFor(20), overFor(3)])["limiter.responseS"]).toMatchObject({
      value: 21,
      trace: 1,
    });
  });
  it("the current is one charge point's, of those that share the line", () => {
    expect(
      settled([loss(12)], { pointCount: { L1: 2 } })["limiter.failures[meter-power-lost].offeredA"]?.value,
    ).toBe(6);
  });
  it("a car that never fell is evidence as well", () => {
    expect(settled([loss(32)])["limiter.failures[meter-power-lost].offeredA"]?.value).toBe(32);
  });
  it.each<[what: string, trace: Trace, bounds: Partial<TraceBounds>]>([
    [
      "an end that was not seen",
      sketchTrace([
        [20, 50, 32],
        [9, 70, 32],
      ]),
      {},
    ],
    [
      "a beginning that was not seen",
      sketchTrace([
        [9, 70, 32],
        [60, 50, 12],
      ]),
      {},
    ],
    [
      "the building alone over the limit",
      sketchTrace([
        [20, 50, 20],
        [9, 95, 20],
        [60, 50, 12],
      ]),
      {},
    ],
    ["a limit that was not read back", overFor(8), { isLimitSet: false }],
    ["a car that had nothing to fall from", sketchTrace([[60, 40, 5]], [{ atS: 20, what: "bus-lost" }]), {}],
    ["a car that was not recorded", { ...loss(6), carA: null }, {}],
  ])("%s settles nothing", (_what, trace, bounds) => {
    expect(settled([trace], bounds)).toEqual({});
  });
  it("names lines on which it was not seen", () => {
    const bounds = { lines: ["L1", "L2"], pointCount: { L1: 1, L2: 1 } } as const;
    expect(settled([overFor(8)], bounds)["limiter.responseS"]?.unseen).toEqual(["L2"]);
  });
});
