import { given, missing } from "../../job/index.ts";
import { decide, isKnown, type Missing } from "../../worked/index.ts";
import {
  type Action,
  cannotTell,
  type Datum,
  factsOf,
  type Judgement,
  rule,
  type Subject,
  shownOf,
  UNITED_KINGDOM,
} from "../rule.ts";
import type { Study } from "../study.ts";
import { managedOrAll, worstLine } from "../worst-line.ts";

type Message =
  | "unsafe"
  | "refused"
  | "answered"
  | "lookAtService"
  | "fuseUnknown"
  | "serviceUnknown"
  | "looped"
  | "unmetered"
  | "demandUnknown"
  | "otherPremises"
  | "aboveFuse"
  | "managedAboveFuse"
  | "inService"
  | "notify"
  | "notifyManaged"
  | "straddles"
  | "apply";

const subject: Subject = { id: "supply", label: "the supply", path: "supply.operator.answer" };

/** Whether the network operator is told afterwards, asked first, or called at once. */
export const operatorRoute = rule<Message>({
  id: "operator-route",
  title: "What the network operator must be told, and when",
  stage: "decide",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    unsafe:
      "Signs of unfit service equipment: {signs}. Stop, keep people away from it, and call the network operator before any other step.",
    refused:
      "The operator answered that the work may not proceed. Agree another demand or a larger supply first.",
    answered: "The operator has answered that the work may proceed.",
    lookAtService:
      "Look over the cut-out, cable, meter and tails without opening anything, and record what was seen.",
    fuseUnknown:
      "The main fuse is not known. Ask the network operator before going on: nothing can be judged without it.",
    serviceUnknown:
      "Find out whether the service is looped or unmetered; either must be settled with the operator first.",
    looped: "The service is looped: one cable serves two premises. Ask the operator before connecting.",
    unmetered: "The supply is unmetered. Ask the operator before connecting.",
    demandUnknown: "The maximum demand cannot be worked out yet. Record what is missing.",
    otherPremises:
      "Maximum demand {unmanaged} on {unmanagedLine} unmanaged, {managed} on {line} managed. The notify-afterwards route is published for dwellings; for these premises apply and wait for the answer.",
    aboveFuse:
      "Maximum demand {unmanaged} on {unmanagedLine} is above the main fuse of {fuse}. Apply to the operator and wait before connecting, or limit the charge point.",
    managedAboveFuse:
      "Even managed, {managed} on {line} is above the main fuse of {fuse}: the building alone may be too much for it. Apply to the operator and wait.",
    inService:
      "In service since {day} without the operator's permission, which is needed first. Take the charge point out of use until the operator has given it.",
    notify:
      "Maximum demand {unmanaged} on {unmanagedLine} is not above {threshold}. Connect, then notify the operator within {days}.",
    notifyManaged:
      "Managed, the demand on {line} is {managed}, not above {threshold}, and the operator counts it so. Connect, then notify within {days}; state both demands, {unmanaged} on {unmanagedLine} and {managed}.",
    straddles:
      "Unmanaged {unmanaged} on {unmanagedLine}, managed {managed} on {line}: they straddle {threshold}. Apply, state both, and wait, unless the operator agrees in writing to count the managed demand.",
    apply:
      "Maximum demand {managed} on {line} is above {threshold}. Apply to the operator and wait before connecting.",
  },
  judge: (study) => {
    const route = operatorRouteOf(study);
    return [route, ...inServiceUnasked(study, route)];
  },
});

/** A charge point that is live although the operator has to answer first and has not, or has refused. */
function inServiceUnasked(study: Study, route: Judgement<Message>): readonly Judgement<Message>[] {
  const { energisedOn } = study.job.work;
  const { supply } = study.job;
  const { answer } = supply.operator;
  if (energisedOn.state !== "known") return [];
  // What is not known of the service may hide that the demand alone asks for an answer.
  const isSpecial = [supply.isLooped, supply.isUnmetered].some(
    (fact) => fact.state === "known" && fact.value,
  );
  const isAsked =
    answer.state === "known"
      ? answer.value === "may-not-proceed"
      : isSpecial || [route, demandRoute(study)].some(lacksAnswer(answer.path));
  if (!isAsked) return [];
  return [
    {
      subject: { ...subject, id: "in-service" },
      verdict: "fail",
      message: "inService",
      data: { day: energisedOn.value },
      facts: factsOf(energisedOn, answer),
    },
  ];
}

const lacksAnswer =
  (path: string) =>
  ({ missing: lacks }: Judgement<Message>): boolean =>
    lacks?.some((item) => item.path === path) === true;

const factsWeighed = ({ job: { supply, site } }: Study) =>
  factsOf(
    supply.serviceConcerns,
    supply.isLooped,
    supply.isUnmetered,
    site.premises,
    supply.operator.answer,
    supply.operator.acceptsLimiter,
  );

