import { missing } from "../../job/index.ts";
import { cannotTell, factsOf, notApplicable, rule, type Subject, UNITED_KINGDOM } from "../rule.ts";

const subject: Subject = {
  id: "cut-out",
  label: "the cut-out",
  path: "supply.operator.allowsFuseWithdrawal",
};

/** Nobody breaks the operator's seal or draws its fuse without permission on file. */
export const mainFuseWithdrawal = rule({
  id: "main-fuse-withdrawal",
  title: "The main fuse is drawn only with permission",
  stage: "fit",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    notNeeded: "No step needs the main fuse drawn.",
    unknown: "See whether any step needs the main fuse drawn: can the tails be made dead at an isolator?",
    allowed: "Permission to draw the main fuse is on file.",
    refused:
      "A step needs the main fuse drawn and permission was refused. Ask the network operator or meter operator to do it, or to fit an isolator.",
    ask: "A step needs the main fuse drawn. Do not break the seal: get permission from the network operator or the meter operator, and record it.",
  },
  judge({ job }) {
    const { needsFuseWithdrawal } = job.work;
    const { allowsFuseWithdrawal } = job.supply.operator;
    const facts = factsOf(needsFuseWithdrawal, allowsFuseWithdrawal);
    if (needsFuseWithdrawal.state !== "known")
      return [cannotTell(subject, "unknown", [missing(needsFuseWithdrawal)])];
    if (!needsFuseWithdrawal.value) return [notApplicable(subject, "notNeeded", facts)];
    if (allowsFuseWithdrawal.state !== "known") {
      return [
        cannotTell(subject, "ask", [missing(allowsFuseWithdrawal)], { facts, action: "contact-operator" }),
      ];
    }
    return allowsFuseWithdrawal.value
      ? [{ subject, verdict: "pass", message: "allowed", data: {}, facts }]
      : [{ subject, verdict: "fail", message: "refused", data: {}, facts, action: "stop" }];
  },
});
