import {
  citationFor,
  type Finding,
  quantitiesOf,
  type Stage,
  type Study,
  type Verdict,
} from "../rules/index.ts";
import { decide } from "../worked/index.ts";
import { datumText, fill, inWorking } from "./format.ts";
import { ACTIONS, BASIS_WORDS, STANDING_WORDS, VERDICTS } from "./words.ts";
import { citationText, type WorkingView, workingViews } from "./working-view.ts";

/** Everything a screen or a page shows of one finding, decided before anything is drawn. */
export interface FindingView {
  readonly id: string;
  readonly verdict: Verdict;
  readonly mark: string;
  readonly word: string;
  readonly title: string;
  readonly stage: Stage;
  readonly about: string;
  readonly sentence: string;
  /** What it asks of somebody, in two or three words; null when nothing. */
  readonly action: string | null;
  readonly isUrgent: boolean;
  /** `0.35 Ω ≤ 1.37 Ω`, when a comparison decided. */
  readonly comparison: string | null;
  readonly turning: string | null;
  readonly assumed: readonly string[];
  readonly unchecked: readonly string[];
  readonly missing: readonly string[];
  /** Place in the job. */
  readonly path: string;
  readonly source: string;
  readonly working: readonly WorkingView[];
  readonly facts: readonly string[];
}

export function findingView(finding: Finding, study: Study): FindingView {
  const { mark, word } = VERDICTS[finding.verdict];
  const citation = citationFor(finding.clause, study);
  return {
    id: finding.id,
    verdict: finding.verdict,
    mark: finding.action === "caution" && finding.verdict === "pass" ? "!" : mark,
    word,
    title: finding.title,
    stage: finding.stage,
    about: finding.subject.label,
    sentence: fill(finding.template, finding.data),
    action: finding.action === undefined ? null : ACTIONS[finding.action],
    isUrgent: finding.action === "stop",
    comparison: comparisonText(finding),
    turning: turningText(finding),
    assumed: finding.assumed.map((fact) => `${fact.label}: ${factValue(fact)} (${fact.path})`),
    unchecked: finding.unchecked.map(
      ({ label, citation: open }) => `${label}: ${STANDING_WORDS[open.standing]} (${open.at})`,
    ),
    missing: (finding.missing ?? []).map((item) => item.label),
    path: finding.subject.path,
    source: citation === undefined ? "" : citationText(citation, study),
    // Most views are never opened, and a working is long: made when somebody asks.
    get working() {
      return workingViews(quantitiesOf(finding), study);
    },
    facts: (finding.facts ?? []).map(
      (fact) => `${fact.label}: ${factValue(fact)}, ${BASIS_WORDS[fact.basis]}`,
    ),
  };
}

const factValue = (fact: { value: string | number | boolean; unit: string }): string =>
  typeof fact.value === "boolean"
    ? fact.value
      ? "yes"
      : "no"
    : typeof fact.value === "number"
      ? inWorking(fact.value, fact.unit)
      : fact.value.replaceAll("-", " ");

function comparisonText({ check }: Finding): string | null {
  if (check === undefined) return null;
  const result = decide(check);
  if (result.state === "unknown") return null;
  const { left, right } = result;
  const relation = { "<=": ["≤", ">"], ">=": ["≥", "<"] }[check.relation][result.state === "holds" ? 0 : 1];
  return `${left.symbol} ${inWorking(left.value, left.unit)} ${relation} ${right.symbol} ${inWorking(right.value, right.unit)}`;
}

/** "Passes until Ze exceeds 0.98 Ω", rounded so that the statement stays true. */
function turningText({ turningPoint, verdict }: Finding): string | null {
  if (turningPoint === null) return null;
  const { fact, value, direction } = turningPoint;
  const passes = verdict === "pass";
  const decimals = value >= 100 ? 0 : value >= 10 ? 1 : 2;
  // The last value with the present verdict is named: down when it is approached from below, up from above.
  const bound = datumText({
    value,
    unit: fact.unit,
    decimals,
    rounding: direction === "above" ? "down" : "up",
  });
  const now = inWorking(fact.value, fact.unit);
  return passes
    ? `Passes until ${fact.label} (now ${now}) ${direction === "above" ? "exceeds" : "falls below"} ${bound}.`
    : `Turns when ${fact.label} (now ${now}) goes ${direction} ${bound}.`;
}
