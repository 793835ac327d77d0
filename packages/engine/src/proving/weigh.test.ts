import { GREAT_BRITAIN } from "@underfuse/knowledge";
import { describe, expect, it } from "vitest";
import { examinedDesign, question, randomNumbers } from "../testing/examination.ts";
import { weightsOf } from "./diagnose.ts";
import type { Evidence } from "./evidence.ts";
import type { FaultId } from "./fault.ts";
import { hypotheses } from "./hypotheses.ts";
import { weigh } from "./weigh.ts";

const WEIGHTS = weightsOf(GREAT_BRITAIN.faults);
const design = examinedDesign(3);
const prepared = hypotheses(design, WEIGHTS);
const NONE = [Number.NaN, Number.NaN, Number.NaN];
const CAR_W = 0.96 * 32 * 238;

/** Idle, then the car on one line after another; what is shown of each line's power, in each step. */
const evidence = (shown: (watts: number, line: number, step: number) => number): Evidence => ({
  lines: 3,
  steps: [null, 0, 1, 2].map((on, s) => {
    const P = [700, 1200, 500].map((watts, k) =>
      Math.round(shown(watts + 40 * ((s + k) % 3) + (on === k ? CAR_W : 0), k, s)),
    );
    const Q = P.map((watts) => Math.round(0.05 * watts));
    return {
      carA: [0, 1, 2].map((k) => (on === k ? 0.96 * 32 : 0)),
      loadW: [0, 0, 0],
      mayExport: false,
      V: [238, 238, 238],
      I: P.map((watts, k) => Math.round(100 * (Math.hypot(watts, Q[k] as number) / 238)) / 100),
      P,
      Q,
      totalP: Number.NaN,
      totalQ: Number.NaN,
      clampA: NONE,
    };
  }),
  resolution: { V: 0.1, I: 0.01, P: 1, Q: 1 },
  carIsMeasured: false,
});
const firstOf = (readings: Evidence): readonly FaultId[] | undefined =>
  weigh(prepared, readings).classes[0]?.members[0]?.hypothesis.faults.map(({ fault }) => fault.id);

describe("weigh", () => {
  it("finds nothing in a sound chain, a loose terminal least of all", () => {
    const { classes } = weigh(
      prepared,
      evidence((watts) => watts),
    );
    expect(classes[0]?.members[0]?.hypothesis.faults).toEqual([]);
    const loose = classes
      .flatMap(({ members }) => members)
      .filter(({ hypothesis }) => hypothesis.faults.some(({ fault }) => fault.id === "F39"))
      .reduce((sum, { probability }) => sum + probability, 0);
    // A terminal that happened to be good in all four steps: a sixteenth of its own share at most.
    expect(loose).toBeLessThan(0.02);
  });

  it("finds a terminal that is bad in every other step", () => {
    expect(
      firstOf(evidence((watts, line, step) => (line === 1 && step % 2 === 0 ? 0.45 * watts : watts))),
    ).toEqual(["F39"]);
  });

  it("takes the same weakening in every step for no loose terminal", () => {
    expect(firstOf(evidence((watts, line) => (line === 1 ? 0.5 * watts : watts)))).not.toContain("F39");
  });

  it("finds a broken neutral by its voltages and leaves no doubt of it", () => {
    const random = randomNumbers(4711);
    const onlyF17 = {
      ...Object.fromEntries(Object.keys(WEIGHTS).map((id) => [id, 0])),
      F17: 1,
    } as typeof WEIGHTS;
    for (let index = 0; index < 5; index++) {
      const { evidence: readings, faults } = question(design, onlyF17, 1, "V, I, P, Q", random);
      expect(faults).toEqual([{ id: "F17" }]);
      const members = weigh(prepared, readings).classes.flatMap((group) => group.members);
      expect(members[0]?.hypothesis.faults.map(({ fault }) => fault.id)).toEqual(["F17"]);
      const broken = members
        .filter(({ hypothesis }) => hypothesis.faults.some(({ fault }) => fault.id === "F17"))
        .reduce((sum, { probability }) => sum + probability, 0);
      expect(broken).toBeGreaterThan(0.999);
    }
  });

  it("names a small angle beside a sound chain only where the car's own angle hides it", () => {
    const named = (readings: Evidence): readonly string[] =>
      (weigh(prepared, readings).classes[0]?.members ?? []).map(({ hypothesis }) =>
        hypothesis.faults.map(({ fault }) => fault.id).join("+"),
      );
    const sound = evidence((watts) => watts);
    expect(named(sound)).toContain("F36");
    // Nine degrees on one of three channels cannot be the car's, which is the same on all of them.
    const turned: Evidence = {
      ...sound,
      steps: sound.steps.map((step) => ({
        ...step,
        Q: step.Q.map((vars, k) => (k === 1 ? Math.round(vars - 0.157 * (step.P[k] as number)) : vars)),
      })),
    };
    expect(named(turned)).not.toContain("");
  });

  it("puts no two hypotheses into two classes and leaves none out", () => {
    const { classes, somethingElse } = weigh(
      prepared,
      evidence((watts, line) => (line === 0 ? -watts : watts)),
    );
    const members = classes.flatMap((group) => group.members);
    expect(new Set(members).size).toBe(members.length);
    const sum = members.reduce((total, { probability }) => total + probability, somethingElse);
    // What is left below a thousand-millionth is not listed.
    expect(sum).toBeGreaterThan(0.9999);
    expect(sum).toBeLessThanOrEqual(1 + 1e-9);
    for (const group of classes)
      expect(group.probability).toBeCloseTo(
        group.members.reduce((total, { probability }) => total + probability, 0),
        12,
      );
  });
});
