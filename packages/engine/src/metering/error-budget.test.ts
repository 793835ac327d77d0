import { GREAT_BRITAIN } from "@underfuse/knowledge";
import { describe, expect, it } from "vitest";
import { known } from "../job/index.ts";
import { changed } from "../testing/findings.ts";
import { opened } from "../testing/sketch.ts";
import { figureOn } from "../worked/index.ts";
import { errorBudget } from "./error-budget.ts";

const figures = (id: keyof typeof GREAT_BRITAIN.figures) => figureOn(GREAT_BRITAIN.figures[id], "2026-11-25");
function budget(currentsA: readonly number[], powerFactor: number, changes: Record<string, unknown> = {}) {
  const { metering } = opened(changed(changes)).job;
  const transformer = metering?.currentTransformers[0];
  if (metering === null || transformer === undefined) throw new Error("the sound job has a transformer");
  const chain = { transformer, meterClass: metering.meterClass, tables: GREAT_BRITAIN.metering, figures };
  return errorBudget(currentsA, { voltageV: 230, powerFactor }, chain);
}

describe(errorBudget, () => {
  it("adds class, meter and position, and turns the angle into watts", () => {
    // By hand: class 1 at rated current 1 % and 60′ = 0.017453 rad, meter B 2 %, position 1 %: 4 % of 100 A;
    // P = 20 700 W, Q = 10 025.5 var at 0.9: 828 + 175.0 W and 401.0 + 361.3 var.
    const [row] = budget([100], 0.9);
    expect(row?.worstPercent).toBeCloseTo(4, 9);
    expect(row?.errorA).toBeCloseTo(4, 9);
    expect(row?.errorW).toBeCloseTo(1002.98, 1);
    expect(row?.errorVar).toBeCloseTo(762.3, 1);
  });

  it("grows towards the low end, and ends with the class", () => {
    const [low, middle, high, none] = budget([5, 20, 100, 4.9], 1);
    expect([low, middle, high].map((row) => row?.worstPercent)).toEqual([6, 4.5, 4]);
    expect(none).toMatchObject({ worstPercent: null, errorA: null, errorW: null, errorVar: null });
  });

  it("promises nothing of a set that was exchanged, though its plate shows a class", () => {
    const owner = "metering.currentTransformers[ct1].classOwner";
    for (const kept of ["transformer", "set-as-tested"])
      expect(budget([100], 0.9, { [owner]: known(kept) })[0]?.worstPercent).toBeCloseTo(4, 9);
    expect(budget([100], 0.9, { [owner]: known("set-exchanged") })[0]).toMatchObject({
      worstPercent: null,
      errorW: null,
    });
  });

  it("leaves watts open where the class promises no angle", () => {
    const [row] = budget([80], 0.9, { "metering.currentTransformers[ct1].accuracyClass": known("3") });
    expect(row?.errorA).toBeCloseTo(0.06 * 80, 9);
    expect(row?.errorW).toBeNull();
  });
});
