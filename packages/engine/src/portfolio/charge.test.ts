import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { DAY_MIN, DayCurve } from "../demand/index.ts";
import { charge, type Feed } from "./charge.ts";

const KWH = 3_600_000;
const building = (
  rectangles: readonly (readonly [fromS: number, lengthS: number, powerW: number])[] = [],
) => {
  const curve = new DayCurve();
  curve.open(0);
  for (const [fromS, lengthS, powerW] of rectangles) curve.add(fromS, lengthS, powerW, 0);
  curve.close();
  return curve;
};
const free: Feed = { rateW: 7360, voltageV: 230, limitA: null };
const held: Feed = { ...free, limitA: 60 };
const charged = (feed: Feed, session: Parameters<typeof charge>[0], curve = building()) => {
  const carJ = new Int32Array(DAY_MIN);
  const deliveredJ = charge(session, feed, curve, carJ);
  return { deliveredJ, carJ, sum: carJ.reduce((total, joules) => total + joules, 0) };
};

describe("charge", () => {
  it("charges at its rate from the second it starts until it has what it wants", () => {
    // 7360 W for 150 s from half a minute past 06:00: 30 s, two minutes.
    const { deliveredJ, carJ } = charged(free, { startS: 21_630, lengthS: 36_000, wantedJ: 7360 * 150 });
    expect([...carJ.subarray(359, 364)]).toEqual([0, 7360 * 30, 7360 * 60, 7360 * 60, 0]);
    expect(deliveredJ).toBe(7360 * 150);
  });
  it("stops when the car leaves, and goes on past midnight", () => {
    const { deliveredJ, carJ } = charged(free, { startS: 86_340, lengthS: 90, wantedJ: 50 * KWH });
    expect([carJ[1439], carJ[0], carJ[1]]).toEqual([7360 * 60, 7360 * 30, 0]);
    expect(deliveredJ).toBe(7360 * 90);
  });
  it("takes what the home's limit leaves, and nothing below 6 A", () => {
    const day = building([
      [0, 60, 44 * 230],
      [60, 60, 54 * 230],
      [120, 60, 55 * 230],
    ]);
    const { carJ } = charged(held, { startS: 0, lengthS: 240, wantedJ: 50 * KWH }, day);
    // 60 − 44 = 16 A; 60 − 54 = 6 A, just enough; 60 − 55 = 5 A, too little; then its rate.
    expect([...carJ.subarray(0, 4)]).toEqual([16, 6, 0, 32].map((amps) => amps * 230 * 60));
  });
  it("managed, never lifts a home above its limit, and delivers no more than unmanaged", () => {
    const rectangle = fc.tuple(fc.nat(86_399), fc.nat(20_000), fc.nat(12_000));
    const session = fc.record({ startS: fc.nat(86_399), lengthS: fc.nat(72_000), wantedJ: fc.nat(60 * KWH) });
    fc.assert(
      fc.property(fc.array(rectangle, { maxLength: 8 }), session, (rectangles, session) => {
        const day = building(rectangles);
        const managed = charged(held, session, day);
        for (let minute = 0; minute < DAY_MIN; minute++) {
          const car = managed.carJ[minute] as number;
          if (car > 0) expect((day.activeJ[minute] as number) + car).toBeLessThanOrEqual(60 * 230 * 60);
        }
        expect(managed.deliveredJ).toBeLessThanOrEqual(charged(free, session, day).deliveredJ);
        expect(managed.sum).toBe(managed.deliveredJ);
        expect(managed.deliveredJ).toBeLessThanOrEqual(session.wantedJ);
      }),
    );
  });
});
