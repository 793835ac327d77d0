import * as z from "zod";
import { type Problem, parseJsonText, problemOfFormat, schemaProblems } from "../../job/index.ts";
import { REGISTER_MAP_FORMAT, type RegisterMap, registerMapSchema } from "./register-map.ts";

export type RegisterMapResult =
  | { readonly ok: true; readonly map: RegisterMap }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Reads a register map from its text: the map, or what stands in the way and how to mend it. Never throws. */
export function parseRegisterMap(text: string): RegisterMapResult {
  const json = parseJsonText(text);
  return json.ok ? parseRegisterMapValue(json.value) : { ok: false, problems: [json.problem] };
}

/** Reads a register map from a value that is already in memory. Never throws. */
export function parseRegisterMapValue(value: unknown): RegisterMapResult {
  const other = problemOfFormat(value, {
    format: REGISTER_MAP_FORMAT,
    code: "NOT_REGISTER_MAP",
    what: "a register map",
  });
  if (other !== null) return { ok: false, problems: [other] };
  const parsed = registerMapSchema.safeParse(value, { reportInput: false });
  return parsed.success
    ? { ok: true, map: parsed.data }
    : { ok: false, problems: schemaProblems(parsed.error.issues, value, registerMapSchema) };
}

/** The format of a register map as JSON Schema (draft 2020-12). */
export const registerMapJsonSchema = (): object => z.toJSONSchema(registerMapSchema, { io: "input" });
