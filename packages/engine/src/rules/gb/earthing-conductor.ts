import { protectiveSizeByTable } from "../../earthing/index.ts";
import { given } from "../../job/index.ts";
import { largest, type Quantity } from "../../worked/index.ts";
import { cannotTell, compare, rule, type Subject, shownOf, UNITED_KINGDOM } from "../rule.ts";
import { undescribed } from "../subjects.ts";

const subject: Subject = {
  id: "earthing",
  label: "the earthing conductor",
  path: "earthing.earthingConductorMm2",
};

/** The conductor to the main earthing terminal suits the tails, and the operator's least where it states one. */
export const earthingConductor = rule({
  id: "earthing-conductor",
  title: "The earthing conductor is large enough",
  stage: "survey",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    enough: "{size}; {least} is asked for.",
    tooSmall: "{size} is less than the {least} asked for by the tails or by the operator. Replace it.",
    unknown: "Record the earthing conductor and the tails.",
    noTails: "Describe the tails after the cut-out.",
  },
  judge({ job, tree }) {
    const tails = tree.cablesBelow(tree.cutOut.id)[0];
    if (tails === undefined || typeof tails.run === "string") {
      const missing = tails ? undescribed(tails).missing : [];
      return [cannotTell(subject, "noTails", missing)];
    }
    const size = given(job.earthing.earthingConductorMm2, "Se");
    const byTable = protectiveSizeByTable(tails.run.lineMm2);
    const asked = given(job.supply.operator.earthingConductorMinMm2, "So");
    const least: Quantity =
      asked.kind === "unknown"
        ? byTable
        : largest(
            {
              symbol: "Se_min",
              label: "smallest earthing conductor",
              unit: "mm²",
              clause: "earthing-conductor",
            },
            [byTable, asked],
          );
    return [
      compare({
        subject,
        check: { left: size, relation: ">=", right: least },
        holds: "enough",
        broken: "tooSmall",
        unknown: "unknown",
        data: { size: shownOf(size, 1, "down"), least: shownOf(least, 1, "up") },
        turnsOn: job.earthing.earthingConductorMm2,
      }),
    ];
  },
});
