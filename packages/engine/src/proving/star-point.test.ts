import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { SUPPLY_V } from "./load-scale.ts";
import { cornerOf, starPointOf } from "./star-point.ts";

const voltsAt = (re: number, im: number): number[] =>
  [0, 1, 2].map((line) => {
    const corner = cornerOf(line);
    return SUPPLY_V * Math.hypot(corner.re - re, corner.im - im);
  });
const STRAIGHT = [0, 1, 2];

describe("starPointOf", () => {
  it("finds the point anywhere inside the supply's triangle", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 0.8, noNaN: true }),
        fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }),
        (size, angle) => {
          // Half the corner's distance is always inside; beyond it only towards a corner.
          const [re, im] = [0.5 * size * Math.cos(angle), 0.5 * size * Math.sin(angle)];
          const found = starPointOf(STRAIGHT, voltsAt(re, im));
          expect(found?.re).toBeCloseTo(re, 5);
          expect(found?.im).toBeCloseTo(im, 5);
          expect(found?.misfit).toBeLessThan(1e-6);
        },
      ),
    );
  });

  it("finds it when channels are on each other's lines", () => {
    const [first, second, third] = voltsAt(0.3, -0.2) as [number, number, number];
    const found = starPointOf([1, 2, 0], [second, third, first]);
    expect(found?.re).toBeCloseTo(0.3, 6);
    expect(found?.im).toBeCloseTo(-0.2, 6);
  });

  it("says how badly three voltages agree that no point could give", () => {
    // All three high at once: no star point is far from every corner.
    expect(starPointOf(STRAIGHT, [300, 300, 300])?.misfit).toBeGreaterThan(100);
    expect(starPointOf(STRAIGHT, [SUPPLY_V, SUPPLY_V, SUPPLY_V])?.misfit).toBeLessThan(1e-9);
  });

  it.each([
    ["two channels on one line", [0, 0, 2], [230, 230, 230]],
    ["a channel that reads line to line", [0, 1, -1], [230, 230, 400]],
    ["a voltage nobody read", [0, 1, 2], [230, Number.NaN, 230]],
  ])("gives none for %s", (_what, tapLines, volts) => expect(starPointOf(tapLines, volts)).toBeNull());
});
