import { describe, expect, it } from "vitest";
import { examinedDesign } from "../testing/examination.ts";
import { faultyChain } from "./apply-faults.ts";
import type { Evidence } from "./evidence.ts";
import type { Fault } from "./fault.ts";
import { LinearFilter } from "./linear-filter.ts";
import { observationModel } from "./observation-model.ts";
import { VoltageDensity } from "./voltage-density.ts";

const modelOf = (faults: readonly Fault[]) =>
  observationModel(
    faultyChain(3, faults),
    faults.map((fault) => ({ fault, weight: 1 })),
    examinedDesign(3),
  );
function density(volts: readonly (readonly number[])[], faults: readonly Fault[] = []): number {
  const none = [Number.NaN, Number.NaN, Number.NaN];
  const steps = volts.map((V) => ({
    carA: [0, 0, 0],
    loadW: [0, 0, 0],
    mayExport: false,
    V,
    I: none,
    P: none,
    Q: none,
    totalP: Number.NaN,
    totalQ: Number.NaN,
    clampA: none,
  }));
  const evidence: Evidence = {
    lines: 3,
    steps,
    resolution: { V: 0.1, I: 0.1, P: 1, Q: 1 },
    carIsMeasured: false,
  };
  return new VoltageDensity().of(modelOf(faults), evidence, new LinearFilter(1));
}

describe("VoltageDensity", () => {
  it("holds a jump from step to step against a chain whose neutral is whole", () => {
    const steady = [240, 236, 238];
    const jumped = [210, 262, 238];
    expect(density([steady, steady])).toBeGreaterThan(density([steady, jumped]) + 40);
  });

  it("does not hold a level a few volts off against it", () => {
    const [low, usual] = [
      [232, 232, 232],
      [238, 238, 238],
    ];
    expect(density([usual, usual]) - density([low, low])).toBeLessThan(3);
  });

  it("knows line-to-line and dead channels by size", () => {
    const between: Fault = { id: "F14", channels: [1] };
    const open: Fault = { id: "F15", channels: [1] };
    expect(density([[412, 238, 238]], [between])).toBeGreaterThan(density([[412, 238, 238]]) + 100);
    expect(density([[0, 238, 238]], [open])).toBeGreaterThan(density([[0, 238, 238]]) + 100);
    expect(density([[238, 238, 238]])).toBeGreaterThan(density([[238, 238, 238]], [between]) + 100);
  });

  it("leaves out what nobody read", () => {
    expect(density([[Number.NaN, Number.NaN, Number.NaN]])).toBe(0);
  });
});
