import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { plain } from "../testing/plain.ts";
import type { Check } from "./check.ts";
import { decide } from "./check.ts";
import type { FactQuantity, Known } from "./quantity.ts";
import { step } from "./step.ts";
import { turningPoint } from "./turning-point.ts";

const named = { symbol: "y", label: "y", unit: "", clause: "test" };
const line = (x: Known, slope: number, offset: number) =>
  step({
    ...named,
    formula: "k * x + c",
    inputs: { x, k: plain("k", slope), c: plain("c", offset) },
    compute: ({ x, k, c }) => k * x + c,
  });

describe("turningPoint", () => {
  it("says up to where a loop impedance passes", () => {
    const ze = plain("Ze", 0.35) as FactQuantity;
    const check: Check = { left: line(ze, 1, 0.3138), relation: "<=", right: plain("limit", 1.0925) };
    const turn = turningPoint(check, ze);
    expect(turn).toMatchObject({ direction: "above" });
    expect(turn?.value).toBeCloseTo(0.7787, 6); // 1.0925 − 0.3138; the check's slack is 1e-9
  });
  it("says from where a failing length would pass", () => {
    const length = plain("L", 90) as FactQuantity;
    const turn = turningPoint(
      { left: line(length, 0.064, 0), relation: "<=", right: plain("limit", 5) },
      length,
    );
    expect(turn).toMatchObject({ direction: "below" });
    expect(turn?.value).toBeCloseTo(78.125, 6);
  });
  it("is null where the fact has no part in it, or nothing turns within a thousand times", () => {
    const [a, b] = [plain("a", 1) as FactQuantity, plain("b", 1) as FactQuantity];
    expect(turningPoint({ left: a, relation: "<=", right: plain("limit", 5) }, b)).toBeNull();
    expect(turningPoint({ left: line(a, 0, 1), relation: "<=", right: plain("limit", 5) }, a)).toBeNull();
  });
  it("takes the nearer of two turns", () => {
    const x = plain("x", 4) as FactQuantity;
    const bowl = step({ ...named, formula: "(x - 5)^2", inputs: { x }, compute: ({ x }) => (x - 5) ** 2 });
    const turn = turningPoint({ left: bowl, relation: "<=", right: plain("limit", 4) }, x);
    expect(turn).toMatchObject({ direction: "below" });
    expect(turn?.value).toBeCloseTo(3, 6);
  });
  it("for any straight check: the verdict is the same at the turn and another just beyond it", () => {
    const number = fc.double({ min: 0.01, max: 100, noNaN: true });
    fc.assert(
      fc.property(
        number,
        number,
        fc.double({ min: -50, max: 50, noNaN: true }),
        number,
        (x, slope, offset, limit) => {
          const fact = plain("x", x) as FactQuantity;
          const check: Check = {
            left: line(fact, slope, offset),
            relation: "<=",
            right: plain("limit", limit),
          };
          const turn = turningPoint(check, fact);
          if (turn === null) return;
          const holdsAt = (value: number) =>
            decide({ ...check, left: plain("y", slope * value + offset) }).state;
          const beyond = turn.value + (turn.direction === "above" ? 1 : -1) * 1e-6 * Math.max(1, turn.value);
          expect(holdsAt(turn.value)).toBe(decide(check).state);
          expect(holdsAt(beyond)).not.toBe(decide(check).state);
        },
      ),
    );
  });
});
