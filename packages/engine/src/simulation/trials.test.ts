import { describe, expect, it } from "vitest";
import { buildingWith, nightly, smallSite } from "../testing/small-site.ts";
import { faultTrials, peakOf, TRIALS } from "./trials.ts";

// Dull until seven, then 50 A for an hour: a car that goes on at 32 A makes 82 A of it.
const building = {
  intervalsPerDay: 1440,
  fill: (day: number, intoA: Float64Array) =>
    buildingWith(10, ...(day === 2 ? [{ fromH: 19, untilH: 20, currentA: 50 }] : [])).fill(day, intoA),
};
const trials = faultTrials({ plan: smallSite, habits: [nightly], building, days: 5, fallbacksA: [6, null] });
const longestS = (kind: string, fallbackA: number | null) =>
  trials.find((trial) => trial.kind === kind && trial.fallbackA === fallbackA)?.outcome.lines[0]?.over
    .longestS;

describe("peakOf", () => {
  it("finds the day, the time and the line", () =>
    expect(peakOf(building, 5, 1)).toEqual({ day: 2, timeS: 19 * 3600, line: 0 }));
});

describe("faultTrials", () => {
  it("tries every fault with each fallback", () =>
    expect(trials.map(({ kind, fallbackA }) => [kind, fallbackA])).toEqual(
      TRIALS.flatMap((kind) => [
        [kind, 6],
        [kind, null],
      ]),
    ));
  it("shows a chain that works", () =>
    expect([longestS("nothing", 6), longestS("nothing", null)]).toEqual([1, 1]));
  it.each(["bus-lost", "meter-lost"])(
    "%s: the fallback saves it, and without one it is over for the hour",
    (kind) => {
      expect(longestS(kind, 6)).toBe(0);
      expect(longestS(kind, null)).toBe(3600);
    },
  );
  it.each(["reading-frozen", "transformer-reversed", "ratio-half", "line-missing", "car-ignores-offer"])(
    "%s: no fallback helps, because the manager goes on deciding",
    (kind) => expect([longestS(kind, 6), longestS(kind, null)]).toEqual([3600, 3600]),
  );
  it("a manager that was off for five minutes an hour before is back in time", () =>
    expect(longestS("manager-restarted", null)).toBe(1));
});
