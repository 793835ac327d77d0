import { GREAT_BRITAIN } from "@underfuse/knowledge";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { examinedDesign, question, randomNumbers } from "../testing/examination.ts";
import { jobWithChain } from "../testing/three-phase-chain.ts";
import { faultyChain } from "./apply-faults.ts";
import { type Diagnosis, diagnose, weightsOf } from "./diagnose.ts";
import { evidenceOf } from "./evidence-of.ts";
import type { Fault } from "./fault.ts";
import { hypotheses } from "./hypotheses.ts";
import { nextMeasurements } from "./next-measurement.ts";
import { predictReading } from "./predict-reading.ts";
import { proofOf } from "./proof.ts";
import type { ReadingStep, Readings } from "./readings.ts";
import { weigh } from "./weigh.ts";

const readings = (steps: readonly ReadingStep[], more: Partial<Readings> = {}): Readings => ({
  format: "underfuse-readings",
  formatVersion: 1,
  steps: [...steps],
  ...more,
});
function diagnosed(phases: 1 | 3, steps: readonly ReadingStep[], more: Partial<Readings> = {}): Diagnosis {
  const result = diagnose(jobWithChain(phases), readings(steps, more), GREAT_BRITAIN.faults);
  if (!result.ok) throw new Error(result.reason);
  return result.diagnosis;
}
const total = (id: string, offeredA: number, totalKilowatts: number): ReadingStep => ({
  id,
  ...(offeredA > 0 && { chargePoint: { offeredA, lines: ["L1"] } }),
  meter: { totalKilowatts },
});
const idsOf = ({ classes }: Diagnosis): (readonly string[])[] =>
  (classes[0]?.members ?? []).map(({ faults }) => faults.map(({ id }) => id));

// Source: common practice. A 150:5 transformer set to 30, a car on about 7.5 kW, a display of 8.13 kW.
describe("one display before and after the car starts", () => {
  const before = total("before", 0, 0.63);

  it("fits a sound chain and 0.63 kW of building, and says what it does not prove", () => {
    const diagnosis = diagnosed(1, [before, total("charging", 32, 8.13)]);
    expect(diagnosis.isTold).toBe(true);
    expect(idsOf(diagnosis)[0]).toEqual([]);
    const [low, high] = diagnosis.estimates[0]?.buildingW ?? [0, 0];
    expect(low).toBeLessThan(630);
    expect(high).toBeGreaterThan(630);
    const proof = proofOf(diagnosis);
    expect(proof.isComplete).toBe(false);
    expect(proof.properties.find(({ property }) => property === "ratio")?.isProved).toBe(false);
    expect(proof.properties.find(({ property }) => property === "direction")?.isProved).toBe(true);
  });

  it.each<[what: string, idle: number, charging: number, id: string]>([
    ["reversed", -0.63, -8.13, "F01"],
    ["downstream of the split, building side", 0.63, 0.63, "F18"],
    ["ratio left at 1", 0.021, 0.271, "F26"],
    ["dead", 0, 0, "F31"],
  ])("tells a chain that is %s", (_what, idle, charging, id) => {
    const diagnosis = diagnosed(1, [total("before", 0, idle), total("charging", 32, charging)]);
    expect(idsOf(diagnosis).some((ids) => ids.length === 1 && ids[0] === id)).toBe(true);
    expect(idsOf(diagnosis)[0]).not.toEqual([]);
  });
});

const channel = (watts: number, vars = 0.1 * Math.abs(watts)) => ({
  volts: 240,
  amps: Math.round((Math.hypot(watts, vars) / 240) * 100) / 100,
  watts,
  vars,
});
const CAR_W = 0.96 * 32 * 240;
const steps = (show: (watts: readonly number[]) => ReadingStep["meter"]): ReadingStep[] => [
  { id: "idle", meter: show([500, 900, 300]) },
  ...(["L1", "L2", "L3"] as const).map(
    (line, on): ReadingStep => ({
      id: `car on ${line}`,
      chargePoint: { offeredA: 32, lines: [line], drawnA: { [line]: 0.96 * 32 } },
      meter: show([500, 900, 300].map((watts, k) => Math.round(watts + (k === on ? CAR_W : 0)))),
    }),
  ),
];
const rightly = (watts: readonly number[]): ReadingStep["meter"] => ({
  L1: channel(watts[0] as number),
  L2: channel(watts[1] as number),
  L3: channel(watts[2] as number),
});

