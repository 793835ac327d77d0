import type { z } from "zod";
import { cureForMisplacedFact, cureForMissing, cureForType, isFactLike, oneOf } from "./cure.ts";
import { guideOf } from "./fact.ts";
import { placeOf } from "./place.ts";
import { type Problem, shortly } from "./problem.ts";
import { schemaAt } from "./schema-at.ts";

/** More problems than a person mends in one go; the rest appear once these are gone. */
const MAX_PROBLEMS = 50;

/** What a schema refused in a document, each with its place, what stood there and its cure. */
export function schemaProblems(
  issues: readonly z.core.$ZodIssue[],
  document: unknown,
  root: z.ZodType,
): readonly Problem[] {
  const problems = issues.flatMap((issue) => problemsOf(issue, { document, root }));
  return eachOnce(problems).slice(0, MAX_PROBLEMS);
}

interface Refused {
  readonly document: unknown;
  readonly root: z.ZodType;
}

/** A fact in the wrong place is wrong in every field of it; it is said once. */
const eachOnce = (problems: readonly Problem[]): readonly Problem[] => [
  ...new Map(problems.map((problem) => [`${problem.path} ${problem.message}`, problem])).values(),
];

function problemsOf(issue: z.core.$ZodIssue, refused: Refused): readonly Problem[] {
  const { document, root } = refused;
  const misplaced = misplacedFact(issue, refused);
  if (misplaced !== undefined) return [misplaced];
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
  const schema = schemaAt(root, document, issue.path);

  if (issue.code === "invalid_union" && issue.errors.length > 0) {
    const choices = choicesOf(issue.errors);
    if (choices === undefined)
      return likeliestBranch(issue.errors).flatMap((inner) =>
        problemsOf({ ...inner, path: [...issue.path, ...inner.path] } as z.core.$ZodIssue, refused),
      );
    return value === undefined
      ? [problem("FIELD_MISSING", cureForMissing(schema))]
      : [problem("FIELD_NOT_ALLOWED", oneOf(choices.words, value, choices.orObject))];
  }

  switch (issue.code) {
    case "invalid_type":
      if (value === undefined) return [problem("FIELD_MISSING", cureForMissing(schema))];
      return [problem("FIELD_WRONG_TYPE", cureForType(schema, value, issue.expected))];
    case "unrecognized_keys":
      return issue.keys.map((key) => {
        const unknown = placeOf(document, [...issue.path, key]);
        return problem(
          "FIELD_UNKNOWN",
          `There is no field "${key}" here. Check its spelling and its unit suffix, or remove it.`,
          unknown.path,
          shortly(unknown.value),
        );
      });
    case "too_small":
    case "too_big":
      return [problem("FIELD_OUT_OF_RANGE", rangeCure(issue))];
    case "invalid_value":
      return value === undefined
        ? [problem("FIELD_MISSING", cureForMissing(schema))]
        : [problem("FIELD_NOT_ALLOWED", oneOf(issue.values, value))];
    case "invalid_union":
      return [discriminatorProblem(issue, document)];
    default:
      return [problem("FIELD_NOT_ALLOWED", `The value ${issue.message}.`)];
  }
}

/** A fact where a job has none, seen from a problem with one of its fields. */
function misplacedFact(issue: z.core.$ZodIssue, { document, root }: Refused): Problem | undefined {
  const keys = issue.code === "unrecognized_keys" ? issue.path : issue.path.slice(0, -1);
  const { path, value } = placeOf(document, keys);
  const schema = schemaAt(root, document, keys);
  if (keys.length === 0 || !isFactLike(value) || (schema !== undefined && guideOf(schema) !== undefined))
    return undefined;
  return { code: "FIELD_WRONG_TYPE", path, received: shortly(value), message: cureForMisplacedFact(schema) };
}

/** The words of a union none of whose branches goes into the value; undefined when one does. */
function choicesOf(
  branches: readonly z.core.$ZodIssue[][],
): { readonly words: readonly unknown[]; readonly orObject: boolean } | undefined {
  const issues = branches.flat();
  const words = issues.flatMap((issue) => (issue.code === "invalid_value" ? issue.values : []));
  if (words.length === 0 || issues.some((issue) => issue.path.length > 0)) return undefined;
  return { words, orObject: issues.some((issue) => issue.code === "invalid_type") };
}

/** A union is refused by every branch; the branch that got furthest into the value says most. */
function likeliestBranch(branches: readonly z.core.$ZodIssue[][]): readonly z.core.$ZodIssue[] {
  const depth = (branch: readonly z.core.$ZodIssue[]) =>
    Math.max(...branch.map((issue) => issue.path.length), 0);
  return branches.reduce((best, branch) => (depth(branch) >= depth(best) ? branch : best), branches[0] ?? []);
}

function discriminatorProblem(issue: z.core.$ZodIssueInvalidUnion, document: unknown): Problem {
  const { path, value } = placeOf(document, issue.path);
  const words = "options" in issue && Array.isArray(issue.options) ? (issue.options as unknown[]) : [];
  const choices = path.endsWith(".state")
    ? 'Write { "state": "known", "value": …, "basis": … }, { "state": "not-recorded" }, or { "state": "not-applicable", "because": … }.'
    : oneOf(words, value);
  return value === undefined
    ? { code: "FIELD_MISSING", path, received: shortly(value), message: `This field is missing. ${choices}` }
    : { code: "FIELD_NOT_ALLOWED", path, received: shortly(value), message: choices };
}

function rangeCure(issue: z.core.$ZodIssueTooSmall | z.core.$ZodIssueTooBig): string {
  const bound = issue.code === "too_small" ? `at least ${issue.minimum}` : `at most ${issue.maximum}`;
  const what = issue.origin === "string" ? "characters" : issue.origin === "array" ? "entries" : "";
  return `It must be ${bound}${what && ` ${what}`}. Check the unit: the field's name ends with the one expected.`;
}
