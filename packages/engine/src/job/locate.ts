import * as z from "zod";
import { type Fact, type FactGuide, guideOf } from "./fact.ts";
import { placeBelow } from "./place.ts";
import { type Job, jobSchema } from "./schema/job.ts";
import { branchFor } from "./schema-at.ts";

/** A fact that knows its place in the job, what it is called and how to find it out. */
export type LocatedFact<T> = Fact<T> & { readonly path: string; readonly guide: FactGuide };

/** A part of the job in which every fact is located; everything else is as it stands in the document. */
export type Located<T> = [KnownIn<T>] extends [never] ? LocatedPart<T> : LocatedFact<KnownIn<T>["value"]>;

type KnownIn<T> = Extract<T, { readonly state: "known"; readonly value: unknown }>;
type LocatedPart<T> = T extends readonly (infer E)[]
  ? readonly Located<E>[]
  : T extends object
    ? { readonly [K in keyof T]: Located<T[K]> }
    : T;

export type LocatedJob = Located<Job>;

/** Gives every fact of a job its place and its guide, so that a number never loses where it came from. */
export const locate = (job: Job): LocatedJob => locateValue(job, jobSchema, "") as LocatedJob;

function locateValue(value: unknown, schema: z.ZodType, path: string): unknown {
  const guide = guideOf(schema);
  if (guide !== undefined) return { ...(value as Fact<unknown>), path, guide };
  if (typeof value !== "object" || value === null) return value;
  if (schema instanceof z.ZodArray) {
    const element = schema.element as z.ZodType;
    return (value as unknown[]).map((entry, index) =>
      locateValue(entry, element, placeBelow(path, index, entry)),
    );
  }
  if (schema instanceof z.ZodObject) {
    const shape = schema.shape as Record<string, z.ZodType>;
    return Object.fromEntries(
      Object.entries(value).map(([key, entry]) => {
        const inner = shape[key];
        return [key, inner === undefined ? entry : locateValue(entry, inner, placeBelow(path, key, entry))];
      }),
    );
  }
  if (schema instanceof z.ZodNullable || schema instanceof z.ZodDefault)
    return locateValue(value, schema.unwrap() as z.ZodType, path);
  if (schema instanceof z.ZodDiscriminatedUnion || schema instanceof z.ZodUnion) {
    return locateValue(value, branchFor(value, schema), path);
  }
  return value;
}

/** Every located fact in a part of a job, in document order. */
export function factsIn(part: unknown): readonly LocatedFact<unknown>[] {
  if (typeof part !== "object" || part === null) return [];
  if ("guide" in part && "path" in part) return [part as LocatedFact<unknown>];
  return Object.values(part).flatMap(factsIn);
}
