import { changeFormat, FORMAT_CHANGES, type RawDocument } from "./formats/change-format.ts";
import { parseJsonText } from "./json-text.ts";
import { type Problem, shortly } from "./problem.ts";
import { FORMAT, FORMAT_VERSION, type Job, jobSchema } from "./schema/job.ts";
import { schemaProblems } from "./schema-problems.ts";

export type ParseResult =
  | { readonly ok: true; readonly job: Job }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Reads a job from its text: the job, or what stands in the way and how to mend it. Never throws. */
export function parseJob(text: string): ParseResult {
  const json = parseJsonText(text);
  return json.ok ? parseJobValue(json.value) : { ok: false, problems: [json.problem] };
}

/** Reads a job from a JSON value that is already in memory. Never throws. */
export function parseJobValue(value: unknown): ParseResult {
  const document = asJobDocument(value);
  if ("code" in document) return { ok: false, problems: [document] };
  const current = changeFormat(document.raw, document.version, FORMAT_CHANGES);
  const parsed = jobSchema.safeParse(current, { reportInput: false });
  if (parsed.success) return { ok: true, job: parsed.data };
  return {
    ok: false,
    problems: schemaProblems(parsed.error.issues, current, jobSchema),
  };
}

function asJobDocument(value: unknown): Problem | { raw: RawDocument; version: number } {
  const raw =
    typeof value === "object" && value !== null && !Array.isArray(value) ? (value as RawDocument) : undefined;
  if (raw?.format !== FORMAT) {
    return {
      code: "NOT_A_JOB",
      path: "format",
      received: raw === undefined ? shortly(value) : shortly(raw.format),
      message: `This is not a job file: a job begins with "format": "${FORMAT}". Check that the right file was chosen.`,
    };
  }
  const version = raw.formatVersion;
  if (typeof version !== "number" || !Number.isInteger(version) || version < 1) {
    return {
      code: "FORMAT_UNKNOWN",
      path: "formatVersion",
      received: shortly(version),
      message: `The format version must be a whole number from 1 to ${FORMAT_VERSION}.`,
    };
  }
  if (version > FORMAT_VERSION) {
    return {
      code: "FORMAT_FROM_THE_FUTURE",
      path: "formatVersion",
      received: shortly(version),
      message: `The file was written by a newer version (format ${version}); this one reads up to format ${FORMAT_VERSION}. Bring this program up to date; the file has not been changed.`,
    };
  }
  return { raw, version };
}
