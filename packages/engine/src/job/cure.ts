/**
 * What to write where something is missing or wrong, from the schema of the place.
 *
 * @module
 */
import * as z from "zod";
import { guideOf } from "./fact.ts";
import { meantBy } from "./trade-words.ts";

const UNKNOWN_FACT =
  'When it is not known yet, write { "state": "not-recorded" }; where there is nothing to know, { "state": "not-applicable", "because": "…" }.';

/** What to write at a place where nothing stands. */
export function cureForMissing(schema: z.ZodType | undefined): string {
  const lead = "This field is missing.";
  if (schema === undefined) return `${lead} Copy it from an example.`;
  if (guideOf(schema) !== undefined) return `${lead} ${UNKNOWN_FACT}`;
  if (schema instanceof z.ZodNullable)
    return `${lead} Write null when there is none, or describe it as in an example.`;
  if (schema instanceof z.ZodArray) return `${lead} Write [] when there is nothing to list.`;
  const words = wordsOf(schema);
  if (words.length > 0) return `${lead} ${oneOf(words, undefined, takesObject(schema))}`;
  return `${lead} Copy it from an example; it cannot be left open.`;
}

/** What to write at a place where a value of the wrong type stands. */
export function cureForType(schema: z.ZodType | undefined, received: unknown, expected: string): string {
  if (schema !== undefined && guideOf(schema) !== undefined) return cureForFact(received);
  const orNull = schema instanceof z.ZodNullable ? ", or null when there is none" : "";
  return `It must be ${typeName(expected)}${orNull}.`;
}

/** A fact that stands where there is none: a part that is there or not, or a word that is plain. */
export function cureForMisplacedFact(schema: z.ZodType | undefined): string {
  const lead = "This is a place for no fact: leave out state and basis.";
  if (schema instanceof z.ZodNullable)
    return `${lead} Write null when there is none; otherwise describe it, each of its own fields a fact.`;
  if (schema instanceof z.ZodArray) return `${lead} Write a list in [ ].`;
  return `${lead} Describe it as in an example, each of its own fields a fact.`;
}

/** The words a place takes, and the one that somebody may have meant. */
export function oneOf(words: readonly unknown[], received: unknown, orObject = false): string {
  const list = words.map(String);
  const meant = typeof received === "string" ? meantBy(received, list) : [];
  const hint = meant.length > 0 ? ` "${received}" is written ${meant.join(" or ")} here.` : "";
  const plain = isFactLike(received) ? " It is written plainly, without state and basis." : "";
  return `It must be one of: ${list.join(", ")}${orObject ? ", or an object in { }" : ""}.${hint}${plain}`;
}

export const isFactLike = (value: unknown): boolean =>
  typeof value === "object" && value !== null && "state" in value;

function cureForFact(received: unknown): string {
  const isValue = ["number", "string", "boolean"].includes(typeof received);
  const value = isValue ? JSON.stringify(received) : "…";
  return `Say how it is known: { "state": "known", "value": ${value}, "basis": "measured", "on": "2026-11-25" }. ${UNKNOWN_FACT}`;
}

/** Words of an enumeration, a literal, or a union that has some. */
function wordsOf(schema: z.ZodType): readonly unknown[] {
  if (schema instanceof z.ZodEnum) return schema.options;
  if (schema instanceof z.ZodLiteral) return [...schema.values];
  if (schema instanceof z.ZodUnion) return (schema.options as z.ZodType[]).flatMap(wordsOf);
  return [];
}

const takesObject = (schema: z.ZodType): boolean =>
  schema instanceof z.ZodUnion && schema.options.some((option) => option instanceof z.ZodObject);

const typeName = (expected: string): string =>
  ({
    object: "an object in { }",
    array: "a list in [ ]",
    string: "text in quotes",
    boolean: "true or false",
    int: "a whole number",
  })[expected] ?? `a ${expected}`;
