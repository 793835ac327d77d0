import { describe, expect, it } from "vitest";
import { oddSteps } from "./odd-steps.ts";
import type { ReadingStep } from "./readings.ts";

const car = (offeredA: number, lines: ("L1" | "L2" | "L3")[] = ["L1"]) => ({ offeredA, lines });
const said = (...steps: ReadingStep[]) =>
  oddSteps(steps, ["L1", "L2", "L3"]).map(({ path, what }) => `${path}: ${what}`);
const idle = (id: string, amps: number, watts: number): ReadingStep => ({
  id,
  meter: { L1: { amps, watts } },
});

describe(oddSteps, () => {
  it("a step in which nothing was read", () => {
    expect(said({ id: "a", meter: {} }, { id: "b", meter: { L1: {} }, chargePoint: car(16) })).toEqual([
      "steps[a]: nothing was read in this step",
      "steps[b]: nothing was read in this step",
    ]);
    expect(
      said(
        { id: "a", meter: {}, clampA: { L1: 3 } },
        { id: "b", meter: { totalVars: 0 }, chargePoint: car(6) },
      ),
    ).toEqual([]);
  });
  it("a car on no line", () => {
    expect(said({ id: "a", chargePoint: car(16, []), meter: { totalWatts: 600 } })).toEqual([
      "steps[a].chargePoint.lines: the car is offered 16 A on no line",
    ]);
    expect(said({ id: "a", chargePoint: car(0, []), meter: { totalWatts: 600 } })).toEqual([]);
  });
  it.each<[what: string, meter: ReadingStep["meter"], says: string[]]>([
    [
      "kilowatts typed as watts",
      { totalWatts: 8.13 },
      ["steps[a].meter.totalWatts: 8.13 W where some 7360 W were switched on"],
    ],
    [
      "watts typed as kilowatts",
      { totalKilowatts: 8130 },
      ["steps[a].meter.totalKilowatts: 8130 kW where some 7360 W were switched on"],
    ],
    ["either typed rightly", { totalKilowatts: 8.13 }, []],
    ["a dead display", { totalWatts: 0 }, []],
    ["fed back", { totalWatts: -7000 }, []],
  ])("%s, beside what was switched on", (_what, meter, says) => {
    expect(said({ id: "a", chargePoint: car(32), meter })).toEqual(says);
  });
  it("counts a known load, and says nothing where nothing is known to be on", () => {
    expect(said({ id: "a", loads: [{ line: "L2", watts: 2000 }], meter: { totalWatts: 2.6 } })).toHaveLength(
      1,
    );
    expect(said({ id: "a", meter: { totalWatts: 0.63 } })).toEqual([]);
  });
  it("two steps with the same done and something else read", () => {
    expect(said(idle("before", 3, 700), idle("after", 30, 7100))).toEqual([
      'steps[after]: the same was done as in "before", and it shows L1 3 and then 30 A, L1 power 700 and then 7100 W',
    ]);
  });
  it("a building that moves a little is no contradiction, and another step is none", () => {
    expect(said(idle("before", 3, 700), idle("after", 4.5, 1050))).toEqual([]);
    expect(said(idle("before", 40, 9000), idle("after", 50, 11_500))).toEqual([]);
    expect(said(idle("before", 3, 700), { ...idle("charging", 19, 4400), chargePoint: car(16) })).toEqual([]);
    expect(said(idle("before", 3, 700), { ...idle("sun", 30, -7100), generation: "on" })).toEqual([]);
  });
  it("the order in which lines are named is no difference", () => {
    const step = (id: string, lines: ("L1" | "L2")[], totalWatts: number): ReadingStep => ({
      id,
      chargePoint: car(16, lines),
      meter: { totalWatts },
    });
    expect(said(step("a", ["L1", "L2"], 7300), step("b", ["L2", "L1"], 1300))).toHaveLength(1);
  });
});
