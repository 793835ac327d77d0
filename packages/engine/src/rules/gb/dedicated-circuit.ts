import { missing } from "../../job/index.ts";
import { cannotTell, factsOf, rule, UNITED_KINGDOM } from "../rule.ts";
import { nodeSubject } from "../subjects.ts";

/** A charge point shares its circuit with nothing. */
export const dedicatedCircuit = rule({
  id: "dedicated-circuit",
  title: "Each charge point has a circuit of its own",
  stage: "size",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    own: "{point} is alone behind {device}.",
    notLookedAt:
      "{point} is drawn alone behind {device}. Look at the board, or settle the design, and record the rating of the device.",
    shared: "{device} also feeds {others}. Give the charge point a circuit of its own.",
    unprotected: "No overcurrent device nearer than the cut-out protects {point}. Give it a way of its own.",
  },
  judge: ({ circuits, tree }) =>
    circuits.map(({ point, protectedBy }) => {
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
    }),
});
