import { given, type LocatedFact } from "../../job/index.ts";
import { decide, step } from "../../worked/index.ts";
import {
  cannotTell,
  compare,
  factsOf,
  type Judgement,
  notApplicable,
  rule,
  shownOf,
  UNITED_KINGDOM,
} from "../rule.ts";
import type { PointCircuit, Study } from "../study.ts";
import { testField, testOf } from "./circuit-test.ts";

type Message = "electrode" | "agree" | "belowExternal" | "belowSum" | "unknown";

/** Ze, R1 + R2 and Zs of one circuit can all be true at once. */
export const readingsAgree = rule<Message>({
  id: "readings-agree",
  title: "The loop readings agree with each other",
  stage: "prove",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    electrode: "Earthed by an electrode, whose resistance hides that of the circuit.",
    agree: "{point}: Zs {loop} agrees with Ze {external} and R1 + R2 {circuit}.",
    belowExternal:
      "{point}: Zs {loop} is below the Ze of {external}. Repeat Ze with the means of earthing disconnected, then Zs; one of them is wrong, or bonded metal shares the current. If it does, record Ze + (R1 + R2) as Zs.",
    belowSum:
      "{point}: Zs {loop} is less than Ze {external} and R1 + R2 {circuit} make together. Repeat R1 + R2, then Zs; one of them is wrong, or bonded metal shares the current. If it does, record Ze + (R1 + R2) as Zs.",
    unknown: "{point}: record Ze, R1 + R2 and Zs as measured; together they show a wrong reading.",
  },
  judge: (study) => study.circuits.map((circuit) => judgePoint(study, circuit)),
});

function judgePoint(study: Study, circuit: PointCircuit): Judgement<Message> {
  const { job, figures } = study;
  const { arrangement } = job.earthing;
  const { method } = circuit.point.openPen;
  const { subject, missing: untested } = testField(circuit, "r1r2Ohm", "R1 + R2, measured cold");
  const isSeparate = method.state === "known" && method.value === "separate-electrode";
  if (isSeparate || (arrangement.state === "known" && arrangement.value === "TT"))
    return notApplicable(subject, "electrode", factsOf(arrangement, method));
  const name = { point: circuit.point.label };
  const test = testOf(study, circuit);
  if (test === undefined) return cannotTell(subject, "unknown", untested, { data: name });

  const Ze = given(job.supply.measuredZeOhm, "Ze");
  const R1R2 = given(test.r1r2Ohm, "R1R2");
  const Zs = given(test.zsOhm, "Zs");
  const [u, d] = [figures("readingShare"), figures("readingSlackOhm")];
  const named = { symbol: "Zs_min", label: "least Zs that agrees", unit: "Ω", clause: "readings-agree" };
  const aboveExternal = {
    left: Zs,
    relation: ">=",
    right: step({
      ...named,
      formula: "(1 - u) * Ze - d",
      inputs: { u, Ze, d },
      compute: ({ u, Ze, d }) => (1 - u) * Ze - d,
    }),
  } as const;
  const aboveSum = {
    left: Zs,
    relation: ">=",
    right: step({
      ...named,
      formula: "(1 - u) * (Ze + R1R2) - d",
      inputs: { u, Ze, R1R2, d },
      compute: ({ u, Ze, R1R2, d }) => (1 - u) * (Ze + R1R2) - d,
    }),
  } as const;
  const data = {
    ...name,
    loop: shownOf(Zs, 2),
    external: shownOf(Ze, 2),
    circuit: shownOf(R1R2, 2),
  };
  const again = ({ path, guide }: LocatedFact<number>) =>
    ({ path, label: `${guide.title}, once more`, what: "fact" }) as const;
  if (decide(aboveExternal).state === "broken")
    return cannotTell(subject, "belowExternal", [again(job.supply.measuredZeOhm), again(test.zsOhm)], {
      data,
      check: aboveExternal,
    });
  if (decide(aboveSum).state === "broken")
    return cannotTell(subject, "belowSum", [again(test.r1r2Ohm), again(test.zsOhm)], {
      data,
      check: aboveSum,
    });
  return compare({ subject, check: aboveSum, holds: "agree", broken: "belowSum", unknown: "unknown", data });
}
