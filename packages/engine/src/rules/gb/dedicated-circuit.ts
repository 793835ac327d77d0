import { missing } from "../../job/index.ts";
import { cannotTell, factsOf, rule, type Subject, UNITED_KINGDOM } from "../rule.ts";
import { nodeSubject } from "../subjects.ts";

const nowhere: Subject = { id: "charge-point", label: "the charge point", path: "nodes" };

/** A charge point shares its circuit with nothing. */
export const dedicatedCircuit = rule({
  id: "dedicated-circuit",
  title: "Each charge point has a circuit of its own",
  stage: "size",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    noChargePoint:
      "The job has no charge point, so there is nothing to assess yet. Describe it and the circuit that feeds it.",
    own: "{point} is alone behind {device}.",
    notLookedAt:
      "{point} is drawn alone behind {device}. Look at the board, or settle the design, and record the rating of the device.",
    shared: "{device} also feeds {others}. Give the charge point a circuit of its own.",
    unprotected: "No overcurrent device nearer than the cut-out protects {point}. Give it a way of its own.",
  },
  judge: ({ circuits, tree }) => {
    if (circuits.length === 0)
      return [
        cannotTell(nowhere, "noChargePoint", [{ path: "nodes", label: "the charge point", what: "fact" }]),
      ];
    return circuits.map(({ point, protectedBy }) => {
      const subject = nodeSubject(point, "kind");
      if (protectedBy.kind === "cut-out") {
        return { subject, verdict: "fail", message: "unprotected", data: { point: point.label } } as const;
      }
      const others = tree.endsBelow(protectedBy.id).filter((node) => node.id !== point.id);
      const data = {
        point: point.label,
        device: protectedBy.label,
        others: others.map((end) => end.label).join(", "),
      };
      if (others.length > 0) return { subject, verdict: "fail", message: "shared", data } as const;
      const { ratingA } = protectedBy.overcurrent;
      return ratingA.state === "known"
        ? ({ subject, verdict: "pass", message: "own", data, facts: factsOf(ratingA) } as const)
        : cannotTell(subject, "notLookedAt", [missing(ratingA)], { data });
    });
  },
});
