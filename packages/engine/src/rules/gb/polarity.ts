import { missing } from "../../job/index.ts";
import { cannotTell, factsOf, rule, UNITED_KINGDOM } from "../rule.ts";
import { testField, testOf } from "./circuit-test.ts";

/** Line, neutral and protective conductor reach the charge point each on its own terminal. */
export const polarity = rule({
  id: "polarity",
  title: "Polarity at the charge point",
  stage: "prove",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    right: "{point}: polarity confirmed.",
    wrong: "{point}: polarity is wrong. Make it dead, correct the connections, and prove polarity again.",
    unknown: "{point}: prove polarity at the point of use and record it.",
  },
  judge: (study) =>
    study.circuits.map((circuit) => {
      const { subject, missing: untested } = testField(circuit, "polarityIsRight", "polarity confirmed");
      const data = { point: circuit.point.label };
      const isRight = testOf(study, circuit)?.polarityIsRight;
      if (isRight?.state !== "known")
        return cannotTell(subject, "unknown", isRight ? [missing(isRight)] : untested, { data });
      const facts = factsOf(isRight);
      return isRight.value
        ? ({ subject, verdict: "pass", message: "right", data, facts } as const)
        : ({ subject, verdict: "fail", message: "wrong", action: "stop", data, facts } as const);
    }),
});
