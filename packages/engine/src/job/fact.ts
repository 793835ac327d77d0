/**
 * Facts: what is known of the job, how, and since when.
 *
 * Absence is a state of its own, never 0, "" or NaN. A field of the job that could be unknown on site
 * is a fact; a field that shapes the document (an id, a kind, which lines a cable has) is plain.
 *
 * @module
 */
import * as z from "zod";
import { isIsoDate } from "../quantities/index.ts";
import { BASES, type Basis } from "../worked/index.ts";

// No code is made at run time: pages that forbid it read jobs too, and one job is read sooner without.
z.config({ jitless: true });

export type Fact<T> =
  | {
      readonly state: "known";
      readonly value: T;
      readonly basis: Basis;
      readonly on?: string | undefined;
      readonly note?: string | undefined;
    }
  | { readonly state: "not-recorded"; readonly note?: string | undefined }
  | { readonly state: "not-applicable"; readonly because: string };

/** What a person is told about a fact: its name, its unit, and how to find it out. */
export interface FactGuide {
  /** Name in the trade's words, beginning in lower case: "external earth fault loop impedance". */
  readonly title: string;
  /** Unit as printed; absent when the value is not a number. */
  readonly unit?: string;
  /** How to learn it on site, one sentence, with the precaution where it can hurt. */
  readonly ask: string;
}

const guides = new WeakMap<z.ZodType, FactGuide>();

/** The guide of a fact's schema; undefined for any other schema. */
export const guideOf = (schema: z.ZodType): FactGuide | undefined => guides.get(schema);

export const isoDate = z
  .string()
  .refine(isIsoDate, { error: "must be a date that exists, written year-month-day, such as 2026-11-25" })
  .meta({ format: "date" });

/** Control characters and marks that turn the direction of text: they could forge what a screen shows. */
const UNSEEN = "\\p{Cc}\\u202A-\\u202E\\u2066-\\u2069";
const seen = { error: "must be plain text without control characters" };

/** One line of text. */
export const words = (max: number) =>
  z
    .string()
    .min(1)
    .max(max)
    .regex(new RegExp(`^[^${UNSEEN}]*$`, "u"), seen);

/** Text of any number of lines; may be empty. */
export const lines = (max: number) =>
  z
    .string()
    .max(max)
    .regex(new RegExp(`^([^${UNSEEN}]|[\\n\\r\\t])*$`, "u"), seen);

const note = lines(2000).meta({ id: "note" }).optional();
// Shared by every fact: a schema is built once however many facts there are.
const basis = z.enum(BASES).meta({ id: "basis", description: "How the value is known." });
const on = isoDate.optional();
const isKnown = z.literal("known");
const notRecorded = z
  .strictObject({ state: z.literal("not-recorded"), note })
  .meta({ id: "not-recorded", description: "Nobody has found out yet." });
const isNotApplicable = z
  .strictObject({ state: z.literal("not-applicable"), because: words(2000) })
  .meta({ id: "not-applicable", description: "There is nothing to find out, and why." });

/** Schema of a fact whose value has the given schema. */
export function fact<T extends z.ZodType>(value: T, guide: FactGuide) {
  const schema = z
    .discriminatedUnion("state", [
      z.strictObject({ state: isKnown, value, basis, on, note }),
      notRecorded,
      isNotApplicable,
    ])
    .meta({ title: guide.unit ? `${guide.title} [${guide.unit}]` : guide.title, description: guide.ask });
  guides.set(schema, guide);
  return schema;
}

/** The same for a field that came later: a job written before it opens, and the fact reads as not recorded. */
export function laterFact<T extends z.ZodType>(value: T, guide: FactGuide) {
  const schema = fact(value, guide).default(NOT_RECORDED as never);
  guides.set(schema, guide);
  return schema;
}

export const number = (min: number, max: number) => z.number().min(min).max(max);
export const wholeNumber = (min: number, max: number) => z.number().int().min(min).max(max);
export const yesNo = z.boolean();
export const text = words(500);

/** Shorthands for facts written by code and tests. */
export const known = <T>(value: T, basis: Basis = "measured", on?: string, note?: string): Fact<T> => ({
  state: "known",
  value,
  basis,
  ...(on === undefined ? {} : { on }),
  ...(note === undefined ? {} : { note }),
});
export const NOT_RECORDED = { state: "not-recorded" } as const;
export const notApplicable = (because: string) => ({ state: "not-applicable", because }) as const;
