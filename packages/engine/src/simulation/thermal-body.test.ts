import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  leastTimeConstantS,
  steadyTemperatureC,
  stepShare,
  type ThermalBody,
  timeToLimitS,
} from "./thermal-body.ts";

const tails: ThermalBody = {
  id: "tails",
  carries: "supply",
  ratedA: 114,
  tauS: 600,
  ambientC: 30,
  riseAtRatedK: 40,
  limitC: 70,
};

describe("steadyTemperatureC", () => {
  it.each([
    [0, 30],
    [1, 70],
    // Both recalled and worked out again: 30 + 40 · 1.2², 30 + 40 · 1.45².
    [1.2, 87.6],
    [1.45, 114.1],
  ])("%d times the rating: %d °C", (multiple, temperatureC) => {
    expect(steadyTemperatureC(tails, multiple * tails.ratedA)).toBeCloseTo(temperatureC, 9);
  });
  it("does not ask which way the current goes", () => {
    expect(steadyTemperatureC(tails, -80)).toBe(steadyTemperatureC(tails, 80));
  });
});

describe("leastTimeConstantS", () => {
  // Resistivity of copper at 70 °C over its heat by volume, 5.98e-3 K·mm⁴/(A²·s); ratings recalled.
  it.each([
    [6, 47, 109],
    [10, 65, 158],
    [16, 87, 226],
    [25, 114, 322],
  ])("%d mm² of copper rated %d A: %d s", (areaMm2, ratedA, tauS) => {
    const least = leastTimeConstantS({
      areaMm2,
      ratedA,
      riseAtRatedK: 40,
      resistivityOhmMm: 5.98e-3 * 3.45e-3,
      heatJPerKMm3: 3.45e-3,
    });
    expect(Math.abs(least - tauS)).toBeLessThanOrEqual(0.5);
  });
});

describe("stepShare", () => {
  it("is exact for a constant current, whatever the steps", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 500 }),
        fc.double({ min: 0.1, max: 60, noNaN: true }),
        (count, stepS) => {
          let left = 1;
          for (let step = 0; step < count; step++) left *= 1 - stepShare(stepS, tails.tauS);
          expect(left).toBeCloseTo(Math.exp((-count * stepS) / tails.tauS), 12);
        },
      ),
    );
  });
  it("keeps its digits where the step is short", () => {
    // 1 − exp(−x) = x − x²/2 + …; naive subtraction leaves six digits here.
    expect(stepShare(1e-6, 1e4) / 1e-10).toBeCloseTo(1 - 0.5e-10, 14);
  });
});

describe("timeToLimitS", () => {
  it("agrees with stepping there", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 0.99, noNaN: true }),
        fc.double({ min: 1.01, max: 3, noNaN: true }),
        (preload, overload) => {
          const timeS = timeToLimitS({ tauS: tails.tauS, preload, overload });
          let temperatureC = steadyTemperatureC(tails, preload * tails.ratedA);
          const aimC = steadyTemperatureC(tails, overload * tails.ratedA);
          const share = stepShare(timeS / 1000, tails.tauS);
          for (let step = 0; step < 1000; step++) temperatureC += share * (aimC - temperatureC);
          expect(temperatureC).toBeCloseTo(tails.limitC, 8);
        },
      ),
    );
  });
  it("never comes for what the cable is rated for", () => {
    for (const preload of [0, 1])
      expect(timeToLimitS({ tauS: 600, preload, overload: 1 })).toBe(Number.POSITIVE_INFINITY);
    expect(timeToLimitS({ tauS: 600, preload: 0.5, overload: 0.9 })).toBe(Number.POSITIVE_INFINITY);
  });
  it("has come already from a full preload", () => {
    expect(timeToLimitS({ tauS: 600, preload: 1, overload: 1.2 })).toBe(0);
  });
});
