import { earthFaultLoop } from "../../circuits/index.ts";
import { given, missing } from "../../job/index.ts";
import { maxLoopImpedance } from "../../protection/index.ts";
import { decide, type Quantity, step } from "../../worked/index.ts";
import { isEarthedByElectrode } from "../earthed-by-electrode.ts";
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
import { nodeSubject } from "../subjects.ts";

type Message =
  | "arrangementUnknown"
  | "electrode"
  | "designed"
  | "designedHigh"
  | "designUnknown"
  | "measured"
  | "measuredWarm"
  | "measuredHigh"
  | "noReading";

/** An earth fault at the charge point is disconnected in time by its overcurrent device. */
export const disconnection = rule<Message>({
  id: "disconnection",
  title: "An earth fault is disconnected in time",
  stage: "size",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    arrangementUnknown: "Find out the earthing arrangement first.",
    electrode: "Earthed by an electrode: the residual current device disconnects; see the electrode.",
    designed: "{point}: Zs works out at {loop} hot; {device} allows {limit}.",
    designedHigh:
      "{point}: Zs works out at {loop} hot, above the {limit} that {device} allows. Use a larger or shorter cable, or a device that trips sooner; relying on the residual current device alone is for a designer to decide.",
    designUnknown: "{point}: record what is missing to work out the loop impedance.",
    measured: "{point}: measured {loop}; not above {coldLimit}, the limit for a cold reading.",
    measuredWarm:
      "{point}: measured {loop}, above {coldLimit} for cold conductors though below {limit}. Right only if they were warm: measure again with the cable cold, or find out why it differs from the design.",
    measuredHigh: "{point}: measured {loop} is above {limit}. Do not energise; find the cause.",
    noReading: "{point}: measure Zs at the charge point and record it.",
  },
  judge: (study) => study.circuits.flatMap((circuit) => judgePoint(study, circuit)),
});

function judgePoint(study: Study, circuit: PointCircuit): readonly Judgement<Message>[] {
  const { arrangement } = study.job.earthing;
  const { point } = circuit;
  const subject = nodeSubject(point, "kind");
  if (arrangement.state !== "known")
    return [cannotTell(subject, "arrangementUnknown", [missing(arrangement)])];
  const { method } = point.openPen;
  const facts = factsOf(arrangement, method);
  if (isEarthedByElectrode(study, circuit)) return [notApplicable(subject, "electrode", facts)];
  return [judgeDesign(study, circuit), judgeReading(study, circuit)];
}

const limitFor = ({ knowledge, figures, u0 }: Study, circuit: PointCircuit): Quantity =>
  maxLoopImpedance(circuit.protectedBy.overcurrent, 0.4, u0, knowledge.protection, figures);

function judgeDesign(study: Study, circuit: PointCircuit): Judgement<Message> {
  const { job } = study;
  const limit = limitFor(study, circuit);
  const loop = earthFaultLoop(study.externalImpedance, circuit.earthPath, "hot", study.loops);
  const lastRun = circuit.finalCables.findLast((cable) => typeof cable.run === "object")?.run;
  const isMeasured = job.supply.measuredZeOhm.state === "known";
  return compare({
    subject: nodeSubject(circuit.point, "kind"),
    check: { left: loop, relation: "<=", right: limit },
    holds: "designed",
    broken: "designedHigh",
    unknown: "designUnknown",
    data: {
      point: circuit.point.label,
      device: circuit.protectedBy.label,
      loop: shownOf(loop, 2, "up"),
      limit: shownOf(limit, 2, "down"),
    },
    turnsOn:
      isMeasured || job.supply.declaredZeOhm.state === "known"
        ? isMeasured
          ? job.supply.measuredZeOhm
          : job.supply.declaredZeOhm
        : typeof lastRun === "object"
          ? lastRun.lengthM
          : job.supply.measuredZeOhm,
  });
}

function judgeReading(study: Study, circuit: PointCircuit): Judgement<Message> {
  const { point, protectedBy } = circuit;
  const test = study.job.tests.circuits.find((item) => item.way === protectedBy.id);
  const subject = {
    id: `${point.id}-measured`,
    label: point.label,
    path: `tests.circuits[${protectedBy.id}].zsOhm`,
  };
  const data = { point: point.label };
  if (test === undefined) {
    return cannotTell(
      subject,
      "noReading",
      [{ path: subject.path, label: "measured Zs at the charge point", what: "fact" }],
      { data },
    );
  }
  const limit = limitFor(study, circuit);
  const reading = given(test.zsOhm, "Zs");
  const coldLimit = step({
    symbol: "Zs_cold",
    label: "limit for a reading with cold conductors",
    unit: "Ω",
    clause: "cold-reading",
    formula: "c * Zs_max",
    inputs: { c: study.figures("zsColdShare"), Zs_max: limit },
    compute: ({ c, Zs_max }) => c * Zs_max,
  });
  const isCold = decide({ left: reading, relation: "<=", right: coldLimit }).state === "holds";
  return compare({
    subject,
    check: { left: reading, relation: "<=", right: isCold ? coldLimit : limit },
    holds: isCold
      ? "measured"
      : {
          message: "measuredWarm",
          verdict: "cannot-tell",
          missing: [{ path: subject.path, label: `Zs at ${point.label} with cold conductors`, what: "fact" }],
        },
    broken: "measuredHigh",
    unknown: "noReading",
    data: {
      ...data,
      loop: shownOf(reading, 2, "up"),
      limit: shownOf(limit, 2, "down"),
      coldLimit: shownOf(coldLimit, 2, "down"),
    },
    workings: [coldLimit],
    turnsOn: test.zsOhm,
  });
}
