import type { Job, Located } from "../job/index.ts";
import type { Line } from "../quantities/index.ts";
import type { EndNode, SupplyTree } from "./tree.ts";

export type PlacedTransformer = Located<NonNullable<Job["metering"]>["currentTransformers"][number]>;

/** What a current transformer sees of the current the main fuse carries. */
export interface TransformerView {
  readonly transformer: PlacedTransformer;
  /** Line of the supply it stands for; null when it sits on a neutral. */
  readonly line: Line | null;
  readonly sees: readonly EndNode[];
  /** Carried by the main fuse on this line, but not through this transformer. */
  readonly misses: readonly EndNode[];
  /** True when it sees all that the main fuse carries on its line: misses nothing, on a line conductor. */
  readonly seesAll: boolean;
}

/**
 * What a current transformer on one conductor sees and misses.
 *
 * On a neutral it sees the phasor sum of the lines it returns, which on a single-phase cable is the
 * line current turned round and on three phases is no line's current.
 */
export function transformerView(tree: SupplyTree, transformer: PlacedTransformer): TransformerView {
  const cable = tree.cable(transformer.cable);
  const line = transformer.conductor === "N" ? null : transformer.conductor;
  const soleLine = cable.lines.length === 1 ? (cable.lines[0] ?? null) : null;
  const watched = line ?? soleLine;
  if (watched === null) {
    return { transformer, line, sees: tree.endsBelow(cable.to), misses: [], seesAll: false };
  }
  const sees = tree.endsCarried(cable, watched);
  const seen = new Set(sees.map((end) => end.id));
  const misses = tree.endsCarried(tree.serviceCable, watched).filter((end) => !seen.has(end.id));
  return { transformer, line, sees, misses, seesAll: line !== null && misses.length === 0 };
}
