import { describe, expect, it } from "vitest";
import { promptControl } from "../testing/prompt-control.ts";
import type { ControlSettings } from "./control.ts";
import { blindLatencyBound, latencyBound, longestTimeOutS } from "./latency-bound.ts";

const settings: ControlSettings = {
  ...promptControl,
  averageS: 1,
  readEveryS: 5,
  fallbackA: 10,
  fallbackAfterS: 12,
};
const atOnce = { deadS: 0, fallAPerS: Number.POSITIVE_INFINITY };

describe("latencyBound", () => {
  it("is 7 s for a reading every 5 s, sensing 1 s, command 1 s and a car that answers at once", () => {
    expect(latencyBound({ settings, car: atOnce, fallA: 32 }).totalS).toBe(7);
  });
  it("is 10.2 s for a car that falls by 10 A a second", () => {
    const car = { deadS: 0, fallAPerS: 10 };
    expect(latencyBound({ settings, car, fallA: 32 }).totalS).toBeCloseTo(10.2, 12);
  });
  it("names each part, and they add up", () => {
    const bound = latencyBound({
      settings: { ...settings, decideEveryS: 2 },
      car: { deadS: 3, fallAPerS: 8 },
      fallA: 32,
    });
    expect(bound.parts).toEqual([
      { part: "average", timeS: 1 },
      { part: "read", timeS: 5 },
      { part: "decide", timeS: 2 },
      { part: "command", timeS: 1 },
      { part: "car", timeS: 3 },
      { part: "fall", timeS: 4 },
    ]);
    expect(bound.totalS).toBe(16);
  });
});

describe("blindLatencyBound", () => {
  it("has the time-out on top of the whole chain", () => {
    const bound = blindLatencyBound({ settings, car: { deadS: 3, fallAPerS: 8 }, fallA: 32 });
    expect(bound?.totalS).toBe(12 + 1 + 5 + 1 + 3 + 4);
    expect(bound?.parts[0]).toEqual({ part: "time-out", timeS: 12 });
  });
  it("has no bound without a fallback", () => {
    expect(
      blindLatencyBound({ settings: { ...settings, fallbackA: null }, car: atOnce, fallA: 32 }),
    ).toBeNull();
  });
});

describe("longestTimeOutS", () => {
  // 26 s with a time-out of 12: the rest of the way takes 14.
  const blind = blindLatencyBound({ settings, car: { deadS: 3, fallAPerS: 8 }, fallA: 32 });
  const most = (withinS: number, readEveryS = 5) =>
    blind === null ? Number.NaN : longestTimeOutS(blind, { ...settings, readEveryS }, withinS);
  it("leaves time for the rest of the way", () =>
    expect([most(60), most(60.9), most(20)]).toEqual([46, 46, 6]));
  it("may be over with the next reading, not before it", () =>
    expect([most(19), most(18)]).toEqual([5, null]));
  it("is none where the rest of the way takes too long, or readings would come later than it", () =>
    expect([most(14), most(18), most(60, 47), most(Number.POSITIVE_INFINITY)]).toEqual([
      null,
      null,
      null,
      null,
    ]));
});
