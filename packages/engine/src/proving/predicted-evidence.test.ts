import { GREAT_BRITAIN } from "@underfuse/knowledge";
import { describe, expect, it } from "vitest";
import { examinedDesign, question, randomNumbers } from "../testing/examination.ts";
import { weightsOf } from "./diagnose.ts";
import { type Hypothesis, hypotheses } from "./hypotheses.ts";
import { Likelihood } from "./likelihood.ts";
import { USUAL_LOAD } from "./load-scale.ts";
import { predictedEvidence } from "./predicted-evidence.ts";

const WEIGHTS = weightsOf(GREAT_BRITAIN.faults);
const design = examinedDesign(3);
const prepared = hypotheses(design, WEIGHTS);

describe("predictedEvidence", () => {
  it.each([
    ["a sound chain", []],
    ["a transformer reversed", ["F01"]],
    ["all transformers reversed", ["F03"]],
  ])("of %s fits its own hypothesis better than the readings it came from", (_what, ids) => {
    const hypothesis = prepared.find(
      ({ faults }) => faults.map(({ fault }) => fault.id).join() === ids.join(),
    ) as Hypothesis;
    const only = { ...Object.fromEntries(Object.keys(WEIGHTS).map((id) => [id, 0])), [ids[0] ?? "F01"]: 1 };
    const { evidence } = question(design, only as typeof WEIGHTS, ids.length, "V, I, P, Q", randomNumbers(3));
    const likelihood = new Likelihood(evidence, USUAL_LOAD);
    likelihood.of(hypothesis.model, evidence);
    const read = likelihood.misfit;
    const state = [...likelihood.expected.filter.state];
    const predicted = predictedEvidence(likelihood, hypothesis.model, evidence);
    expect([...likelihood.expected.filter.state]).toEqual(state);
    likelihood.of(hypothesis.model, predicted);
    expect(likelihood.misfit).toBeLessThan(read);
  });

  it("turns powers by the angle a channel is out by, and leaves the current's size", () => {
    const { evidence } = question(design, WEIGHTS, 0, "V, I, P, Q", randomNumbers(3));
    const likelihood = new Likelihood(evidence, USUAL_LOAD);
    const { model } = prepared[0] as Hypothesis;
    likelihood.of(model, evidence);
    const { filter, places } = likelihood.expected;
    const idle = (): { readonly P: number; readonly Q: number; readonly I: number } => {
      const [step] = predictedEvidence(likelihood, model, evidence).steps;
      return { P: step?.P[0] ?? 0, Q: step?.Q[0] ?? 0, I: step?.I[0] ?? 0 };
    };
    filter.state[places.gain] = 0;
    filter.state[places.angle] = 0;
    const straight = idle();
    filter.state[places.angle] = 0.1;
    const turned = idle();
    // A secondary that leads: less reactive power, by the angle times the active, and the other way about.
    expect(turned.P).toBeCloseTo(straight.P + 0.1 * straight.Q, 6);
    expect(turned.Q).toBeCloseTo(straight.Q - 0.1 * straight.P, 6);
    expect(turned.I).toBe(straight.I);
  });

  it("predicts nothing that was not read", () => {
    const { evidence } = question(design, WEIGHTS, 0, "total P", randomNumbers(3));
    const likelihood = new Likelihood(evidence, USUAL_LOAD);
    const { model } = prepared[0] as Hypothesis;
    likelihood.of(model, evidence);
    for (const step of predictedEvidence(likelihood, model, evidence).steps) {
      expect(step.P.every(Number.isNaN)).toBe(true);
      expect(step.I.every(Number.isNaN)).toBe(true);
      expect(step.totalP).not.toBeNaN();
    }
  });
});
