import type { FactGuide } from "../job/index.ts";
import { factGuideAt } from "../job/index.ts";

/** Guides for places that are no fact of a schema: parts of a job that are missing altogether. */
const PARTS: Readonly<Record<string, string>> = {
  "demand.recordings":
    "Leave a logger on the tails for two weeks at one-minute means, clamped on insulated conductors only, and enter the recording.",
  nodes: "List the final circuits at the board with their ratings, or leave a logger on the tails.",
  metering: "Decide on which conductor each current transformer goes, before every split.",
  "earthing.bonding": "Look where water, gas, oil and structural steel enter the building.",
  "tests.deadProofs":
    "Prove the tester, test every pair dead at the place of work, prove the tester again, and write the times down.",
};

/** How to find out what is at a path of the job; undefined where nothing is known of the place. */
export function guideAt(path: string): Pick<FactGuide, "ask"> | undefined {
  const part = PARTS[path];
  if (part !== undefined) return { ask: part };
  if (path.endsWith(".file"))
    return { ask: "Put the file beside the job, and compare its name, columns and days with the entry." };
  if (path.endsWith(".doesNotInclude"))
    return { ask: "Ask when it was in use: list it here when it was not, or record again with it in use." };
  if (path.endsWith(".run")) return { ask: "Follow the cable: construction, size, length, how it lies." };
  if (path.endsWith(".electrode")) return { ask: "Find the electrode and describe it, or its rods." };
  return factGuideAt(path);
}
