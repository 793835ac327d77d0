/**
 * Bringing an older job document up to the present format, one step at a time.
 *
 * A step is a pure function in a file of its own, `to-format-N.ts`, with a saved document of the older
 * format as its fixture. Old fixtures are never edited; every one of them must still open.
 *
 * @module
 */

export type RawDocument = Readonly<Record<string, unknown>>;

/** One change of format: from `to - 1` to `to`. */
export interface FormatChange {
  readonly to: number;
  readonly change: (document: RawDocument) => RawDocument;
}

/** Every change so far, oldest first. Format 1 is the first, so there is none yet. */
export const FORMAT_CHANGES: readonly FormatChange[] = [];

/** Applies the changes a document still needs; its `formatVersion` is set by the mechanism, not by the step. */
export function changeFormat(
  document: RawDocument,
  from: number,
  changes: readonly FormatChange[],
): RawDocument {
  return changes
    .filter((step) => step.to > from)
    .reduce<RawDocument>((older, step) => ({ ...step.change(older), formatVersion: step.to }), document);
}