/** The route by itself, for other rules that depend on it. */
export function operatorRouteOf(study: Study): Judgement<Message> {
  const { supply, site } = study.job;
  const { operator, serviceConcerns } = supply;
  const fuse = study.tree.cutOut.overcurrent.ratingA;
  const facts = factsWeighed(study);
  const decided = (
    verdict: "pass" | "fail",
    message: Message,
    action?: Action,
    data = {},
  ): Judgement<Message> => ({ subject, verdict, message, data, facts, ...(action && { action }) });
  const wait = (message: Message, lacks: readonly Missing[], action?: Action): Judgement<Message> =>
    cannotTell(subject, message, lacks, { facts, ...(action && { action }) });

  if (serviceConcerns.state === "known" && serviceConcerns.value.length > 0) {
    const signs = serviceConcerns.value.map((sign) => sign.replaceAll("-", " ")).join(", ");
    return decided("fail", "unsafe", "stop", { signs });
  }
  if (operator.answer.state === "known" && operator.answer.value !== "may-proceed")
    return decided("fail", "refused");
  if (serviceConcerns.state !== "known") return wait("lookAtService", [missing(serviceConcerns)]);
  if (operator.answer.state === "known") {
    const unseen = [supply.isLooped, supply.isUnmetered].filter((fact) => fact.state !== "known");
    return unseen.length > 0 ? wait("serviceUnknown", unseen.map(missing)) : decided("pass", "answered");
  }
  if (fuse.state !== "known") return wait("fuseUnknown", [missing(fuse)], "contact-operator");
  const answer = [missing(operator.answer)];
  if (supply.isLooped.state === "known" && supply.isLooped.value)
    return wait("looped", answer, "contact-operator");
  if (supply.isUnmetered.state === "known" && supply.isUnmetered.value) {
    return wait("unmetered", answer, "contact-operator");
  }
  const unseen = [supply.isLooped, supply.isUnmetered, site.premises].filter(
    (fact) => fact.state !== "known",
  );
  if (unseen.length > 0) return wait("serviceUnknown", unseen.map(missing));
  return demandRoute(study);
}

/** What the demand asks for, once nothing about the service itself stands in the way. */
function demandRoute(study: Study): Judgement<Message> {
  const { supply, site } = study.job;
  const { operator } = supply;
  const facts = factsWeighed(study);
  const answer = [missing(operator.answer)];
  const unmanaged = worstLine(study.demand, (line) => line.unmanaged.high);
  const managed = worstLine(study.demand, managedOrAll);
  const threshold = study.figures("notifyThresholdA");
  const check = { left: unmanaged.quantity, relation: "<=", right: threshold } as const;
  const withinFuse = decide({
    left: managed.quantity,
    relation: "<=",
    right: { ...study.supplyLimit, symbol: "In" },
  });
  const within = decide(check);
  const managedWithin = decide({ ...check, left: managed.quantity });
  if (within.state === "unknown" || managedWithin.state === "unknown" || withinFuse.state === "unknown") {
    const lacks = [within, managedWithin, withinFuse].flatMap((item) =>
      item.state === "unknown" ? item.missing : [],
    );
    const once = [...new Map(lacks.map((item) => [item.path, item])).values()];
    return cannotTell(subject, "demandUnknown", once, { facts });
  }
  const data: Record<string, Datum> = {
    unmanaged: shownOf(unmanaged.quantity, 1, "up"),
    managed: shownOf(managed.quantity, 1, "up"),
    unmanagedLine: unmanaged.line.line,
    line: managed.line.line,
    fuse: shownOf(given(study.tree.cutOut.overcurrent.ratingA, "In"), 0),
    threshold: shownOf(threshold, 0),
    days: shownOf(study.figures("notifyDays"), 0),
  };
  const point = study.circuits[0]?.point;
  const compared = {
    data,
    facts,
    check,
    workings: [managed.quantity].filter(isKnown),
    ...(point && { turnsOn: point.ratedA }),
  };
  const apply = (message: Message, lacks = answer): Judgement<Message> =>
    cannotTell(subject, message, lacks, { ...compared, action: "apply-first" });

  if (withinFuse.state === "broken") {
    return apply(study.job.limiter === null ? "aboveFuse" : "managedAboveFuse");
  }
  if (site.premises.state === "known" && site.premises.value !== "dwelling") return apply("otherPremises");
  if (within.state === "holds") {
    return { ...compared, subject, verdict: "pass", message: "notify", action: "notify-after" };
  }
  if (managedWithin.state === "broken") return apply("apply");
  if (operator.acceptsLimiter.state === "known" && operator.acceptsLimiter.value) {
    return { ...compared, subject, verdict: "pass", message: "notifyManaged", action: "notify-after" };
  }
  return apply(
    "straddles",
    operator.acceptsLimiter.state === "known" ? answer : [...answer, missing(operator.acceptsLimiter)],
  );
}
