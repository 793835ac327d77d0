import type { Transformer } from "../metering/index.ts";
import type { JobOnTree, SupplyNode } from "../supply/index.ts";
import { met } from "./need.ts";
import type { WorkStep } from "./work-step.ts";

/** What makes the place of work dead, and what stays live. */
export interface Isolation {
  readonly step: WorkStep;
  /** What makes the place of work dead; null where nothing does. */
  readonly name: string | null;
  readonly covers: (transformer: Transformer) => boolean;
  /** Transformers upstream of it. */
  readonly uncovered: readonly Transformer[];
}

/** Nearest switch above everything that is worked on. */
export function isolationOf({ job, tree }: JobOnTree): Isolation {
  const point = tree.ofKind("charge-point")[0];
  const path = point === undefined ? [] : tree.nodesTo(point.id);
  const isSwitch = ({ kind }: SupplyNode): boolean => kind === "isolator" || kind === "board";
  const at = path.find(isSwitch);
  const name = at?.label ?? "the main switch";
  const covers = ({ cable }: Transformer): boolean => {
    if (at === undefined) return false;
    return tree.nodesTo(tree.cable(cable).to).some(({ id }) => id === at.id && id !== tree.cable(cable).to);
  };
  const uncovered = (job.metering?.currentTransformers ?? []).filter((transformer) => !covers(transformer));
  return {
    name: at?.label ?? null,
    covers,
    uncovered,
    step: {
      id: "isolate",
      title: "Isolate",
      does: [
        "Tell everybody in the building; stop generation and storage first, they feed back.",
        `Switch off at ${name}, lock it off and keep the key.${at?.kind === "board" ? " Its incoming terminals stay live: shroud them." : ""}`,
        ...(uncovered.length === 0
          ? []
          : [
              `${uncovered.map(({ id }) => id).join(", ")}: upstream of that switch the conductor stays live. Draw the main fuse only with permission; otherwise close a split core on the insulated tail and touch no terminal.`,
            ]),
      ],
      needs: [
        at === undefined
          ? { words: "There is a switch that makes the place of work dead.", state: "broken", path: "nodes" }
          : met(`${name} makes the place of work dead.`),
      ],
      hold: "Locked off, key in the pocket, notice on the switch, until the step that makes it live.",
      leaves: "A part that ought to be dead, and is not yet proved so.",
    },
  };
}
