import type { z } from "zod";
import { changeFormat, FORMAT_CHANGES, type RawDocument } from "./formats/change-format.ts";
import { parseJsonText } from "./json-text.ts";
import { placeOf } from "./place.ts";
import { type Problem, shortly } from "./problem.ts";
import { FORMAT, FORMAT_VERSION, type Job, jobSchema } from "./schema/job.ts";

export type ParseResult =
  | { readonly ok: true; readonly job: Job }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** More problems than a person mends in one go; the rest appear once these are gone. */
const MAX_PROBLEMS = 50;

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
    problems: schemaProblems(parsed.error.issues, current),
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

function problemsOf(issue: z.core.$ZodIssue, document: unknown): readonly Problem[] {
  if (issue.code === "invalid_union" && issue.errors.length > 0) {
    return likeliestBranch(issue.errors).flatMap((inner) =>
      problemsOf({ ...inner, path: [...issue.path, ...inner.path] } as z.core.$ZodIssue, document),
    );
  }
  const { path, value } = placeOf(document, issue.path);
  const problem = (
    code: Problem["code"],
    message: string,
    at = path,
    received = shortly(value),
  ): Problem => ({
    code,
    path: at,
    received,
    message,
  });

  switch (issue.code) {
    case "invalid_type":
      if (value === undefined) return [problem("FIELD_MISSING", missingCure(path))];
      return [problem("FIELD_WRONG_TYPE", `It must be ${typeName(issue.expected)}.`)];
    case "unrecognized_keys":
      return issue.keys.map((key) => {
        const unknown = placeOf(document, [...issue.path, key]);
        return problem(
          "FIELD_UNKNOWN",
          `A job has no field "${key}" here. Check its spelling and its unit suffix, or remove it.`,
          unknown.path,
          shortly(unknown.value),
        );
      });
    case "too_small":
    case "too_big":
      return [problem("FIELD_OUT_OF_RANGE", rangeCure(issue))];
    case "invalid_value":
    case "invalid_union":
      if (value === undefined && issue.code === "invalid_value")
        return [problem("FIELD_MISSING", missingCure(path))];
      return [
        issue.code === "invalid_value"
          ? problem("FIELD_NOT_ALLOWED", oneOf(issue.values))
          : discriminatorProblem(issue, document),
      ];
    default:
      return [problem("FIELD_NOT_ALLOWED", `The value ${issue.message}.`)];
  }
}

/** A union is refused by every branch; the branch that got furthest into the value says most. */
function likeliestBranch(branches: readonly z.core.$ZodIssue[][]): readonly z.core.$ZodIssue[] {
  const depth = (branch: readonly z.core.$ZodIssue[]) =>
    Math.max(...branch.map((issue) => issue.path.length), 0);
  return branches.reduce((best, branch) => (depth(branch) >= depth(best) ? branch : best), branches[0] ?? []);
}

function discriminatorProblem(issue: z.core.$ZodIssueInvalidUnion, document: unknown): Problem {
  const { path, value } = placeOf(document, issue.path);
  const isFactState = path.endsWith(".state");
  const choices = isFactState
    ? ' Write { "state": "known", "value": …, "basis": … }, { "state": "not-recorded" }, or { "state": "not-applicable", "because": … }.'
    : " Look up the schema for the kinds there are.";
  return value === undefined
    ? { code: "FIELD_MISSING", path, received: shortly(value), message: `This field is missing.${choices}` }
    : {
        code: "FIELD_NOT_ALLOWED",
        path,
        received: shortly(value),
        message: `This is not one of the allowed words.${choices}`,
      };
}

const missingCure = (path: string): string =>
  `This field is missing. When it is not known yet, write { "state": "not-recorded" }; never leave out ${path.split(".").at(-1)}.`;

const oneOf = (values: readonly unknown[]): string =>
  `It must be one of: ${values.map((value) => String(value)).join(", ")}.`;

function rangeCure(issue: z.core.$ZodIssueTooSmall | z.core.$ZodIssueTooBig): string {
  const bound = issue.code === "too_small" ? `at least ${issue.minimum}` : `at most ${issue.maximum}`;
  const what = issue.origin === "string" ? "characters" : issue.origin === "array" ? "entries" : "";
  return `It must be ${bound}${what && ` ${what}`}. Check the unit: the field's name ends with the one expected.`;
}

const typeName = (expected: string): string =>
  ({
    object: "an object in { }",
    array: "a list in [ ]",
    string: "text in quotes",
    boolean: "true or false",
    int: "a whole number",
  })[expected] ?? `a ${expected}`;

/** Issues of any schema of this project as problems with place, value and cure. */
export const schemaProblems = (issues: readonly z.core.$ZodIssue[], document: unknown): readonly Problem[] =>
  issues.flatMap((issue) => problemsOf(issue, document)).slice(0, MAX_PROBLEMS);
