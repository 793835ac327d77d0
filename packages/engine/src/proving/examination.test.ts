import { GREAT_BRITAIN } from "@underfuse/knowledge";
import { describe, expect, it } from "vitest";
import {
  examine,
  examinedDesign,
  type Marks,
  OBSERVABLES,
  type Observables,
} from "../testing/examination.ts";
import { weightsOf } from "./diagnose.ts";
import { hypotheses } from "./hypotheses.ts";

const WEIGHTS = weightsOf(GREAT_BRITAIN.faults);

/** A short form of the examination of docs/examination.md, on the same seeds. */
describe.each([1, 3] as const)("the examination, %i line(s)", (lines) => {
  const design = examinedDesign(lines);
  const prepared = hypotheses(design, WEIGHTS);
  const papers = (Object.keys(OBSERVABLES) as Observables[]).map((observables) => ({
    observables,
    marks: [0, 1, 2].map((faultCount) =>
      examine(design, WEIGHTS, prepared, { faultCount, observables, questions: 20, seed: 100 + faultCount }),
    ),
  }));
  const sum = (marks: readonly Marks[], name: keyof Marks): number =>
    marks.reduce((total, item) => total + item[name], 0);

  it("is right whenever it says it is sure, nineteen times in twenty", () => {
    const all = papers.flatMap(({ marks }) => marks);
    expect(sum(all, "sure")).toBeGreaterThan(150);
    expect(sum(all, "sureAndRight") / sum(all, "sure")).toBeGreaterThanOrEqual(0.95);
  });

  it.each(papers)("never takes a sound chain for a faulty one with $observables", ({ marks }) => {
    expect(marks[0]?.right).toBeGreaterThanOrEqual(19);
  });

  it("finds nearly every single fault when all four quantities are read", () => {
    expect(papers[0]?.marks[1]?.right).toBeGreaterThanOrEqual(18);
  });
});
