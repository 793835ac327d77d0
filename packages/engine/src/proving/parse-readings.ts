import { type Problem, parseJsonText, schemaProblems } from "../job/index.ts";
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
  const format = typeof value === "object" && value !== null && "format" in value ? value.format : undefined;
  if (format !== READINGS_FORMAT) {
    return {
      ok: false,
      problems: [
        {
          code: "NOT_READINGS",
          path: "format",
          received: typeof format === "string" ? `"${format.slice(0, 40)}"` : "nothing",
          message: `This is not a file of readings: it begins with "format": "${READINGS_FORMAT}". Check that the right file was chosen.`,
        },
      ],
    };
  }
  const parsed = readingsSchema.safeParse(value, { reportInput: false });
  return parsed.success
    ? { ok: true, readings: parsed.data }
    : { ok: false, problems: schemaProblems(parsed.error.issues, value, readingsSchema) };
}
