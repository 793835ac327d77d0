import { describe, expect, it } from "vitest";
import { quantitiesOf } from "../rules/index.ts";
import { assessedExample } from "../testing/examples.ts";
import type { Known } from "../worked/index.ts";
import { assessmentJson } from "./assessment-json.ts";

type Told = { readonly step: number } | { readonly kind: string; readonly value: number };
interface Document {
  readonly findings: readonly { readonly working: readonly Told[] }[];
  readonly steps: readonly {
    readonly symbol: string;
    readonly value: number;
    readonly inputs: Record<string, Told>;
  }[];
}

describe("assessmentJson", () => {
  const assessment = assessedExample("terraced-house");
  const { findings, steps }: Document = JSON.parse(JSON.stringify(assessmentJson(assessment)));
  const numberIn = (told: Told): number =>
    "step" in told ? (steps[told.step]?.value as number) : told.value;

  it("tells the working of every finding through the list of steps", () => {
    const expected = assessment.findings.map((finding) => quantitiesOf(finding).map(({ value }) => value));
    expect(findings.map(({ working }) => working.map(numberIn))).toEqual(expected);
  });
  it("names only steps that stand before", () => {
    steps.forEach(({ inputs }, index) => {
      for (const input of Object.values(inputs)) if ("step" in input) expect(input.step).toBeLessThan(index);
    });
  });
  it("holds each step once", () => {
    const met = new Set<Known>();
    const walk = (quantity: Known): void => {
      if (quantity.kind !== "step" || met.has(quantity)) return;
      met.add(quantity);
      Object.values(quantity.inputs).forEach(walk);
    };
    for (const finding of assessment.findings) quantitiesOf(finding).forEach(walk);
    expect(steps).toHaveLength(met.size);
  });
});
