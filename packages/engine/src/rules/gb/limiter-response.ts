import { given } from "../../job/index.ts";
import { decide } from "../../worked/index.ts";
import { compare, notApplicable, rule, shownOf, UNITED_KINGDOM } from "../rule.ts";
import { limiterSubject } from "./limiter-subject.ts";

const subject = limiterSubject("responseS");

/** The car is turned down before the operator's time is over. */
export const limiterResponse = rule({
  id: "limiter-response",
  title: "The load manager acts in time",
  stage: "prove",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    none: "No load manager is planned.",
    quick: "Back under the limit in {measured}; {typical} is typical of what operators expect.",
    slow: "Back under the limit in {measured}: slower than the typical {typical}, within the longest {longest}. Look for a slow poll or averaging.",
    tooSlow:
      "Back under the limit only after {measured}; {longest} is the longest allowed. Do not leave it in use.",
    unknown:
      "With the car charging, switch on a large load and time how long the supply stays over the limit; {longest} at the most.",
  },
  judge({ job, figures }) {
    if (job.limiter === null) return [notApplicable(subject, "none")];
    const measured = given(job.limiter.responseS, "tr");
    const [typical, longest] = [figures("limiterResponseTypicalS"), figures("limiterResponseLongestS")];
    const isQuick = decide({ left: measured, relation: "<=", right: typical }).state === "holds";
    return [
      compare({
        subject,
        check: { left: measured, relation: "<=", right: longest },
        holds: isQuick ? "quick" : { message: "slow", action: "caution" },
        broken: "tooSlow",
        unknown: "unknown",
        data: {
          measured: shownOf(measured, 1, "up"),
          typical: shownOf(typical, 0),
          longest: shownOf(longest, 0),
        },
        turnsOn: job.limiter.responseS,
      }),
    ];
  },
});
