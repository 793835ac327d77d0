import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { DAY_MIN, DAY_S, DayCurve } from "./day-curve.ts";

const whole = (max: number) => fc.integer({ min: 0, max });
const rectangle = fc.tuple(whole(DAY_S - 1), whole(DAY_S), whole(12_000), whole(3_000));
type Rectangle = readonly [fromS: number, lengthS: number, powerW: number, reactiveVar: number];
const curveOf = (standbyW: number, rectangles: readonly Rectangle[]): DayCurve => {
  const curve = new DayCurve();
  curve.open(standbyW);
  for (const [fromS, lengthS, powerW, reactiveVar] of rectangles)
    curve.add(fromS, lengthS, powerW, reactiveVar);
  curve.close();
  return curve;
};
const minutes = (of: Int32Array) => [...of.subarray(0, DAY_MIN)];
const total = (of: Int32Array) => minutes(of).reduce((sum, value) => sum + value, 0);

describe("DayCurve", () => {
  it("spreads 2 kW for three minutes from half past a minute over four of them", () => {
    const { activeJ } = curveOf(0, [[7 * 3600 + 30, 180, 2000, 0]]);
    expect([...activeJ.subarray(419, 425)].map((joules) => joules / 60)).toEqual([
      0, 1000, 2000, 2000, 1000, 0,
    ]);
  });
  it("keeps what begins and ends inside one minute in that minute", () =>
    expect([...curveOf(5, [[70, 20, 3000, 0]]).activeJ.subarray(0, 3)]).toEqual([300, 60_300, 300]));
  it("brings what runs past midnight back in at the beginning", () => {
    const { activeJ } = curveOf(0, [[DAY_S - 60, 120, 100, 0]]);
    expect([activeJ[0], activeJ[1], activeJ[1439]]).toEqual([6000, 0, 6000]);
  });
  it("holds exactly the energy that was added, whatever is added in whatever order", () => {
    fc.assert(
      fc.property(whole(200), fc.array(rectangle, { maxLength: 30 }), (standbyW, rectangles) => {
        const [there, back] = [curveOf(standbyW, rectangles), curveOf(standbyW, [...rectangles].reverse())];
        const sum = (power: 2 | 3) => rectangles.reduce((joules, item) => joules + item[1] * item[power], 0);
        expect(total(there.activeJ)).toBe(standbyW * DAY_S + sum(2));
        expect(total(there.reactiveVarS)).toBe(sum(3));
        expect(minutes(back.activeJ)).toEqual(minutes(there.activeJ));
        expect(Math.min(...minutes(there.activeJ))).toBeGreaterThanOrEqual(standbyW * 60);
      }),
    );
  });
  it("gives each minute the mean of its seconds", () => {
    fc.assert(
      fc.property(rectangle, ([fromS, lengthS, powerW, reactiveVar]) => {
        const { activeJ } = curveOf(0, [[fromS, lengthS, powerW, reactiveVar]]);
        const bySecond = new Float64Array(DAY_MIN);
        for (let second = fromS; second < fromS + lengthS; second++) {
          const minute = Math.floor((second % DAY_S) / 60);
          bySecond[minute] = (bySecond[minute] as number) + powerW;
        }
        expect(minutes(activeJ)).toEqual([...bySecond]);
      }),
      { numRuns: 25 },
    );
  });
  it("begins each day afresh", () => {
    const curve = curveOf(9, [[0, DAY_S, 1000, 500]]);
    curve.open(1);
    curve.close();
    expect([total(curve.activeJ), total(curve.reactiveVarS)]).toEqual([DAY_S, 0]);
  });
});