describe("three steps, line by line, with everything read", () => {
  it("proves what a sound chain shows, all but what only a clamp can see", () => {
    const proof = proofOf(diagnosed(3, steps(rightly)));
    const open = proof.properties.filter(({ isProved }) => !isProved).map(({ property }) => property);
    expect([...new Set(open)]).toEqual(["sees-building"]);
    for (const { property, gain } of proof.properties) {
      if (property !== "ratio" || gain === null) continue;
      expect(gain[0]).toBeGreaterThan(0.9);
      expect(gain[1]).toBeLessThan(1.1);
    }
  });

  it("proves that too once clamps agree", () => {
    const clamped = steps(rightly).map((step): ReadingStep => {
      const amps = (line: "L1" | "L2" | "L3"): number => step.meter[line]?.amps ?? 0;
      return { ...step, clampA: { L1: amps("L1"), L2: amps("L2"), L3: amps("L3") } };
    });
    expect(proofOf(diagnosed(3, clamped)).isComplete).toBe(true);
  });

  it("names a transformer that is reversed, and its twin at the voltage tap", () => {
    const diagnosis = diagnosed(
      3,
      steps((watts) => ({
        ...rightly(watts),
        L2: channel(-(watts[1] as number), -0.1 * (watts[1] as number)),
      })),
    );
    expect(diagnosis.isTold).toBe(true);
    expect(idsOf(diagnosis).slice(0, 2).map(String).sort()).toEqual(["F01", "F13"]);
    expect(diagnosis.classes[0]?.members[0]?.faults[0]?.channels).toEqual(["L2"]);
    expect(diagnosis.contradictions.length).toBeGreaterThan(0);
    expect(
      proofOf(diagnosis).properties.find(
        ({ channel: on, property }) => on === "L2" && property === "direction",
      )?.isProved,
    ).toBe(false);
  });

  it("relabelled lines relabel the answer", () => {
    // A rotation keeps the sequence, so the whole site turns with it.
    const reversedOn = (line: 0 | 1 | 2): Diagnosis =>
      diagnosed(
        3,
        steps((watts) => {
          const shown = watts.map((value, k) =>
            channel(k === line ? -value : value, (k === line ? -0.1 : 0.1) * value),
          );
          return { L1: shown[0], L2: shown[1], L3: shown[2] };
        }),
      );
    const answers = ([0, 1, 2] as const).map((line) => reversedOn(line).classes[0]?.members[0]?.faults);
    expect(answers.map((faults) => faults?.map(({ id }) => id))).toEqual([["F01"], ["F01"], ["F01"]]);
    expect(answers.map((faults) => faults?.[0]?.channels)).toEqual([["L1"], ["L2"], ["L3"]]);
  });

  it("prepares the causes of a chain once, and those of another anew", () => {
    const [first, again] = [diagnosed(3, steps(rightly)), diagnosed(3, steps(rightly))];
    expect(again.all).toBe(first.all);
    const single = diagnosed(1, [total("idle", 0, 0.6), total("charging", 32, 8.1)]);
    expect(single.all.length).toBeLessThan(first.all.length);
    expect(diagnosed(3, steps(rightly)).all).toHaveLength(first.all.length);
  });

  it("does not stand for another chain", () => {
    const diagnosis = diagnosed(3, steps(rightly), { chain: "0000000000000000" });
    expect(proofOf(diagnosis)).toMatchObject({ isOfThisChain: false, isComplete: false });
    expect(proofOf(diagnosed(3, steps(rightly), { chain: diagnosis.mark })).isOfThisChain).toBe(true);
  });
});

