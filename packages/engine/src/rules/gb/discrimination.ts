import { prospectiveAt } from "../../circuits/index.ts";
import { given, missing } from "../../job/index.ts";
import { discrimination as judgeDevices } from "../../protection/index.ts";
import { decide, missingFigure } from "../../worked/index.ts";
import {
  cannotTell,
  factsOf,
  type Judgement,
  notApplicable,
  rule,
  shown,
  shownOf,
  UNITED_KINGDOM,
} from "../rule.ts";
import type { PointCircuit, Study } from "../study.ts";
import { nodeSubject } from "../subjects.ts";

type Message =
  | "none"
  | "full"
  | "partial"
  | "partialUnpublished"
  | "stated"
  | "statedPartly"
  | "overload"
  | "noFigures"
  | "unknown";

/** A fault at the charge point does not take the main fuse with it. */
export const discrimination = rule<Message>({
  id: "discrimination",
  title: "A fault at the charge point leaves the main fuse whole",
  stage: "size",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    none: "{point} has no device of its own.",
    full: "{device} clears before the main fuse up to the {fault} prospective there, by printed gates and energies.",
    partial:
      "{device} clears before the main fuse up to {upTo}; above that the energy (I²t) it may let through can melt the fuse. Worth knowing: after a short circuit at the charge point check the main fuse.",
    partialUnpublished:
      "{device} clears before the main fuse up to {upTo}; above that no energies are published for both. Ask the maker of {device} for its discrimination table.",
    stated:
      "{device} clears before the main fuse up to {stated}, as its maker states; {fault} is prospective there.",
    statedPartly:
      "{device} clears before the main fuse up to {stated}, as its maker states; up to {fault} is prospective there, and that can melt the fuse. Worth knowing: after a short circuit at the charge point check the main fuse.",
    overload:
      "Already at {upTo} the main fuse may operate before {device}. Choose a smaller or quicker device.",
    noFigures:
      "No time-current figures are held for {which}. Ask the maker of {device} up to which fault current it states discrimination with the main fuse.",
    unknown: "Record the devices and the prospective fault current.",
  },
  judge: (study) => study.circuits.map((circuit) => judgePoint(study, circuit)),
});

function judgePoint(study: Study, circuit: PointCircuit): Judgement<Message> {
  const { job, tree, knowledge, figures, u0 } = study;
  const { point, protectedBy } = circuit;
  const subject = nodeSubject(protectedBy, "overcurrent");
  if (protectedBy.kind === "cut-out")
    return { ...notApplicable(subject, "none"), data: { point: point.label } };
  const stated = protectedBy.kind === "way" ? protectedBy.discriminatesUpToA : undefined;
  const below = protectedBy.overcurrent;
  const ahead = tree.cutOut.overcurrent;
  const origin = given(
    job.supply.measuredFaultCurrentKa.state === "known"
      ? job.supply.measuredFaultCurrentKa
      : job.supply.declaredFaultCurrentKa,
    "I0",
  );
  const upTo = circuit.path.slice(0, circuit.path.findIndex((cable) => cable.to === protectedBy.id) + 1);
  const fault = prospectiveAt(origin, u0, upTo, study.loops, figures);
  const deviceFacts = [below.standard, below.ratingA, ahead.standard, ahead.ratingA];
  const unknown = deviceFacts.filter((fact) => fact.state !== "known");
  const known = decide({ left: fault, relation: ">=", right: fault });
  if (known.state === "unknown" || unknown.length > 0) {
    const lacks = unknown.map((fact) => ({
      path: fact.path,
      label: fact.guide.title,
      what: "fact" as const,
    }));
    return cannotTell(subject, "unknown", [...lacks, ...(known.state === "unknown" ? known.missing : [])]);
  }
  const facts = factsOf(...deviceFacts, below.curve, below.breakingCapacityKa);
  const result = judgeDevices(below, ahead, known.left.value * 1000, knowledge.protection);
  const data = {
    device: protectedBy.label,
    fault: shownOf(fault, 2, "up"),
    which: result.state === "cannot-tell" && result.which === "ahead" ? "the main fuse" : protectedBy.label,
    upTo:
      "upToA" in result
        ? shown(result.upToA, "A", 0, "down")
        : "atA" in result
          ? shown(result.atA, "A", 0)
          : "–",
  };
  const common = { subject, data, facts, workings: [known.left] };
  if (stated?.state === "known" && result.state !== "full" && result.state !== "none") {
    const byMaker = {
      ...common,
      verdict: "pass",
      data: { ...data, stated: shown(stated.value, "A", 0, "down") },
      facts: [...facts, ...factsOf(stated)],
    } as const;
    return stated.value >= known.left.value * 1000
      ? { ...byMaker, message: "stated" }
      : { ...byMaker, message: "statedPartly", action: "caution" };
  }
  const wanted = (figure: string) => [stated === undefined ? missingFigure(figure) : missing(stated)];
  switch (result.state) {
    case "full":
      return { ...common, verdict: "pass", message: "full" };
    case "none":
      return { ...common, verdict: "fail", message: "overload" };
    case "partial":
      return result.because === "energy"
        ? { ...common, verdict: "pass", message: "partial", action: "caution" }
        : cannotTell(
            subject,
            "partialUnpublished",
            wanted(`energy let through of ${protectedBy.label}`),
            common,
          );
    case "cannot-tell":
      return cannotTell(subject, "noFigures", wanted(`time-current curve of ${data.which}`), common);
  }
}
