import { given, missing } from "../../job/index.ts";
import { ownResidual, residualDevices } from "../point-protection.ts";
import { cannotTell, compare, factsOf, type Judgement, rule, shownOf, UNITED_KINGDOM } from "../rule.ts";
import type { PointCircuit, Study } from "../study.ts";
import { nodeSubject } from "../subjects.ts";

type Message = "none" | "shared" | "own" | "tooLarge" | "singlePole" | "delayed" | "unknown";

/** Each charge point has a sensitive residual current device of its own that opens every live conductor. */
export const residualDevice = rule<Message>({
  id: "residual-device",
  title: "Each charge point has its own residual current device (RCD)",
  stage: "size",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    none: "{point} has no residual current device. Fit one of 30 mA or less that opens line and neutral.",
    shared: "{device} also protects {others}. The charge point needs one of its own.",
    own: "{device}: {residual}, opens line and neutral, serves this point alone.",
    tooLarge: "{device}: {residual} is more than {limit}. Fit a more sensitive one.",
    singlePole: "{device} leaves the neutral closed. Fit one that opens every live conductor.",
    delayed:
      "{device} waits before it opens: a time-delayed device does not protect a person who touches the lead. Fit one without delay.",
    unknown:
      "{device}: record its rated residual current, whether it is time-delayed, and whether it opens the neutral.",
  },
  judge: (study) => study.circuits.map((circuit) => judgePoint(study, circuit)),
});

function judgePoint(study: Study, circuit: PointCircuit): Judgement<Message> {
  const { point } = circuit;
  const devices = residualDevices(study, circuit);
  const own = ownResidual(devices);
  if (own === undefined) {
    const subject = nodeSubject(point, "residualInside");
    const shared = devices.at(-1);
    return shared === undefined
      ? { subject, verdict: "fail", message: "none", data: { point: point.label } }
      : {
          subject,
          verdict: "fail",
          message: "shared",
          data: { device: shared.at.label, others: shared.alsoProtects.join(", ") },
        };
  }
  const { device } = own;
  const subject = { id: point.id, label: point.label, path: `${own.path}.ratedResidualMa` };
  const data = { device: own.at.label };
  const { opensAllLiveConductors, ratedResidualMa, isTimeDelayed } = device;
  if (opensAllLiveConductors.state === "known" && !opensAllLiveConductors.value) {
    return { subject, verdict: "fail", message: "singlePole", data, facts: factsOf(opensAllLiveConductors) };
  }
  if (isTimeDelayed.state === "known" && isTimeDelayed.value) {
    return { subject, verdict: "fail", message: "delayed", data, facts: factsOf(isTimeDelayed) };
  }
  const residual = given(ratedResidualMa, "IdN");
  if (opensAllLiveConductors.state !== "known" || isTimeDelayed.state !== "known") {
    const lacks = [opensAllLiveConductors, isTimeDelayed, ratedResidualMa].filter(
      (fact) => fact.state !== "known",
    );
    return cannotTell(subject, "unknown", lacks.map(missing), { data });
  }
  const limit = study.figures("residualRatedMa");
  return compare({
    subject,
    check: { left: residual, relation: "<=", right: limit },
    holds: "own",
    broken: "tooLarge",
    unknown: "unknown",
    data: { ...data, residual: shownOf(residual, 0), limit: shownOf(limit, 0) },
    facts: factsOf(opensAllLiveConductors, isTimeDelayed),
  });
}
