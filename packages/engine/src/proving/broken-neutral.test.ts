import { describe, expect, it } from "vitest";
import {
  type Complex,
  complex,
  conjugate,
  divide,
  LINE_ANGLE_RAD,
  LINES,
  polar,
} from "../quantities/index.ts";
import { examinedDesign } from "../testing/examination.ts";
import { faultyChain } from "./apply-faults.ts";
import { adriftStep } from "./broken-neutral.ts";
import type { Evidence } from "./evidence.ts";
import { ExpectedReadings } from "./expected-readings.ts";
import type { Fault } from "./fault.ts";
import { SUPPLY_V } from "./load-scale.ts";
import { type AdriftSite, observationModel } from "./observation-model.ts";
import { predictReading } from "./predict-reading.ts";
import { CAR_TAN } from "./reading-errors.ts";
import { type StarPoint, starPointOf } from "./star-point.ts";

const LOADS = [
  [900, 100],
  [2400, 500],
  [300, 60],
] as const;
const CAR_A = [0, 16, 0];
const NONE = [Number.NaN, Number.NaN, Number.NaN];

/** What a chain with these faults shows of the loads above once the neutral is broken. */
function evidenceOf(faults: readonly Fault[]): Evidence {
  const voltageV = LINES.map((line) => polar(SUPPLY_V, LINE_ANGLE_RAD[line]));
  const drawn = (k: number, W: number, vars: number): Complex =>
    conjugate(divide(complex(W, vars), voltageV[k] as Complex));
  const read = predictReading(faultyChain(3, faults), {
    voltageV,
    buildingA: LOADS.map(([W, vars], k) => drawn(k, W, vars)),
    chargePointA: CAR_A.map((amps, k) => drawn(k, amps * SUPPLY_V, amps * SUPPLY_V * CAR_TAN)),
    generationA: voltageV.map(() => complex(0)),
  });
  const all = (values: readonly (number | null)[]): number[] => values.map((value) => value ?? Number.NaN);
  return {
    lines: 3,
    steps: [
      {
        carA: CAR_A,
        loadW: [0, 0, 0],
        mayExport: false,
        V: all(read.V),
        I: all(read.I),
        P: all(read.P),
        Q: all(read.Q),
        totalP: Number.NaN,
        totalQ: Number.NaN,
        clampA: NONE,
      },
    ],
    resolution: { V: 0.1, I: 0.01, P: 1, Q: 1 },
    carIsMeasured: false,
  };
}

describe("adriftStep", () => {
  it.each<[what: string, more: readonly Fault[]]>([
    ["alone", []],
    ["with a transformer reversed", [{ id: "F01", channels: [2] }]],
    ["with two transformers exchanged", [{ id: "F05", channels: [1, 3] }]],
    ["with two voltage taps exchanged", [{ id: "F10", channels: [2, 3] }]],
    ["with the charge point's lines rotated", [{ id: "F46", order: [2, 3, 1] }]],
    ["with a car that draws less", [{ id: "F65", shares: [0.5, 0.5, 0.5] }]],
  ])("predicts the powers and currents of a broken neutral, %s", (_what, more) => {
    const faults: Fault[] = [{ id: "F17" }, ...more];
    const evidence = evidenceOf(faults);
    const [step] = evidence.steps;
    if (step === undefined) throw new Error("no step");
    const model = observationModel(
      faultyChain(3, faults),
      faults.map((fault) => ({ fault, weight: 1 })),
      examinedDesign(3),
    );
    const site = model.adrift as AdriftSite;
    const expected = new ExpectedReadings(evidence);
    expected.volts.fill(SUPPLY_V);
    const { filter, places } = expected;
    filter.reset(places.carOnLine);
    LOADS.forEach(([W, vars], k) => {
      filter.state[k] = W;
      filter.state[3 + k] = vars;
    });
    filter.state[places.carShare] = 1;
    // Nothing is uncertain here, so nothing may move.
    const point = starPointOf(site.tapLines, step.V) as StarPoint;
    const at = adriftStep(expected, model, site, point, step);
    expect(point.misfit).toBeLessThan(1e-6);
    // The sum of the currents leaves nothing over: only the width of its own density is left of it.
    expect(filter.misfit).toBeLessThan(1e-6);
    for (let c = 0; c < 3; c++) {
      expect(expected.power(at.model, step, c, false)).toBeCloseTo(step.P[c] as number, 3);
      expect(expected.power(at.model, step, c, true)).toBeCloseTo(step.Q[c] as number, 3);
      filter.row.fill(0);
      expect(expected.addShownCurrent(at.model, step, c)).toBeCloseTo(step.I[c] as number, 5);
    }
  });
});
