import { GREAT_BRITAIN } from "@underfuse/knowledge";
import fc from "fast-check";
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
import { weightsOf } from "./diagnose.ts";
import type { Fault } from "./fault.ts";
import { observationModel } from "./observation-model.ts";
import { canBePaired, type PossibleFault, possibleFaults } from "./possible-faults.ts";
import { predictReading } from "./predict-reading.ts";

const V = 238;
const design = examinedDesign(3);
/** Faults whose readings are linear in the powers of the site at whole voltages. */
const LINEAR = possibleFaults(design, weightsOf(GREAT_BRITAIN.faults)).filter(
  ({ fault }) => !["F17", "F37", "F38", "F39", "F43", "F44", "F45", "F58", "F59", "F60"].includes(fault.id),
);
const watts = fc.tuple(fc.integer({ min: -4000, max: 9000 }), fc.integer({ min: -2000, max: 3000 }));
const powers = fc.tuple(watts, watts, watts);

describe("observationModel", () => {
  it("shows what predictReading shows, for every two faults together", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...LINEAR),
        fc.constantFrom(...LINEAR),
        powers,
        powers,
        (a: PossibleFault, b: PossibleFault, building, car) => {
          if (a === b || !canBePaired(a.fault, b.fault)) return;
          const faults = [a.fault, b.fault];
          const model = observationModel(faultyChain(3, faults), [a, b], design);
          const voltageV = LINES.map((line) => polar(V, LINE_ANGLE_RAD[line]));
          const amps = (each: readonly (readonly [number, number])[]): Complex[] =>
            each.map(([P, Q], k) => conjugate(divide(complex(P, Q), voltageV[k] as Complex)));
          const read = predictReading(faultyChain(3, faults), {
            voltageV,
            buildingA: amps(building),
            chargePointA: amps(car),
            generationA: voltageV.map(() => complex(0)),
          });
          for (let c = 0; c < 3; c++) {
            let [P, Q, re, im] = [0, 0, 0, 0];
            for (let k = 0; k < 3; k++) {
              const at = c * 3 + k;
              const of = (name: "mRe" | "mIm" | "eRe" | "eIm" | "qRe" | "qIm" | "fRe" | "fIm"): number =>
                model[name][at] as number;
              const [[bp, bq], [cp, cq]] = [building[k] as [number, number], car[k] as [number, number]];
              P += of("mRe") * bp - of("mIm") * bq + of("eRe") * cp - of("eIm") * cq;
              Q += of("mRe") * bq + of("mIm") * bp + of("eRe") * cq + of("eIm") * cp;
              re += of("qRe") * bp - of("qIm") * bq + of("fRe") * cp - of("fIm") * cq;
              im += of("qRe") * bq + of("qIm") * bp + of("fRe") * cq + of("fIm") * cp;
            }
            expect(P).toBeCloseTo(read.P[c] as number, 5);
            expect(Q).toBeCloseTo(read.Q[c] as number, 5);
            expect(Math.hypot(re, im) / V).toBeCloseTo(read.I[c] as number, 6);
            expect((model.voltage[c] as number) * V).toBeCloseTo(read.V[c] as number, 6);
          }
        },
      ),
      { numRuns: 500 },
    );
  });

  it("lets a car that draws on one line stand on another", () => {
    // Line 2 of three is drawn on; fed from supply line 3.
    const faults: Fault[] = [
      { id: "F65", shares: [0, 1, 0] },
      { id: "F46", order: [2, 3, 1] },
    ];
    const { fRe, fIm } = observationModel(
      faultyChain(3, faults),
      faults.map((fault) => ({ fault, weight: 1 })),
      design,
    );
    const seen = fRe.flatMap((re, at) => (Math.hypot(re, fIm[at] as number) > 1e-9 ? [at] : []));
    // Channel 3, of what should be on line 2.
    expect(seen).toEqual([2 * 3 + 1]);
  });

  it("lets a burden turn and weaken together", () => {
    const burdened = LINEAR.find(({ fault }) => fault.id === "F35") as PossibleFault;
    const model = observationModel(faultyChain(3, [burdened.fault]), [burdened], design);
    expect(model.gainAngleCovariance[0]).toBeLessThan(0);
    expect(model.gainAngleCovariance[1]).toBe(0);
    const [gainSd, angleSd] = [model.gainSd[0] as number, model.angleSd[0] as number];
    expect(Math.abs(model.gainAngleCovariance[0] as number)).toBeLessThan(gainSd * angleSd);
  });
});
