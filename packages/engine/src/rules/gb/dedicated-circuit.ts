import { rule, UNITED_KINGDOM } from "../rule.ts";
import { nodeSubject } from "../subjects.ts";

/** A charge point shares its circuit with nothing. */
export const dedicatedCircuit = rule({
  id: "dedicated-circuit",
  title: "Each charge point has a circuit of its own",
  stage: "size",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    own: "{point} is alone behind {device}.",
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
      return others.length === 0
        ? ({ subject, verdict: "pass", message: "own", data } as const)
        : ({ subject, verdict: "fail", message: "shared", data } as const);
    }),
});
