import { describe, expect, it } from "vitest";
import { examinedDesign } from "../testing/examination.ts";
import { faultyChain } from "./apply-faults.ts";
import { isClipped, isSilent } from "./channel-range.ts";
import type { Evidence } from "./evidence.ts";
import type { Fault } from "./fault.ts";
import { observationModel } from "./observation-model.ts";

const modelOf = (...faults: readonly Fault[]) =>
  observationModel(
    faultyChain(1, faults),
    faults.map((fault) => ({ fault, weight: 1 })),
    examinedDesign(1),
  );
const evidenceOf = (amps: readonly number[]): Evidence => ({
  lines: 1,
  steps: amps.map((I) => ({
    carA: [0],
    loadW: [0],
    mayExport: false,
    V: [Number.NaN],
    I: [I],
    P: [Number.isNaN(I) ? I : 230 * I],
    Q: [Number.NaN],
    totalP: Number.NaN,
    totalQ: Number.NaN,
    clampA: [Number.NaN],
  })),
  resolution: { V: 0.1, I: 0.1, P: 1, Q: 1 },
  carIsMeasured: false,
});
const each = (model: ReturnType<typeof modelOf>, amps: readonly number[]) => {
  const evidence = evidenceOf(amps);
  return evidence.steps.map((step) => ({
    silent: isSilent(model, step, 0),
    clipped: isClipped(model, evidence, step, 0),
  }));
};

describe("the range of a channel", () => {
  it("calls nothing silent but zero, and only where there is a least current", () => {
    const floor = modelOf({ id: "F38", floorA: 1.5 });
    expect(each(floor, [0, 0.1, Number.NaN]).map(({ silent }) => silent)).toEqual([true, false, false]);
    expect(each(modelOf(), [0, 0]).map(({ silent }) => silent)).toEqual([false, false]);
  });

  it("calls a current clipped that comes back to one highest value near the limit", () => {
    const limited = modelOf({ id: "F37", limitA: 100 });
    expect(each(limited, [20, 100, 100]).map(({ clipped }) => clipped)).toEqual([false, true, true]);
    // Once is no ceiling; nor is a ceiling far from where it should be.
    expect(each(limited, [20, 100, 80]).some(({ clipped }) => clipped)).toBe(false);
    expect(each(limited, [20, 40, 40]).some(({ clipped }) => clipped)).toBe(false);
    expect(each(modelOf(), [20, 100, 100]).some(({ clipped }) => clipped)).toBe(false);
  });
});
