import * as z from "zod";
import { type FactGuide, guideOf } from "./fact.ts";
import { jobSchema } from "./schema/job.ts";

/** What a person is told about the fact at a path such as `nodes[car].ratedA`; undefined for other places. */
export function factGuideAt(path: string): FactGuide | undefined {
  const keys = path.replace(/\[[^\]]*\]/g, ".[]").split(".");
  return search(jobSchema, keys);
}

function search(schema: z.ZodType, keys: readonly string[]): FactGuide | undefined {
  const [key, ...rest] = keys;
  if (key === undefined) return guideOf(schema);
  if (guideOf(schema) !== undefined) return undefined;
  if (schema instanceof z.ZodNullable || schema instanceof z.ZodDefault)
    return search(schema.unwrap() as z.ZodType, keys);
  if (schema instanceof z.ZodDiscriminatedUnion || schema instanceof z.ZodUnion) {
    for (const option of schema.options as readonly z.ZodType[]) {
      const found = search(option, keys);
      if (found !== undefined) return found;
    }
    return undefined;
  }
  if (schema instanceof z.ZodArray)
    return key === "[]" ? search(schema.element as z.ZodType, rest) : undefined;
  if (schema instanceof z.ZodObject) {
    const inner = (schema.shape as Record<string, z.ZodType>)[key];
    return inner === undefined ? undefined : search(inner, rest);
  }
  return undefined;
}
