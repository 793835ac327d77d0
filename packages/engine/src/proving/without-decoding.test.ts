import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { halvesExchangedFloat32, halvesExchangedInt32 } from "./decoding.ts";
import type { Evidence } from "./evidence.ts";
import { withoutDecoding } from "./without-decoding.ts";

const NONE = [Number.NaN];
const reading = (P: number, more: { readonly V?: number; readonly totalP?: number } = {}): Evidence => ({
  lines: 1,
  steps: [
    {
      carA: [0],
      loadW: [0],
      mayExport: false,
      V: [more.V ?? Number.NaN],
      I: NONE,
      P: [P],
      Q: NONE,
      totalP: more.totalP ?? Number.NaN,
      totalQ: Number.NaN,
      clampA: NONE,
    },
  ],
  resolution: { V: 0.1, I: 0.1, P: 1, Q: 1 },
  carIsMeasured: false,
});
const wattsOf = (evidence: Evidence | undefined): number | undefined => evidence?.steps[0]?.P[0];

describe("withoutDecoding", () => {
  it("takes exchanged halves out again", () => {
    fc.assert(
      fc.property(fc.integer({ min: -20_000, max: 20_000 }), (watts) => {
        const asWhole = halvesExchangedInt32(watts, 1) as number;
        expect(
          wattsOf(withoutDecoding(reading(asWhole), { id: "F58", kind: "int32", unit: 1 })?.evidence),
        ).toBe(watts);
        const asFloat = halvesExchangedFloat32(watts);
        if (asFloat === null) return;
        expect(
          wattsOf(withoutDecoding(reading(asFloat), { id: "F58", kind: "float32", unit: 1 })?.evidence),
        ).toBe(watts);
      }),
    );
  });

  it("takes a lost sign out of numbers of 32 bits, large as they are", () => {
    const undone = withoutDecoding(reading(2 ** 32 - 500), { id: "F59", bits: 32, unit: 1 });
    expect(wattsOf(undone?.evidence)).toBe(-500);
  });

  it.each([
    ["a fraction of a unit", 0.04],
    ["a number too small to be any", 1.6e-23],
  ])("says that %s is no whole number of units", (_what, value) => {
    expect(withoutDecoding(reading(value), { id: "F58", kind: "int32", unit: 1 })).toBeNull();
  });

  it("hands back the very same readings where nothing changes", () => {
    const evidence = reading(500);
    expect(withoutDecoding(evidence, { id: "F59", bits: 16, unit: 1 })?.evidence).toBe(evidence);
    expect(withoutDecoding(evidence, { id: "F60", quantity: "V", exponent: 3 })?.evidence).toBe(evidence);
  });

  it("counts the change of scale of what is weighed, once", () => {
    const fault = { id: "F60", quantity: "P", exponent: 3 } as const;
    expect(withoutDecoding(reading(5e6), fault)?.logScale).toBeCloseTo(-3 * Math.LN10, 12);
    // Channels are weighed; a total beside them is not.
    expect(withoutDecoding(reading(5e6, { totalP: 5e6 }), fault)?.logScale).toBeCloseTo(-3 * Math.LN10, 12);
  });

  it("trusts exchanged halves of a float less where the number already looked like a reading", () => {
    const looksRight = withoutDecoding(reading(-5480), { id: "F58", kind: "float32", unit: 1 });
    const strange = withoutDecoding(reading(halvesExchangedFloat32(230.5) as number), {
      id: "F58",
      kind: "float32",
      unit: 1,
    });
    expect(looksRight?.logScale).toBeCloseTo(-16 * Math.LN2, 12);
    expect(strange?.logScale).toBe(0);
  });
});
