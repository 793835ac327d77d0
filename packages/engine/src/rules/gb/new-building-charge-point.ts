import { given, missing } from "../../job/index.ts";
import { decide } from "../../worked/index.ts";
import { cannotTell, compare, factsOf, type Judgement, notApplicable, rule, shownOf } from "../rule.ts";
import type { PointCircuit, Study } from "../study.ts";
import { nodeSubject } from "../subjects.ts";

type Message =
  | "existing"
  | "unknown"
  | "meets"
  | "managed"
  | "weak"
  | "tethered"
  | "notMode3"
  | "noIndicator";

/** A charge point that comes with a new building has the output and fittings the building rules ask for. */
export const newBuildingChargePoint = rule<Message>({
  id: "new-building-charge-point",
  title: "A charge point for a new building meets the building rules",
  stage: "decide",
  jurisdictions: ["england"],
  messages: {
    existing: "Not new building work.",
    unknown:
      "{point}: record whether this is new building work, the declared output, outlet, mode and indicator.",
    meets: "{point}: {output} declared; {least} is asked for, with socket, mode 3 and indicator.",
    managed:
      "{point}: {output} declared, by rating; the load manager may deliver less. Whether that still counts is not settled in what was read; ask building control.",
    weak: "{point}: {output} declared is less than {least}. Choose a larger one.",
    tethered:
      "{point} has a lead of its own; the guidance asks for a universal socket. Choose one with a socket.",
    notMode3: "{point} is not mode 3 or equivalent. Choose one that is.",
    noIndicator: "{point} has no status indicator. Choose one that has.",
  },
  judge: (study) => study.circuits.map((circuit) => judgePoint(study, circuit)),
});

function judgePoint({ job, figures }: Study, { point }: PointCircuit): Judgement<Message> {
  const { isNewBuilding } = job.site;
  const subject = nodeSubject(point, "declaredOutputW");
  const name = { point: point.label };
  if (isNewBuilding.state === "known" && !isNewBuilding.value) {
    return notApplicable(subject, "existing", factsOf(isNewBuilding));
  }
  const needed = [isNewBuilding, point.outlet, point.isMode3, point.hasStatusIndicator];
  const facts = factsOf(...needed);
  const unknown = needed.filter((fact) => fact.state !== "known");
  if (unknown.length > 0) return cannotTell(subject, "unknown", unknown.map(missing), { data: name, facts });
  const fail = (message: Message): Judgement<Message> => ({
    subject,
    verdict: "fail",
    message,
    data: name,
    facts,
  });
  if (point.outlet.state === "known" && point.outlet.value === "tethered") return fail("tethered");
  if (point.isMode3.state === "known" && !point.isMode3.value) return fail("notMode3");
  if (point.hasStatusIndicator.state === "known" && !point.hasStatusIndicator.value)
    return fail("noIndicator");
  const output = given(point.declaredOutputW, "P");
  const least = figures("newBuildingOutputW");
  const check = { left: output, relation: ">=", right: least } as const;
  const isManaged = job.limiter?.chargePoints.includes(point.id) ?? false;
  return compare({
    subject,
    check,
    holds: isManaged && decide(check).state === "holds" ? { message: "managed", action: "caution" } : "meets",
    broken: "weak",
    unknown: "unknown",
    data: { ...name, output: shownOf(output, 0, "down"), least: shownOf(least, 0) },
    facts,
    turnsOn: point.declaredOutputW,
  });
}