describe("one transformer on a supply of three lines", () => {
  const whole = jobWithChain(3);
  const { metering } = whole.job;
  if (metering === null) throw new Error("the job has no metering");
  const open = {
    ...whole,
    job: {
      ...whole.job,
      metering: {
        ...metering,
        currentTransformers: metering.currentTransformers.filter(({ channel: on }) => on === "L2"),
      },
    },
  };
  const step = (id: string, offeredA: number, watts: number): ReadingStep => ({
    id,
    ...(offeredA > 0 && { chargePoint: { offeredA, lines: ["L2"] } }),
    meter: { L2: channel(watts) },
  });
  const result = diagnose(
    open,
    readings([step("idle", 0, 600), step("charging", 16, 600 + CAR_W / 2)]),
    GREAT_BRITAIN.faults,
  );
  if (!result.ok) throw new Error(result.reason);

  it("is known by the line it watches", () => {
    expect(result.diagnosis.remarks).toEqual([]);
    expect(result.diagnosis.estimates.map(({ channel: on }) => on)).toEqual(["L2"]);
    const [best] = nextMeasurements(result.diagnosis);
    expect(["L2", null]).toContain(best?.measurement.line);
  });
  it("is never proved to watch no other: no reading shows the others", () =>
    expect(
      proofOf(result.diagnosis).properties.find(({ property }) => property === "own-line"),
    ).toMatchObject({
      channel: "L2",
      isProved: false,
      isBeyondReadings: true,
    }));
});

describe("what to measure next", () => {
  it("asks for every channel when only a total was read", () => {
    const threePhase = (id: string, watts: number): ReadingStep => ({ id, meter: { totalWatts: watts } });
    const next = nextMeasurements(diagnosed(3, [threePhase("a", 1700), threePhase("b", 1720)]));
    expect(next[0]?.measurement.action).not.toBe("read-plate");
    for (const { information, perMinute, measurement } of next)
      expect(perMinute * measurement.minutes).toBeCloseTo(information, 12);
    expect(next.map(({ perMinute }) => perMinute)).toEqual(
      next.map(({ perMinute }) => perMinute).sort((a, b) => b - a),
    );
  });

  it("has nothing to ask when there is one answer", () => {
    const next = nextMeasurements(
      diagnosed(
        3,
        steps((watts) => ({
          ...rightly(watts),
          L2: channel(-(watts[1] as number), -0.1 * (watts[1] as number)),
        })),
      ),
    );
    // F01 and F13 read alike in everything a meter and a clamp can show.
    expect(next.filter(({ information }) => information > 0.1)).toEqual([]);
  });
});

describe("laws of the model", () => {
  const phasor = fc.record({
    re: fc.double({ min: -40, max: 40, noNaN: true }),
    im: fc.double({ min: -40, max: 40, noNaN: true }),
  });
  const site = fc
    .record({ buildingA: fc.tuple(phasor, phasor, phasor), chargePointA: fc.tuple(phasor, phasor, phasor) })
    .map((currents) => ({
      ...currents,
      voltageV: [
        { re: 230, im: 0 },
        { re: -115, im: -199.2 },
        { re: -115, im: 199.2 },
      ],
      generationA: [0, 1, 2].map(() => ({ re: 0, im: 0 })),
    }));
  const anyFault = fc.constantFrom<Fault>(
    { id: "F06" },
    { id: "F29", factor: 0.5 },
    { id: "F04", channels: [1], line: 2 },
    { id: "F40" },
  );

  it("turning a transformer changes signs of its channel and nothing else", () => {
    fc.assert(
      fc.property(site, anyFault, (state, fault) => {
        if (fault.id === "F40") return;
        const plain = predictReading(faultyChain(3, [fault]), state);
        const turned = predictReading(faultyChain(3, [fault, { id: "F01", channels: [2] }]), state);
        expect(turned.I).toEqual(plain.I);
        expect(turned.V).toEqual(plain.V);
        expect(turned.P[1]).toBeCloseTo(-(plain.P[1] as number), 6);
        expect(turned.Q[1]).toBeCloseTo(-(plain.Q[1] as number), 6);
        expect([turned.P[0], turned.P[2]]).toEqual([plain.P[0], plain.P[2]]);
      }),
    );
  });

  it("a ratio fault scales every current and power alike", () => {
    fc.assert(
      fc.property(site, anyFault, fc.double({ min: 0.05, max: 20, noNaN: true }), (state, fault, factor) => {
        if (fault.id === "F29") return;
        const plain = predictReading(faultyChain(3, [fault]), state);
        const scaled = predictReading(faultyChain(3, [fault, { id: "F29", factor }]), state);
        expect(scaled.V).toEqual(plain.V);
        for (const kind of ["I", "P", "Q"] as const)
          scaled[kind].forEach((value, c) => {
            const wanted = (plain[kind][c] as number) * factor;
            expect(Math.abs((value as number) - wanted)).toBeLessThanOrEqual(
              1e-9 * Math.max(1, Math.abs(wanted)),
            );
          });
      }),
    );
  });

  it("further readings never raise the doubt, on average", () => {
    const design = examinedDesign(1);
    const prepared = hypotheses(design, weightsOf(GREAT_BRITAIN.faults));
    const random = randomNumbers(7);
    const doubt = (probabilities: readonly number[]): number =>
      probabilities.reduce((sum, p) => (p > 0 ? sum - p * Math.log2(p) : sum), 0);
    const entropy = (evidence: Parameters<typeof weigh>[1]): number =>
      doubt(
        weigh(prepared, evidence).classes.flatMap(({ members }) =>
          members.map(({ probability }) => probability),
        ),
      );
    let [few, many] = [0, 0];
    for (let i = 0; i < 25; i++) {
      const { evidence } = question(design, weightsOf(GREAT_BRITAIN.faults), i % 3, "I, P", random);
      few += entropy({ ...evidence, steps: evidence.steps.slice(0, 2) });
      many += entropy(evidence);
    }
    expect(many).toBeLessThan(few);
  });
});

