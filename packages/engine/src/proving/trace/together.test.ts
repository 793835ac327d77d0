import { describe, expect, it } from "vitest";
import { sketchBounds, sketchTrace, soundTrace } from "../../testing/trace-sketch.ts";
import { judgeTrace } from "./judge-trace.ts";
import { judgeTogether } from "./together.ts";
import type { Trace } from "./trace.ts";
import type { TraceBounds } from "./trace-bounds.ts";

const together = (traces: readonly Trace[], bounds: Partial<TraceBounds> = {}) =>
  judgeTogether(traces.map((trace) => judgeTrace(trace, sketchBounds(bounds))));
const claimsOf = (...given: Parameters<typeof together>) =>
  Object.fromEntries(
    (together(...given).lines[0]?.claims ?? []).map(({ claim, reason, trace }) => [
      claim,
      `${trace} ${reason}`,
    ]),
  );

/** A load step alone, and each loss alone. */
const step = sketchTrace(
  [
    [20, 50, 32],
    [8, 70, 32],
    [60, 50, 12],
  ],
  [{ atS: 20, what: "load-on" }],
);
const loss = (what: "bus-lost" | "meter-lost" | "manager-lost", fallsAfter = 5) =>
  sketchTrace(
    [
      [20, 50, 32],
      [fallsAfter, 50, 32],
      [40, 24, 6],
    ],
    [{ atS: 20, what }],
  );
const quiet = sketchTrace([[60, 40, 0]]);

describe(judgeTogether, () => {
  it("proves by four traces what one trace proves by itself", () => {
    const parts = [step, loss("bus-lost"), loss("meter-lost"), loss("manager-lost")];
    for (const trace of parts) expect(together([trace]).verdict).toBe("cannot-tell");
    expect(together(parts).verdict).toBe("proved");
    expect(claimsOf(parts)).toEqual({
      reaction: "0 quick",
      "bus-lost": "1 fallbackHeld",
      "meter-lost": "2 fallbackHeld",
      "manager-lost": "3 fallbackHeld",
      "main-fuse": "0 awayFromEdge",
    });
  });
  it("is the trace itself where there is one", () => {
    const judged = judgeTrace(soundTrace(), sketchBounds());
    const { verdict, lines } = judgeTogether([judged]);
    expect(verdict).toBe(judged.verdict);
    expect(lines[0]?.claims.map(({ trace, ...claim }) => claim)).toEqual(judged.lines[0]?.claims);
  });
  it("a failure in any of them fails, whatever the others prove", () => {
    expect(together([soundTrace(), loss("bus-lost", 30)]).verdict).toBe("failed");
    expect(claimsOf([soundTrace(), loss("bus-lost", 30)])["bus-lost"]).toBe("1 fallbackLate");
    const tooLong = sketchTrace([
      [20, 50, 32],
      [90, 70, 32],
      [60, 50, 12],
    ]);
    expect(claimsOf([soundTrace(), tooLong]).reaction).toBe("1 tooSlow");
  });
  it("of two that prove it, the slower one is shown", () => {
    const slower = sketchTrace([
      [20, 50, 32],
      [12, 72, 32],
      [60, 50, 12],
    ]);
    for (const [traces, which] of [
      [[step, slower], 1],
      [[slower, step], 0],
    ] as const)
      expect(claimsOf(traces)).toMatchObject({
        reaction: `${which} quick`,
        "main-fuse": `${which} awayFromEdge`,
      });
  });
  it("a trace in which nothing was tried takes nothing away", () => {
    expect(together([quiet, soundTrace(), quiet]).verdict).toBe("proved");
  });
  it("the main fuse must be kept away from operating in all of them", () => {
    const heavy = sketchTrace([
      [20, 50, 32],
      [200, 400, 32],
      [60, 50, 12],
    ]);
    expect(claimsOf([soundTrace(), heavy])["main-fuse"]).toMatch(/^1 edge/);
  });
  it("a gap takes only its own trace's word away", () => {
    const coarse = sketchTrace([[10, 40, 0]], [], 100);
    expect(claimsOf([coarse]).trace).toBe("0 unseen");
    expect(together([coarse, soundTrace()]).verdict).toBe("proved");
  });
  it("a reaction is shown from a trace without a gap, though one with a gap was slower", () => {
    const slower = sketchTrace([
      [20, 50, 32],
      [12, 70, 32],
      [60, 50, 12],
    ]);
    const gap = { ...slower, timesS: slower.timesS.map((time) => (time > 60 ? time + 200 : time)) };
    expect(claimsOf([gap])).toMatchObject({ trace: "0 unseen", reaction: "0 quick" });
    expect(claimsOf([gap, soundTrace()]).reaction).toBe("1 quick");
  });
  it("a limit nobody read back holds for all of them", () => {
    expect(claimsOf([step, soundTrace()], { isLimitSet: false }).trace).toBe("0 limitNotSet");
    expect(together([step, soundTrace()], { isLimitSet: false }).verdict).toBe("cannot-tell");
  });
});
