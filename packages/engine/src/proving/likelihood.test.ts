import { GREAT_BRITAIN } from "@underfuse/knowledge";
import { describe, expect, it } from "vitest";
import {
  examinedDesign,
  OBSERVABLES,
  type Observables,
  question,
  randomNumbers,
} from "../testing/examination.ts";
import { weightsOf } from "./diagnose.ts";
import { hypotheses } from "./hypotheses.ts";
import { Likelihood } from "./likelihood.ts";
import { USUAL_LOAD } from "./load-scale.ts";

const WEIGHTS = weightsOf(GREAT_BRITAIN.faults);
const design = examinedDesign(3);
const prepared = hypotheses(design, WEIGHTS).filter(
  ({ decoding }, index) => decoding === null && index % 7 < 3,
);

/** Sums of the same terms in another order. */
const ROUNDING = 1e-7;

describe("Likelihood", () => {
  it.each(Object.keys(OBSERVABLES) as Observables[])(
    "gives a hypothesis up only where it ends below what it had to reach: %s",
    (observed) => {
      const { evidence } = question(design, WEIGHTS, 1, observed, randomNumbers(11));
      const whole = new Likelihood(evidence, USUAL_LOAD);
      const hurried = new Likelihood(evidence, USUAL_LOAD);
      const courses = prepared.map(({ model }) => {
        const value = whole.of(model, evidence);
        return { value, steps: [...whole.cumulative] };
      });
      const best = courses.reduce((most, course) => (course.value > most.value ? course : most));
      let givenUp = 0;
      courses.forEach(({ value, steps }, index) => {
        const { model, idle } = prepared[index] as (typeof prepared)[number];
        // What one hypothesis had to reach differs from what the next must, as it does by their priors.
        const floor = Float64Array.from(best.steps, (reached) => reached - 6 - (index % 50) * 20);
        const found = hurried.of(model, evidence, floor, idle);
        // A loose terminal drops courses on the way: what is left of it may differ.
        if (model.loose.length > 0 || model.mayExport) return;
        if (found === Number.NEGATIVE_INFINITY) {
          givenUp++;
          const falls = steps.some((sum, s) => sum < (floor[s] as number) + ROUNDING);
          expect(falls, `hypothesis ${index}`).toBe(true);
        } else expect(Math.abs(found - value)).toBeLessThan(ROUNDING);
      });
      expect(givenUp).toBeGreaterThan(0);
      expect(givenUp).toBeLessThan(prepared.length);
    },
  );
});