describe("readings that are not what they seem", () => {
  const read = (
    id: string,
    volts: number,
    amps: number,
    watts: number,
    offeredA = 0,
    line: "L1" | "L2" = "L1",
  ) => ({
    id,
    ...(offeredA > 0 && { chargePoint: { offeredA, lines: [line] } }),
    meter: { L1: { volts, amps, watts } },
  });
  const idle = read("idle", 240, 2.71, 640);

  it("names no fault for a car on a line that the supply has not", () => {
    const diagnosis = diagnosed(1, [idle, read("car", 238, 33.6, 7990, 32, "L2")]);
    expect(idsOf(diagnosis)[0]).toEqual([]);
    expect(diagnosis.isTold).toBe(false);
    expect(
      proofOf(diagnosis).properties.find(({ property }) => property === "sees-charge-point")?.isProved,
    ).toBe(false);
  });

  it("still sees a car on another line of a supply of which the meter watches one", () => {
    const steps = [idle, read("car", 238, 33.6, 7990, 32, "L2")];
    const { evidence, remarks } = evidenceOf(readings(steps), ["L1"], false, true);
    expect(evidence.steps[1]?.P).toEqual([7990]);
    expect(remarks).toEqual([]);
  });

  it("counts the steps of what it weighed, not of the file", () => {
    const { readings: weighed, contradictions } = diagnosed(1, [
      idle,
      idle,
      read("car", 238, 16.8, 3995, 32),
    ]);
    expect(contradictions.map(({ step }) => weighed.steps[step]?.id)).toContain("car");
    expect(contradictions.map(({ step }) => weighed.steps[step]?.id)).not.toContain("idle");
  });

  it("proves no scale where watts were taken for kilowatts", () => {
    const scaleOf = (steps: readonly ReadingStep[]) =>
      proofOf(diagnosed(1, steps)).properties.find(({ property }) => property === "decoding");
    expect(scaleOf([idle, read("car", 238, 33.6, 7990, 32)])?.isProved).toBe(true);
    const misread = scaleOf([read("idle", 240, 2.71, 0.64), read("car", 238, 33.6, 7.99, 32)]);
    expect(misread?.isProved).toBe(false);
    expect(misread?.stands?.map(({ fault }) => fault)).toEqual([{ id: "F60", quantity: "P", exponent: -3 }]);
  });

  // 7990 W at 238 V is 33.6 A at the least: 3.36 A is a decimal point in the wrong place, and no fault shows it.
  it.each([
    ["a current ten times too small", [read("car", 238, 3.36, 7990, 32), read("less", 239, 18, 4300, 16)]],
    ["two powers that no current allows", [read("car", 238, 33.6, 12_990, 32)]],
  ])("names no fault with confidence for %s", (_what, steps) => {
    const { weighing, isTold } = diagnosed(1, [
      steps.length === 1 ? read("idle", 240, 2.71, 1640) : idle,
      ...steps,
    ]);
    expect(weighing.somethingElse > 0.5 || !isTold).toBe(true);
  });
});
