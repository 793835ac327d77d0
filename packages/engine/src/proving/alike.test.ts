import { GREAT_BRITAIN } from "@underfuse/knowledge";
import { describe, expect, it } from "vitest";
import { examinedDesign, question, randomNumbers } from "../testing/examination.ts";
import { type AlikeHypotheses, alikeClasses, isTold, type Weighed } from "./alike.ts";
import { weightsOf } from "./diagnose.ts";
import { type Hypothesis, hypotheses } from "./hypotheses.ts";
import { Likelihood } from "./likelihood.ts";
import { USUAL_LOAD } from "./load-scale.ts";
import { readingsUnder } from "./weigh.ts";

const WEIGHTS = weightsOf(GREAT_BRITAIN.faults);
const design = examinedDesign(1);
const prepared = hypotheses(design, WEIGHTS);
const single = (id: string): Hypothesis =>
  prepared.find(({ faults }) => faults.length === 1 && faults[0]?.fault.id === id) as Hypothesis;
const [sound] = prepared as [Hypothesis, ...Hypothesis[]];

/** A sound chain's readings, and hypotheses as if they had come out of weighing them. */
const { evidence } = question(design, WEIGHTS, 0, "V, I, P, Q", randomNumbers(8));
const classesOf = (items: readonly (readonly [Hypothesis, logLikelihood: number, probability: number])[]) =>
  alikeClasses(
    items.map(
      ([hypothesis, logLikelihood, probability]): Weighed => ({ hypothesis, logLikelihood, probability }),
    ),
    {
      likelihood: new Likelihood(evidence, USUAL_LOAD),
      readingsUnder: (hypothesis) => readingsUnder(hypothesis, evidence),
    },
  );
const idsOf = (classes: readonly AlikeHypotheses[]): readonly (readonly string[])[] =>
  classes.map(({ members }) => members.map(({ hypothesis }) => hypothesis.faults[0]?.fault.id ?? "sound"));

describe("alikeClasses", () => {
  it("parts what predicts other readings, however close the noise has brought them", () => {
    expect(
      idsOf(
        classesOf([
          [sound, -50, 0.7],
          [single("F01"), -52, 0.3],
        ]),
      ),
    ).toEqual([["sound"], ["F01"]]);
  });

  it("keeps together what could have shown the same, within what the noise may do", () => {
    // A burden of a tenth turns by seven degrees; the car's own angle is not known to much better than two.
    expect(
      idsOf(
        classesOf([
          [sound, -50, 0.7],
          [single("F36"), -52, 0.3],
        ]),
      ),
    ).toEqual([["sound", "F36"]]);
  });

  it("parts them all the same once the readings rule one out beside the other", () => {
    expect(
      idsOf(
        classesOf([
          [sound, -50, 0.7],
          [single("F36"), -55, 0.3],
        ]),
      ),
    ).toEqual([["sound"], ["F36"]]);
  });

  it("keeps together what the readings make equally likely", () => {
    expect(
      idsOf(
        classesOf([
          [single("F31"), -50, 0.7],
          [single("F01"), -50.9, 0.3],
        ]),
      ),
    ).toEqual([["F31", "F01"]]);
  });
});

describe("isTold", () => {
  const group = (shares: readonly (readonly [Hypothesis, number])[]): AlikeHypotheses => ({
    members: shares.map(([hypothesis, probability]) => ({ hypothesis, logLikelihood: 0, probability })),
    probability: shares.reduce((sum, [, probability]) => sum + probability, 0),
  });
  it.each<[what: string, AlikeHypotheses | undefined, told: boolean]>([
    ["no class", undefined, false],
    ["a fault at nine tenths", group([[single("F01"), 0.9]]), true],
    ["a fault below nine tenths", group([[single("F01"), 0.89]]), false],
    [
      "two faults that share nine tenths",
      group([
        [single("F01"), 0.5],
        [single("F13"), 0.4],
      ]),
      true,
    ],
    [
      "a sound chain with two thirds of it alone",
      group([
        [sound, 0.67],
        [single("F36"), 0.3],
      ]),
      true,
    ],
    [
      "a sound chain with less",
      group([
        [sound, 0.6],
        [single("F36"), 0.37],
      ]),
      false,
    ],
  ])("judges %s", (_what, top, told) => expect(isTold(top)).toBe(told));
});
