import { bondingSizeElsewhere, bondingSizeOnTncs } from "../../earthing/index.ts";
import { given, missing } from "../../job/index.ts";
import {
  cannotTell,
  compare,
  factsOf,
  notApplicable,
  rule,
  type Subject,
  shownOf,
  UNITED_KINGDOM,
} from "../rule.ts";

const site: Subject = { id: "earthing", label: "the earthing", path: "earthing.bonding" };

/** Metal services are bonded, with conductors large enough for the arrangement. */
export const mainBonding = rule({
  id: "main-bonding",
  title: "Main bonding is large enough",
  stage: "survey",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    noneListed:
      "List the metal services entering the building and their bonding; write not applicable for a plastic one.",
    arrangementUnknown: "Find out the earthing arrangement first.",
    plastic: "{service}: {because}.",
    enough: "{service}: {size}; {least} is asked for on {arrangement}.",
    tooSmall:
      "{service}: {size} is less than the {least} asked for on {arrangement}. Replace the bonding conductor.",
    unknown: "{service}: record the bonding conductor, and what its least size depends on.",
  },
  judge({ job, knowledge, figures }) {
    const { arrangement, bonding, supplyNeutralMm2, earthingConductorMm2 } = job.earthing;
    if (bonding.length === 0) {
      return [
        cannotTell(site, "noneListed", [
          { path: site.path, label: "main bonding of each metal service", what: "fact" },
        ]),
      ];
    }
    if (arrangement.state !== "known")
      return [cannotTell(site, "arrangementUnknown", [missing(arrangement)])];
    const facts = factsOf(arrangement);
    const least =
      arrangement.value === "TN-C-S"
        ? bondingSizeOnTncs(supplyNeutralMm2, knowledge.earthing)
        : bondingSizeElsewhere(earthingConductorMm2, figures);
    return bonding.map((bond) => {
      const service = bond.service.replaceAll("-", " ");
      const subject: Subject = { id: bond.service, label: service, path: bond.mm2.path };
      if (bond.mm2.state === "not-applicable") {
        return { ...notApplicable(subject, "plastic", facts), data: { service, because: bond.mm2.because } };
      }
      const size = given(bond.mm2, "Sb");
      return compare({
        subject,
        check: { left: size, relation: ">=", right: least },
        holds: "enough",
        broken: "tooSmall",
        unknown: "unknown",
        data: {
          service,
          size: shownOf(size, 1, "down"),
          least: shownOf(least, 1, "up"),
          arrangement: arrangement.value,
        },
        facts,
        turnsOn: bond.mm2,
      });
    });
  },
});
