import { blankMetering, blankTransformer } from "../job/blank.ts";
import { known } from "../job/index.ts";
import { LINES } from "../quantities/index.ts";
import type { OpenJob } from "../supply/index.ts";
import { opened, sketchJob } from "./sketch.ts";

/** An opened job with a sound metering chain of 150/5 transformers after the cut-out. */
export function jobWithChain(phases: 1 | 3): OpenJob {
  const job = sketchJob(phases, [
    ["cut-out", "board", "board"],
    ["board", "charge-point", "car", phases === 1 ? ["L1"] : LINES],
  ]);
  return opened({
    ...job,
    metering: {
      ...blankMetering(),
      currentTransformers: LINES.slice(0, phases).map((line) => ({
        ...blankTransformer({ id: `ct-${line}`, cable: "to-board", conductor: line, channel: line }),
        output: known("5-A"),
        ratedPrimaryA: known(150),
        primaryTurns: known(1),
      })),
      ratioSetting: known(30),
    },
  });
}
