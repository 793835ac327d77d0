import { type Problem, parseJsonText, problemOfFormat, schemaProblems } from "../job/index.ts";
import { READINGS_FORMAT, type Readings, readingsSchema } from "./readings.ts";

export type ReadingsResult =
  | { readonly ok: true; readonly readings: Readings }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Reads a file of readings: the readings, or what stands in the way and how to mend it. Never throws. */
export function parseReadings(text: string): ReadingsResult {
  const json = parseJsonText(text);
  return json.ok ? parseReadingsValue(json.value) : { ok: false, problems: [json.problem] };
}

/** Reads readings from a value that is already in memory. Never throws. */
export function parseReadingsValue(value: unknown): ReadingsResult {
  const other = problemOfFormat(value, {
    format: READINGS_FORMAT,
    code: "NOT_READINGS",
    what: "a file of readings",
  });
  if (other !== null) return { ok: false, problems: [other] };
  const parsed = readingsSchema.safeParse(value, { reportInput: false });
  return parsed.success
    ? { ok: true, readings: parsed.data }
    : { ok: false, problems: schemaProblems(parsed.error.issues, value, readingsSchema) };
}
