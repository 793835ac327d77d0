import { describe, expect, it } from "vitest";
import { type Stretch, sketchTrace } from "../../testing/trace-sketch.ts";
import { fallbackTrial } from "./fallback-trial.ts";
import type { TraceEvent } from "./trace.ts";

const car = (samples: number, carA: number): Stretch => [samples, 40, carA];
const trial = (
  stretches: readonly Stretch[],
  { restoredS, stepS = 1, lostS = 10 }: { restoredS?: number; stepS?: number; lostS?: number } = {},
) => {
  const events: readonly TraceEvent[] = [
    { atS: lostS, what: "bus-lost" },
    ...(restoredS === undefined ? [] : [{ atS: restoredS, what: "restored" as const }]),
  ];
  const { timesS, carA } = sketchTrace(stretches, events, stepS);
  return fallbackTrial({ timesS, carA: carA?.L1 ?? null, events }, 0, { currentA: 6.6, timeOutS: 10 });
};

describe("fallbackTrial", () => {
  it.each<
    [what: string, stretches: readonly Stretch[], outcome: string, options?: Parameters<typeof trial>[1]]
  >([
    ["down on the time-out and staying", [car(20, 32), car(30, 6)], "held"],
    ["down one value after the time-out", [car(21, 32), car(30, 6)], "coarse"],
    ["down two values after it", [car(22, 32), car(30, 6)], "late"],
    ["never down", [car(50, 32)], "never"],
    ["just at what is allowed", [car(15, 32), car(30, 6.6)], "held"],
    ["just above what is allowed", [car(15, 32), car(30, 6.61)], "never"],
    ["down, up again after the time-out", [car(15, 32), car(10, 6), car(10, 16)], "rose"],
    ["down, up and down within the time-out", [car(13, 32), car(2, 6), car(3, 32), car(30, 6)], "held"],
    [
      "up again only after it was restored",
      [car(15, 32), car(25, 6), car(10, 32)],
      "held",
      { restoredS: 40 },
    ],
    ["restored before the time-out", [car(40, 32)], "short", { restoredS: 15 }],
    ["down, but not watched as long again", [car(15, 32), car(10, 6)], "short"],
    ["watched exactly as long again", [car(15, 32), car(11, 6)], "held"],
    ["drawing no more than the fallback", [car(50, 6)], "not-drawing"],
    ["not recorded", [car(50, Number.NaN)], "not-recorded"],
    ["10 s values, a time-out of 10 s", [car(2, 32), car(9, 6)], "held", { stepS: 10 }],
    [
      "down in time, then nothing recorded for longer than the time-out",
      [car(15, 32), car(5, 6), car(11, Number.NaN), car(20, 6)],
      "coarse",
    ],
    ["20 s values, a time-out of 10 s", [car(2, 32), car(9, 6)], "coarse", { stepS: 20, lostS: 20 }],
  ])("%s: %s", (_what, stretches, outcome, options) =>
    expect(trial(stretches, options).outcome).toBe(outcome),
  );

  it("gives the time to fall as lying between two values, and the rise", () => {
    expect(trial([car(15, 32), car(10, 6), car(10, 16)])).toMatchObject({
      drawnA: 32,
      fellS: [4, 5],
      rose: { atS: 25, currentA: 16 },
      afterA: 16,
    });
  });
});
