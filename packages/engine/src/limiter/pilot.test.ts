import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { pilotDutyPercent, pilotOffer } from "./pilot.ts";

describe("pilotOffer against the tabulated relation [iec61851-1] Annex A", () => {
  it.each([
    [10, 6],
    [16, 9.6],
    [25, 15],
    [50, 30],
    [85, 51],
    [86, 55],
    [90, 65],
    [96, 80],
    [97, 80],
    [9, 6],
    [8, 6],
  ])("%d %% offers %d A", (dutyPercent, currentA) => {
    const offer = pilotOffer(dutyPercent);
    expect(offer.kind).toBe("current");
    expect((offer as { currentA: number }).currentA).toBeCloseTo(currentA, 12);
  });
  it.each([
    [2, { kind: "none", because: "error" }],
    [0, { kind: "none", because: "error" }],
    [7, { kind: "none", because: "error" }],
    [7.5, { kind: "none", because: "error" }],
    [100, { kind: "none", because: "not-ready" }],
    [5, { kind: "digital" }],
    [3.5, { kind: "none", because: "out-of-range" }],
    [6, { kind: "none", because: "out-of-range" }],
    [98, { kind: "none", because: "out-of-range" }],
    [Number.NaN, { kind: "none", because: "out-of-range" }],
  ])("%d %%", (dutyPercent, offer) => expect(pilotOffer(dutyPercent)).toEqual(offer));
});

describe("pilotDutyPercent", () => {
  it.each([
    [6, 10],
    [16, 26.6667],
    [32, 53.3333],
    [63, 89.2],
    [80, 96],
  ])("%d A is %d %%", (currentA, dutyPercent) => {
    expect(pilotDutyPercent(currentA)).toBeCloseTo(dutyPercent, 4);
  });
  it("offers that current again, or up to 1.5 A less between the two straight lines, never more", () => {
    const duty = fc.double({ min: 6, max: 80, noNaN: true });
    fc.assert(
      fc.property(duty, (currentA) => {
        const offer = pilotOffer(pilotDutyPercent(currentA));
        const offeredA = offer.kind === "current" ? offer.currentA : Number.NaN;
        // No duty cycle offers anything above 51 A and under 52.5 A: the two straight lines meet the 85 % apart.
        if (currentA > 51 && currentA < 52.5) {
          expect(offeredA).toBeLessThan(currentA);
          expect(offeredA).toBeGreaterThan(currentA - 1.5);
        } else expect(offeredA).toBeCloseTo(currentA, 9);
      }),
    );
  });
});
