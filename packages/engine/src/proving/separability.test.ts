import { GREAT_BRITAIN } from "@underfuse/knowledge";
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
import type { Evidence } from "./evidence.ts";
import type { Fault } from "./fault.ts";
import { hypotheses } from "./hypotheses.ts";
import { predictReading } from "./predict-reading.ts";
import { weigh } from "./weigh.ts";

const design = examinedDesign(3);
const prepared = hypotheses(design, weightsOf(GREAT_BRITAIN.faults));
const NONE = [Number.NaN, Number.NaN, Number.NaN];

/** Idle, then 32 A on one line after another, on an unbalanced building; exact readings. */
function evidence(fault: Fault | null, kinds: "VIPQ" | "I"): Evidence {
  const volts = [238, 240, 236];
  const watts = [900, 1500, 600];
  const steps = [null, 0, 1, 2].map((on) => {
    const voltageV = LINES.map((line, k) => polar(volts[k] as number, LINE_ANGLE_RAD[line]));
    const drawn = (k: number, W: number, vars: number): Complex =>
      conjugate(divide(complex(W, vars), voltageV[k] as Complex));
    const read = predictReading(faultyChain(3, fault === null ? [] : [fault]), {
      voltageV,
      buildingA: watts.map((W, k) => drawn(k, W, 0.25 * W)),
      chargePointA: watts.map((_, k) =>
        on === k ? drawn(k, 0.96 * 32 * (volts[k] as number), 0.05 * 32 * 230) : complex(0),
      ),
      generationA: watts.map(() => complex(0)),
    });
    const all = (values: readonly (number | null)[]): number[] => values.map((value) => value ?? Number.NaN);
    return {
      carA: watts.map((_, k) => (on === k ? 0.96 * 32 : 0)),
      loadW: [0, 0, 0],
      mayExport: false,
      V: kinds === "I" ? NONE : all(read.V),
      I: all(read.I),
      P: kinds === "I" ? NONE : all(read.P),
      Q: kinds === "I" ? NONE : all(read.Q),
      totalP: Number.NaN,
      totalQ: Number.NaN,
      clampA: NONE,
    };
  });
  return { lines: 3, steps, resolution: { V: 0.1, I: 0.01, P: 1, Q: 1 }, carIsMeasured: false };
}

const singles = (fault: Fault | null, kinds: "VIPQ" | "I"): string[] =>
  (weigh(prepared, evidence(fault, kinds)).classes[0]?.members ?? [])
    .filter(({ hypothesis }) => hypothesis.faults.length < 2)
    .map(({ hypothesis }) => hypothesis.faults[0]?.fault.id ?? "sound");

/** Faults of the published comparison that one channel, or the whole chain, can have. */
const FAULTS: readonly Fault[] = [
  { id: "F01", channels: [1] },
  { id: "F02", channels: [1, 2] },
  { id: "F03" },
  { id: "F04", channels: [1], line: 2 },
  { id: "F05", channels: [1, 2] },
  { id: "F06" },
  { id: "F07" },
  { id: "F08", channels: [1, 2] },
  { id: "F10", channels: [1, 2] },
  { id: "F11", back: false },
  { id: "F12", order: [2, 1, 3] },
  { id: "F13", channels: [1] },
  { id: "F14", channels: [1] },
  { id: "F15", channels: [1] },
  { id: "F18", channels: [1] },
  { id: "F19", channels: [1] },
  { id: "F20", channels: [1] },
  { id: "F21", channels: [1], line: 2 },
  { id: "F23", channels: [1] },
  { id: "F24", channels: [1], factor: complex(0.5) },
  { id: "F26", ratio: 30 },
  { id: "F27", secondary: 5 },
  { id: "F31", channels: [1], factor: 0 },
  { id: "F40" },
  { id: "F41" },
  { id: "F42", copies: false },
];

// Source: comparison of faults by what can be read, worked elsewhere with the same signatures: with V, I, P
// and Q over three single-phase steps all part from a sound chain, and only a reversed transformer and a
// reversed tap read alike; with unsigned currents alone, wrong signs and voltages look sound.
describe("what three single-phase steps can part", () => {
  it.each(FAULTS.map((fault) => [fault.id, fault] as const))("%s with V, I, P, Q", (id, fault) => {
    const found = singles(fault, "VIPQ");
    expect(found).toContain(id);
    expect(found).not.toContain("sound");
  });

  it("only F01 and F13 stand together among these", () => {
    const found = singles({ id: "F01", channels: [1] }, "VIPQ");
    const compared: ReadonlySet<string> = new Set(FAULTS.map(({ id }) => id));
    expect(found.filter((id) => compared.has(id)).sort()).toEqual(["F01", "F13"]);
  });

  it.each(["F01", "F02", "F03", "F13"])("%s looks sound with unsigned currents alone", (id) => {
    const fault = FAULTS.find((item) => item.id === id) as Fault;
    expect(singles(fault, "I")).toContain("sound");
  });

  it.each(["F04", "F18", "F23", "F26", "F31", "F40"])("%s does not", (id) => {
    expect(singles(FAULTS.find((item) => item.id === id) as Fault, "I")).not.toContain("sound");
  });
});
