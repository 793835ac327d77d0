/**
 * Places in a job as people read them: `nodes[shower].ratedA` rather than a position in a list.
 *
 * @module
 */

/** One step down from `path`: a key, or an entry of a list by its id where it has one. */
export function placeBelow(path: string, key: PropertyKey, entry: unknown): string {
  if (typeof key !== "number") return path === "" ? String(key) : `${path}.${String(key)}`;
  return `${path}[${nameOf(entry) ?? key}]`;
}

/** The place that a list of keys leads to in a document. */
export function placeOf(document: unknown, keys: readonly PropertyKey[]): { path: string; value: unknown } {
  let path = "";
  let value: unknown = document;
  for (const key of keys) {
    value =
      typeof value === "object" && value !== null ? (value as Record<PropertyKey, unknown>)[key] : undefined;
    path = placeBelow(path, key, value);
  }
  return { path, value };
}

/** Keys by which entries of a list are told apart; references.ts sees to it that they are unique. */
export const NAMING_KEYS = ["id", "way", "failure"] as const;

function nameOf(entry: unknown): string | undefined {
  if (typeof entry !== "object" || entry === null) return undefined;
  for (const key of NAMING_KEYS) {
    const name = (entry as Record<string, unknown>)[key];
    if (typeof name === "string" && name !== "" && name.length <= 60) return name;
  }
  return undefined;
}
