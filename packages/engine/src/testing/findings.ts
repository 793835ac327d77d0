import { GREAT_BRITAIN } from "@underfuse/knowledge";
import type { Job } from "../job/index.ts";
import { type AssessmentInputs, assess, type Finding } from "../rules/index.ts";
import { setAt } from "./set-at.ts";
import { opened } from "./sketch.ts";
import { soundJob } from "./sound-job.ts";

/** Places of a job and what to put there. */
export type Changes = Readonly<Record<string, unknown>>;

export const changed = (changes: Changes, job: Job = soundJob()): Job =>
  Object.entries(changes).reduce((altered, [path, value]) => setAt(altered, path, value), job);

const TODAY: AssessmentInputs = { onIso: "2026-11-25", series: new Map() };

/** What one rule says of a job after some changes. */
const judged = (
  ruleId: string,
  changes: Changes,
  inputs: Partial<AssessmentInputs>,
  job: Job,
): readonly Finding[] =>
  assess(opened(changed(changes, job)), GREAT_BRITAIN, { ...TODAY, ...inputs }).findings.filter(
    (finding) => finding.ruleId === ruleId,
  );

/** Shortened: verdict, message, action and what is missing, of each finding of a rule. */
export const said = (
  ruleId: string,
  changes: Changes,
  inputs: Partial<AssessmentInputs> = {},
  job: Job = soundJob(),
) =>
  judged(ruleId, changes, inputs, job).map(({ verdict, message, action, missing }) =>
    [verdict, message, action, ...(missing ?? []).map((item) => item.path)]
      .filter((part) => part !== undefined)
      .join(" "),
  );

/** The ids of a rule's findings. */
export const findingIds = (ruleId: string, changes: Changes): readonly string[] =>
  judged(ruleId, changes, {}, soundJob()).map(({ id }) => id);
