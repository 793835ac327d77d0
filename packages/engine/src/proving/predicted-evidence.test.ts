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
