import { given } from "../../job/index.ts";
import { isKnown } from "../../worked/index.ts";
import { compare, notApplicable, rule, shownOf, UNITED_KINGDOM } from "../rule.ts";
import { limiterSubject } from "./limiter-subject.ts";

const subject = limiterSubject("limitA");

/** The limit as set leaves the margin under the main fuse and under what was agreed. */
export const limitWithinSupply = rule({
  id: "limit-within-supply",
  title: "The limit is set no higher than the supply allows",
  stage: "fit",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    none: "No load manager is planned.",
    within: "Limit set to {set}; the supply of {supply} less a margin of {margin} allows {allowed}.",
    above:
      "Limit set to {set}, but the supply of {supply} less a margin of {margin} allows {allowed}. Lower the setting.",
    supplyUnknown: "Record the rating of the main fuse; the highest limit follows from it.",
    unknown: "Set the limit to {allowed} or less, read it back and record it.",
  },
  judge({ job, supplyLimit, margin, highestLimit }) {
    if (job.limiter === null) return [notApplicable(subject, "none")];
    const set = given(job.limiter.limitA, "Iset");
    return [
      compare({
        subject,
        check: { left: set, relation: "<=", right: highestLimit },
        holds: "within",
        broken: "above",
        unknown: isKnown(highestLimit) ? "unknown" : "supplyUnknown",
        data: {
          set: shownOf(set, 1, "up"),
          supply: shownOf(supplyLimit, 1, "down"),
          margin: shownOf(margin, 1, "up"),
          allowed: shownOf(highestLimit, 1, "down"),
        },
        turnsOn: job.limiter.limitA,
      }),
    ];
  },
});
