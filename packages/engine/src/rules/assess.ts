import type { OpenJob } from "../supply/index.ts";
import { type Finding, findingsOf } from "./finding.ts";
import { GB_RULES } from "./gb/index.ts";
import type { Knowledge } from "./knowledge.ts";
import { type MissingFact, missingFacts } from "./missing-facts.ts";
import { type Option, optionsOf } from "./options.ts";
import { type AssessmentInputs, type Study, study } from "./study.ts";

/** Everything an assessment says of a job. */
export interface Assessment {
  readonly study: Study;
  /** Every rule that applies in the jurisdiction, in the order of the job. */
  readonly findings: readonly Finding[];
  /** Most valuable first. */
  readonly missing: readonly MissingFact[];
  /** None while the job has no charge point. */
  readonly options: readonly Option[];
  /** False where this jurisdiction has no rules here yet: nothing was judged. */
  readonly isCovered: boolean;
}

/**
 * Assesses a job. Pure: the same job, knowledge and inputs give the same assessment.
 *
 * Never throws for anything in the job; whatever cannot be told is a finding that says why.
 */
export function assess(open: OpenJob, knowledge: Knowledge, inputs: AssessmentInputs): Assessment {
  const studied = study(open, knowledge, inputs);
  const rules = GB_RULES.filter((rule) => rule.jurisdictions.includes(open.job.site.jurisdiction));
  const findings = rules.flatMap((rule) => findingsOf(rule, studied));
  return {
    study: studied,
    findings,
    missing: missingFacts(findings),
    options: studied.circuits.length === 0 ? [] : optionsOf(studied),
    isCovered: rules.length > 0,
  };
}
