import { given } from "../../job/index.ts";
import { decide } from "../../worked/index.ts";
import { compare, rule, type Subject, shownOf, UNITED_KINGDOM } from "../rule.ts";

/** The voltage at the origin is within the declared band. */
export const supplyVoltage = rule({
  id: "supply-voltage",
  title: "The supply voltage is within its band",
  stage: "survey",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    within: "{measured} on {line}; declared {least} to {most}.",
    low: "{measured} on {line} is below {least}. Tell the network operator; a low voltage that moves with load may be a failing neutral.",
    high: "{measured} on {line} is above {most}. Tell the network operator.",
    unknown: "Measure {line} to neutral at the origin.",
  },
  judge: ({ job, lines, figures }) =>
    lines.map((line) => {
      const fact = job.supply.measuredVoltageV[line];
      const measured = given(fact, "U");
      const [least, most] = [figures("supplyVoltageMin"), figures("supplyVoltageMax")];
      const subject: Subject = { id: `line-${line}`, label: line, path: fact.path };
      const data = { measured: shownOf(measured, 1), least: shownOf(least, 1), most: shownOf(most, 1), line };
      const isLow = decide({ left: measured, relation: ">=", right: least }).state === "broken";
      return compare({
        subject,
        check: isLow
          ? { left: measured, relation: ">=", right: least }
          : { left: measured, relation: "<=", right: most },
        holds: "within",
        broken: { message: isLow ? "low" : "high", action: "contact-operator" },
        unknown: "unknown",
        data,
        turnsOn: fact,
      });
    }),
});
