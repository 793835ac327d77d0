import type { ProblemCode } from "../quantities/index.ts";

/** Why a document cannot be opened: where, what stood there, and what to do. */
export interface Problem {
  readonly code: ProblemCode;
  /** Place in the document, such as `nodes[shower].ratedA`, or line and column for text that is not JSON. */
  readonly path: string;
  /** What was found there, shortened. */
  readonly received: string;
  /** What is wrong and how to put it right. */
  readonly message: string;
}

/** A value as it is shown in a problem: short, whatever it is. */
export function shortly(value: unknown): string {
  if (value === undefined) return "nothing";
  if (typeof value === "string") return value.length > 40 ? `"${value.slice(0, 39)}…"` : `"${value}"`;
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === "object" && value !== null) return "an object";
  return String(value);
}
