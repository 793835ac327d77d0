import { describe, expect, it } from "vitest";
import { evidenceOf } from "./evidence-of.ts";
import type { ReadingStep, Readings } from "./readings.ts";

const taken = (...steps: ReadingStep[]): Readings => ({
  format: "underfuse-readings",
  formatVersion: 1,
  steps,
});
const one = (L1: NonNullable<ReadingStep["meter"]["L1"]>, more: Partial<ReadingStep> = {}) =>
  taken({ id: "a", meter: { L1 }, ...more });
const remarksOf = (readings: Readings) =>
  evidenceOf(readings, ["L1"], false).remarks.map(({ path, done }) => `${path}: ${done}`);

describe("odd readings are named, with what was done", () => {
  it.each<[what: string, readings: Readings, remark: string]>([
    ["power factor 1.3", one({ powerFactor: 1.3 }), "steps[a].meter.L1.powerFactor: left out; read it again"],
    [
      "power factor in per cent",
      one({ powerFactor: 95 }),
      "steps[a].meter.L1.powerFactor: taken as per cent: 0.95",
    ],
    ["negative volts", one({ volts: -230 }), "steps[a].meter.L1.volts: left out; read it again"],
    [
      "negative amperes",
      one({ amps: -5 }),
      "steps[a].meter.L1.amps: its size is weighed; give the sign with the watts",
    ],
    [
      "more watts than volts and amperes allow",
      one({ volts: 230, amps: 10, watts: 5000 }),
      "steps[a].meter.L1: weighed as it stands: a wrong scale or a sum of currents reads so",
    ],
    [
      "kilowatts typed as watts",
      one({ volts: 230, amps: 10, watts: 2.3 }),
      "steps: taken as kilowatts; if the meter or the load manager says watts there, its scale is wrong: look",
    ],
    [
      "a car on a line the supply has not",
      one({ amps: 33 }, { chargePoint: { offeredA: 32, lines: ["L2"] } }),
      "steps[a].chargePoint.lines: this step is left out of the weighing; write the line it was done on, and run it again",
    ],
    [
      "a car on one line the supply has and two it has not",
      one({ amps: 33 }, { chargePoint: { offeredA: 32, lines: ["L1", "L2", "L3"] } }),
      "steps[a].chargePoint.lines: taken as charging on L1 alone",
    ],
    [
      "a load on a line the supply has not",
      one({ amps: 9 }, { loads: [{ line: "L3", watts: 2000 }] }),
      "steps[a].loads: this step is left out of the weighing; write the line it was done on, and run it again",
    ],
    [
      "a clamp on a line the supply has not",
      one({ amps: 9 }, { clampA: { L2: 9 } }),
      "steps[a].clampA.L2: this clamp reading is left out",
    ],
    [
      "a total that is not the sum",
      taken({ id: "a", meter: { L1: { watts: 1000 }, totalWatts: 2000 } }),
      "steps[a].meter: the channels are weighed, the total is not",
    ],
    [
      "a power factor that contradicts the powers",
      one({ watts: 1000, vars: 1000, powerFactor: 1 }),
      "steps[a].meter.L1.powerFactor: the powers are weighed, the power factor is not",
    ],
    [
      "a channel the meter has not",
      taken({ id: "a", meter: { L2: { watts: 5 } } }),
      "steps[a].meter.L2: these readings are left out",
    ],
  ])("%s", (_what, readings, remark) => expect(remarksOf(readings)).toContain(remark));

  it("a step written twice, word for word and otherwise", () => {
    const step = (watts: number): ReadingStep => ({ id: "a", meter: { L1: { watts } } });
    const twice = evidenceOf(taken(step(1), step(1)), ["L1"], false);
    expect(twice.evidence.steps).toHaveLength(1);
    expect(twice.remarks[0]?.done).toBe("the copy is left out");
    const differing = evidenceOf(taken(step(1), step(2)), ["L1"], false);
    expect(differing.evidence.steps).toHaveLength(2);
    expect(differing.remarks[0]?.done).toBe("both are used, in the order they stand");
  });

  it("nothing, when nothing is odd", () => {
    expect(remarksOf(one({ volts: 230, amps: 10, watts: 2200, vars: 600, powerFactor: 0.96 }))).toEqual([]);
  });
});

describe(evidenceOf, () => {
  it("works active power out of volts, amperes and power factor", () => {
    expect(
      evidenceOf(one({ volts: 230, amps: 10, powerFactor: 0.9 }), ["L1"], false).evidence.steps[0]?.P,
    ).toEqual([2070]);
  });

  it("takes what the charge point measures before what it offers", () => {
    const step: ReadingStep = {
      id: "a",
      chargePoint: { offeredA: 32, lines: ["L1"], drawnA: { L1: 30.1 } },
      meter: {},
    };
    const { evidence } = evidenceOf(taken(step), ["L1"], false);
    expect(evidence.carIsMeasured).toBe(true);
    expect(evidence.steps[0]?.carA).toEqual([30.1]);
  });

  it("takes the offer on a line the charge point does not show, never zero", () => {
    const step: ReadingStep = {
      id: "a",
      chargePoint: { offeredA: 16, lines: ["L1", "L2"], drawnA: { L1: 15.5 } },
      meter: {},
    };
    expect(evidenceOf(taken(step), ["L1", "L2", "L3"], false).evidence.steps[0]?.carA).toEqual([
      15.5,
      0.96 * 16,
      0,
    ]);
  });

  it("finds the least digit of the display", () => {
    const { evidence } = evidenceOf(
      taken({ id: "a", meter: { totalKilowatts: 8.13 } }, { id: "b", meter: { totalKilowatts: 0.63 } }),
      ["L1"],
      false,
    );
    expect(evidence.resolution.P).toBe(10);
  });

  it("lets power flow back only where there is generation that is not known to be off", () => {
    const mayExport = (hasGeneration: boolean, generation?: ReadingStep["generation"]) =>
      evidenceOf(taken({ id: "a", meter: {}, ...(generation && { generation }) }), ["L1"], hasGeneration)
        .evidence.steps[0]?.mayExport;
    expect([mayExport(false), mayExport(true), mayExport(true, "off"), mayExport(false, "on")]).toEqual([
      false,
      true,
      false,
      true,
    ]);
  });
});
