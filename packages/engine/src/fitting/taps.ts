import type { JobOnTree } from "../supply/index.ts";
import type { Isolation } from "./isolation.ts";
import { isRecorded, isTrue, met, onSite } from "./need.ts";
import type { Need, WorkStep } from "./work-step.ts";

/** Taps can be dead below the switch; upstream of it only while the main fuse is drawn by its owner. */
export function taps({ job }: JobOnTree, { name, uncovered }: Isolation): WorkStep {
  const { needsFuseWithdrawal } = job.work;
  const isAlwaysDead = name !== null && uncovered.length === 0;
  const mayDraw = isTrue(
    "Permission to draw the main fuse is on file.",
    job.supply.operator.allowsFuseWithdrawal,
  );
  const place = `${uncovered.map(({ id }) => id).join(", ") || "the transformers"}`;
  const upstream = ((): readonly Need[] => {
    if (isAlwaysDead) return [];
    if (name === null || (needsFuseWithdrawal.state === "known" && needsFuseWithdrawal.value))
      return [mayDraw];
    return [
      needsFuseWithdrawal.state === "known"
        ? met(`No step needs the main fuse drawn: the taps are taken from ${name} or below it.`)
        : isRecorded("It is known whether the main fuse must be drawn.", needsFuseWithdrawal),
    ];
  })();
  return {
    id: "taps",
    title: "Voltage taps of the meter",
    does: [
      ...(isAlwaysDead
        ? []
        : [
            name === null
              ? "No switch makes any part of the way dead: a tap is made only while the main fuse is drawn."
              : `Take them from ${name} or below it, where they can be dead. Beside ${place} the conductor stays live with ${name} off: a tap there is made only while the main fuse is drawn.`,
          ]),
      `Connect ${job.supply.phases === 3 ? "L1, L2, L3" : "L1"} and neutral to the meter through its own fuses, each line to the channel of the same name.`,
      "Neutral first; line and neutral are not exchanged.",
    ],
    needs: [onSite("The place where the taps are made is proved dead."), ...upstream],
    hold: isAlwaysDead
      ? "Dead and locked off."
      : `${name === null ? "" : `Below ${name}: dead and locked off. Upstream of it: `}live until the main fuse is drawn by its owner, the network operator, or by somebody with its permission, and the place is proved dead. Until then touch no terminal there.`,
    leaves: "A meter that will measure power, not only current.",
  };
}
