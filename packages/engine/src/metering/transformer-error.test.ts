import { describe, expect, it } from "vitest";
import { activePowerError, reactiveOverActive, transformerError } from "./transformer-error.ts";

const MINUTES = (60 * 180) / Math.PI;

describe(transformerError, () => {
  // Source: the model's table worked elsewhere with the same circuit, printed to these digits; class 1
  // allows 60′ and class 0.5 30′ (IEC 61869-2), which are x = 0.01745 and 0.00873.
  it.each([
    [0.001, -0.00005, 3.44],
    [0.002, -0.0002, 6.88],
    [0.00873, -0.0038, 30.01],
    [0.01745, -0.0152, 59.98],
    [0.1, -0.4963, 342.6],
  ])("x = %f", (x, ratioPercent, minutes) => {
    const { ratio, angleRad } = transformerError(x);
    expect(100 * ratio).toBeCloseTo(ratioPercent, 4);
    // Printed to a hundredth of a minute, the last row to a tenth.
    expect(Math.abs(angleRad * MINUTES - minutes)).toBeLessThan(0.06);
  });

  it("goes with the textbook forms for a small exciting current", () => {
    // Source: a textbook problem, 1000/5 ring, exciting current 1 A at power factor 0.4, resistive burden:
    // ratio 200.08, angle 3.15 minutes. The magnetising part alone gives the angle.
    const magnetisingA = Math.sqrt(1 - 0.4 ** 2);
    expect(transformerError(magnetisingA / 1000).angleRad * MINUTES).toBeCloseTo(3.15, 2);
  });

  it("refuses what is no resistance", () => {
    expect(() => transformerError(-0.1)).toThrow("x");
    expect(() => transformerError(Number.NaN)).toThrow("x");
  });
});

describe(activePowerError, () => {
  // Source: worked by hand from cos(φ − δ)/cos φ; the figures at 60′ stand in a public note on phase errors.
  it.each([
    [60, 0.9, 0.83],
    [60, 0.5, 3.01],
    [10, 0.95, 0.095],
    [60, 1, -0.015],
  ])("%d′ at power factor %f lagging: %f %%", (minutes, factor, percent) => {
    expect(100 * activePowerError(minutes / MINUTES, Math.acos(factor))).toBeCloseTo(percent, 2);
  });

  it("is the other way for a leading load", () => {
    expect(activePowerError(0.02, -0.5)).toBeLessThan(0);
    expect(activePowerError(0.02, 0.5)).toBeGreaterThan(0);
  });
});

describe(reactiveOverActive, () => {
  it("shows a resistive load as −1.75 % reactive at 60′", () => {
    expect(100 * reactiveOverActive(60 / MINUTES, 0)).toBeCloseTo(-1.75, 2);
  });
});
