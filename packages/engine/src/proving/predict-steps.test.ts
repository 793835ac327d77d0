import { describe, expect, it } from "vitest";
import { example } from "../testing/examples.ts";
import { jobWithChain } from "../testing/three-phase-chain.ts";
import { plannedSteps, predictSteps } from "./predict-steps.ts";

const stepOf = (phases: 1 | 3, id: string) =>
  predictSteps(jobWithChain(phases))?.find(({ step }) => step.id === id);

describe(predictSteps, () => {
  it("bounds a car on 32 A by what cars draw of their offer and by the chain's error", () => {
    // By hand: 92 to 100 % of 32 A, 4 % of error either way; 216.2 to 253 V, no voltage measured.
    const [channel] = stepOf(1, "car 32 A on L1")?.channels ?? [];
    expect(channel?.I[0]).toBeCloseTo(0.92 * 32 * 0.96, 6);
    expect(channel?.I[1]).toBeCloseTo(32 * 1.04, 6);
    expect(channel?.V).toEqual([216.2, 253]);
    expect(channel?.P[0]).toBeLessThan(0.92 * 32 * 216.2);
    expect(channel?.P[1]).toBeGreaterThan(32 * 253 * 0.999);
  });

  it("has nothing on the other channels, and the total is the sum", () => {
    const step = stepOf(3, "car 16 A on L2");
    expect(step?.channels.map(({ I }) => I[1] > 0)).toEqual([false, true, false]);
    expect(step?.totalP[1]).toBeCloseTo(
      (step?.channels ?? []).reduce((sum, { P }) => sum + P[1], 0),
      6,
    );
  });

  it("plans each line in turn, then all, then a known load on each", () => {
    expect(plannedSteps(jobWithChain(3), ["L1", "L2", "L3"]).map(({ id }) => id)).toEqual([
      "car idle",
      ...[6, 10, 16, 32].flatMap((amps) => ["L1", "L2", "L3"].map((line) => `car ${amps} A on ${line}`)),
      "car 16 A on all lines",
      ...["L1", "L2", "L3"].map((line) => `2500 W heater on ${line}`),
    ]);
  });

  it("has nothing to predict without a chain", () => expect(predictSteps(example("farmhouse"))).toBeNull());
});
