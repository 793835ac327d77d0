import { given, missing } from "../../job/index.ts";
import { decide } from "../../worked/index.ts";
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

const subject: Subject = { id: "supply", label: "the supply", path: "supply.measuredZeOhm" };

/** The means of earthing is sound: the external loop is no higher than declared or usual. */
export const externalLoopImpedance = rule({
  id: "external-loop-impedance",
  title: "The external earth fault loop impedance is as it should be",
  stage: "survey",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    tt: "The supply gives no earth; the electrode is judged instead.",
    arrangementUnknown: "Find out the earthing arrangement first.",
    sound: "Ze {measured}; not above {limit}, {whose} for {arrangement}.",
    aboveDeclared:
      "Ze {measured} is above the {limit} the operator declared. Ask the operator before relying on this earth.",
    aboveUsual:
      "Ze {measured} is above the {limit} usual for {arrangement}. Ask the operator what it declares here.",
    suspect:
      "Ze {measured} is far too high for {arrangement}: the means of earthing is suspect. Stop, treat metalwork as unearthed, and call the operator.",
    unknown: "Measure Ze at the origin; a declared or usual value is no proof that the earth is there.",
  },
  judge({ job, figures }) {
    const { arrangement } = job.earthing;
    if (arrangement.state !== "known")
      return [cannotTell(subject, "arrangementUnknown", [missing(arrangement)])];
    const facts = factsOf(arrangement);
    if (arrangement.value === "TT") return [notApplicable(subject, "tt", facts)];
    const measured = given(job.supply.measuredZeOhm, "Ze");
    const declared = given(job.supply.declaredZeOhm, "Zd");
    const isDeclared = declared.kind !== "unknown";
    const limit = isDeclared ? declared : figures(arrangement.value === "TN-S" ? "zeTnsOhm" : "zeTncsOhm");
    const data = {
      measured: shownOf(measured, 2, "up"),
      limit: shownOf(limit, 2),
      whose: isDeclared ? "declared by the operator" : "usual",
      arrangement: arrangement.value,
    };
    const suspect = { left: measured, relation: "<=", right: figures("zeSuspectOhm") } as const;
    if (decide(suspect).state === "broken") {
      return [{ subject, verdict: "fail", message: "suspect", action: "stop", check: suspect, data, facts }];
    }
    return [
      compare({
        subject,
        check: { left: measured, relation: "<=", right: limit },
        holds: "sound",
        broken: isDeclared
          ? { message: "aboveDeclared", action: "contact-operator" }
          : {
              message: "aboveUsual",
              verdict: "cannot-tell",
              action: "contact-operator",
              missing: [missing(job.supply.declaredZeOhm)],
            },
        unknown: "unknown",
        data,
        facts,
        turnsOn: job.supply.measuredZeOhm,
      }),
    ];
  },
});
