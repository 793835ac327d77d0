import { type Assessment, citationFor, type OptionKind, quantitiesOf, type Study } from "../rules/index.ts";
import type { OptionNights } from "../through-time/index.ts";
import type { Quantity } from "../worked/index.ts";
import { assessmentView } from "./assessment-view.ts";
import { fill } from "./format.ts";

/**
 * An assessment as plain data for other programs: every number unrounded, every working whole.
 *
 * The shape follows the engine's own names; sentences are filled in for convenience. Findings share most of their
 * working, so every step stands once in the list `steps`, and `{ "step": 3 }` names its place there, from 0.
 */
export function assessmentJson(
  assessment: Assessment,
  nights: ReadonlyMap<OptionKind, OptionNights> = new Map(),
): object {
  const { study, findings, missing, options, isCovered } = assessment;
  const { headline, counts } = assessmentView(assessment);
  const { steps, referring } = stepList();
  return {
    job: { id: study.job.id, title: study.job.title },
    onIso: study.inputs.onIso,
    designIso: study.designIso,
    isCovered,
    headline,
    counts,
    findings: findings.map((finding) => ({
      id: finding.id,
      rule: finding.ruleId,
      title: finding.title,
      stage: finding.stage,
      verdict: finding.verdict,
      action: finding.action ?? null,
      message: finding.message,
      sentence: fill(finding.template, finding.data),
      data: finding.data,
      subject: finding.subject,
      citation: citationFor(finding.clause, study) ?? null,
      check: finding.check
        ? {
            left: finding.check.left.symbol,
            relation: finding.check.relation,
            right: finding.check.right.symbol,
          }
        : null,
      working: quantitiesOf(finding).map(referring),
      facts: finding.facts ?? [],
      missing: finding.missing ?? [],
      assumed: finding.assumed,
      unchecked: finding.unchecked,
      turningPoint:
        finding.turningPoint === null
          ? null
          : {
              path: finding.turningPoint.fact.path,
              now: finding.turningPoint.fact.value,
              value: finding.turningPoint.value,
              direction: finding.turningPoint.direction,
              unit: finding.turningPoint.fact.unit,
            },
    })),
    steps,
    missing,
    options: options.map((option) => ({
      ...option,
      demand: quantityJson(option.demand),
      chargePointA: option.chargePointA && quantityJson(option.chargePointA),
      limit: option.limit && quantityJson(option.limit),
      fallback: option.fallback && quantityJson(option.fallback),
      nights: nights.get(option.kind) ?? null,
    })),
    demand: demandJson(study),
  };
}

/** A list of steps that grows as quantities are told, each step once and after what it was worked from. */
function stepList() {
  const steps: object[] = [];
  const places = new Map<Quantity, { readonly step: number }>();
  const referring = (quantity: Quantity): object => {
    if (quantity.kind !== "step") return quantity;
    const told = places.get(quantity);
    if (told !== undefined) return told;
    const { compute: _, inputs, ...rest } = quantity;
    const from = Object.entries(inputs).map(([symbol, input]) => [symbol, referring(input)]);
    const place = { step: steps.push({ ...rest, inputs: Object.fromEntries(from) }) - 1 };
    places.set(quantity, place);
    return place;
  };
  return { steps, referring };
}

/** A quantity without its function: what is left is enough to work it out again. */
function quantityJson(quantity: Quantity): object {
  if (quantity.kind !== "step") return quantity;
  const { compute: _, inputs, ...rest } = quantity;
  return {
    ...rest,
    inputs: Object.fromEntries(
      Object.entries(inputs).map(([symbol, input]) => [symbol, quantityJson(input)]),
    ),
  };
}

const demandJson = ({ demand }: Study): object =>
  demand.map(({ line, existing, unmanaged, managed }) => {
    const band = (of: { low: Quantity; high: Quantity }) => ({
      low: quantityJson(of.low),
      high: quantityJson(of.high),
    });
    return {
      line,
      evidence: existing.used.id,
      because: existing.because,
      existing: band(existing.used),
      unmanaged: band(unmanaged),
      managed: managed && band(managed),
    };
  });
