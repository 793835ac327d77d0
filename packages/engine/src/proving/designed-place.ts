import type { LocatedJob } from "../job/index.ts";
import type { Line } from "../quantities/index.ts";
import { type EndNode, type SupplyTree, transformerView } from "../supply/index.ts";

/** How much of something a transformer sees where the design puts it. */
export type Sight = "all" | "part" | "none";

/** Where the design puts the transformer of one channel, and what it sees there of what the main fuse carries. */
export interface DesignedPlace {
  readonly channel: Line;
  /** Null where no transformer feeds the channel. */
  readonly transformer: string | null;
  /** On a neutral a transformer sees the current coming back, turned round. */
  readonly isOnNeutral: boolean;
  readonly seesBuilding: Sight;
  readonly seesChargePoint: Sight;
  readonly seesGeneration: Sight;
  /** Names of what the main fuse carries on its line and it does not see. */
  readonly misses: readonly string[];
}

/**
 * What each channel sees by the design, from the supply tree.
 *
 * Sign: none; directions are the arrow's business. Of several transformers on one channel the first counts.
 *
 * @param channels Of the chain, by the line each should watch
 */
export function designedPlaces(
  job: LocatedJob,
  tree: SupplyTree,
  channels: readonly Line[],
): readonly DesignedPlace[] {
  const transformers = job.metering?.currentTransformers ?? [];
  return channels.map((channel): DesignedPlace => {
    const transformer =
      channels.length === 1 ? transformers[0] : transformers.find((each) => each.channel === channel);
    if (transformer === undefined)
      return {
        channel,
        transformer: null,
        isOnNeutral: false,
        seesBuilding: "none",
        seesChargePoint: "none",
        seesGeneration: "none",
        misses: ["everything"],
      };
    const { sees, misses, line } = transformerView(tree, transformer);
    const sight = (isOf: (end: EndNode) => boolean): Sight => {
      if (!misses.some(isOf)) return "all";
      return sees.some(isOf) ? "part" : "none";
    };
    return {
      channel,
      transformer: transformer.id,
      isOnNeutral: line === null,
      seesBuilding: sight(({ kind }) => kind !== "charge-point" && !isSource(kind)),
      seesChargePoint: sight(({ kind }) => kind === "charge-point"),
      seesGeneration: sight(({ kind }) => isSource(kind)),
      misses: misses.map(({ label }) => label),
    };
  });
}

const isSource = (kind: EndNode["kind"]): boolean => kind === "generator" || kind === "storage";

/** Whether the transformer of a channel sees, by the design, everything the main fuse carries on its line. */
export const isDesignedWhole = ({ misses, isOnNeutral }: DesignedPlace): boolean =>
  misses.length === 0 && !isOnNeutral;
