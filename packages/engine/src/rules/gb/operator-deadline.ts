import { missing } from "../../job/index.ts";
import { addDays } from "../../quantities/index.ts";
import { isKnown } from "../../worked/index.ts";
import { cannotTell, factsOf, notApplicable, rule, type Subject, UNITED_KINGDOM } from "../rule.ts";
import { operatorRouteOf } from "./operator-route.ts";

const subject: Subject = { id: "supply", label: "the supply", path: "supply.operator.notifiedOn" };

/** The operator hears of the charge point in time. */
export const operatorDeadline = rule({
  id: "operator-deadline",
  title: "The network operator is notified in time",
  stage: "hand-over",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    notYet: "Not live yet. The notice is due {days} days after the charge point is made live.",
    dateUnknown:
      "The certificate is signed, so the charge point is in service: record the day it was made live. The notice is due {days} days after.",
    inTime: "Notified on {notified}; due by {due}.",
    late: "Notified on {notified}, after the {due} it was due. Tell the operator and keep the answer.",
    overdue: "The notice was due by {due} and is not recorded. Send it today.",
    due: "Send the notice by {due} and record the day.",
    routeOpen:
      "Whether a notice afterwards is enough is not settled: see what the network operator must be told.",
  },
  judge(study) {
    const { job, figures, inputs } = study;
    const { energisedOn } = job.work;
    const { notifiedOn } = job.supply.operator;
    const days = figures("notifyDays");
    if (energisedOn.state !== "known" || !isKnown(days)) {
      const data = { days: isKnown(days) ? String(days.value) : "–" };
      const { signedOn } = job.work;
      return signedOn.state === "known"
        ? [cannotTell(subject, "dateUnknown", [missing(energisedOn)], { data, facts: factsOf(signedOn) })]
        : [{ ...notApplicable(subject, "notYet"), data }];
    }
    const due = addDays(energisedOn.value, days.value);
    const facts = factsOf(energisedOn, notifiedOn);
    if (notifiedOn.state === "known" && notifiedOn.value > due) {
      return [
        { subject, verdict: "fail", message: "late", data: { notified: notifiedOn.value, due }, facts },
      ];
    }
    if (notifiedOn.state !== "known" && inputs.onIso > due)
      return [{ subject, verdict: "fail", message: "overdue", data: { due }, facts }];
    const route = operatorRouteOf(study);
    if (route.verdict !== "pass") {
      const lacks = route.missing ?? [missing(job.supply.operator.answer)];
      return [cannotTell(subject, "routeOpen", lacks, { facts })];
    }
    return notifiedOn.state === "known"
      ? [{ subject, verdict: "pass", message: "inTime", data: { notified: notifiedOn.value, due }, facts }]
      : [cannotTell(subject, "due", [missing(notifiedOn)], { data: { due }, facts })];
  },
});
