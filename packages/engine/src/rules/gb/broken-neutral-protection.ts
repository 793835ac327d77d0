import { electrodeResistance, worstOpenPenPotential } from "../../earthing/index.ts";
import { type LocatedFact, missing } from "../../job/index.ts";
import { missingDecision, total } from "../../worked/index.ts";
import { fedBackOn } from "../fed-back.ts";
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
  | "notTncs"
  | "indoors"
  | "placeUnknown"
  | "methodUnknown"
  | "none"
  | "balanceWithdrawn"
  | "electrodeHolds"
  | "electrodeEstimated"
  | "electrodeTooHigh"
  | "electrodeUnknown"
  | "noElectrode"
  | "earthReference"
  | "noEarthReference"
  | "deviceUnknown"
  | "recloses"
  | "deviceDoubted"
  | "voltageWindow"
  | "windowOnThreePhase"
  | "otherDevice"
  | "otherDeviceUnproved"
  | "separateElectrode"
  | "isolatingTransformer";

/** An outdoor charge point on a TN-C-S supply does not make a vehicle live when the supply neutral breaks. */
export const brokenNeutralProtection = rule<Message>({
  id: "broken-neutral-protection",
  title: "A vehicle outdoors stays safe when the supply neutral breaks",
  stage: "decide",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    arrangementUnknown: "Find out the earthing arrangement first.",
    notTncs: "The arrangement is {arrangement}; the supply's neutral is not its earth.",
    indoors: "The vehicle is charged indoors only; the TN-C-S earth may serve.",
    placeUnknown: "Find out whether a vehicle may be charged outdoors here.",
    methodUnknown:
      "Decide how the vehicle is protected if the supply neutral breaks: an open-neutral (open-PEN) device, an electrode of its own, or another listed method.",
    none: "An outdoor charge point on the TN-C-S earth without protection against a broken neutral. Fit an open-neutral device or give it an electrode of its own.",
    balanceWithdrawn:
      "Balanced three-phase load is reported as withdrawn from the listed methods. A designer must cite it from the book in force, or choose another.",
    electrodeHolds:
      "With the neutral broken and the lines as unequal as they can be the metalwork stays at {value}; the limit is {limit}.",
    electrodeEstimated:
      "Estimated from rods and soil, the metalwork would stay at {value} with the neutral broken; the limit is {limit}. Measure the electrode before relying on it.",
    electrodeTooHigh:
      "With the neutral broken the electrode does not hold the metalwork down: {value} against {limit} with the lines as unequal as they can be. An electrode rarely can; fit an open-neutral device.",
    electrodeUnknown:
      "Measure the electrode, with its link open and the supply isolated, and record what is missing to work out the demand.",
    noElectrode: "The method is a low-resistance electrode, and none is described. Describe it.",
    earthReference:
      "The device has a true earth reference. Prove it by the maker's procedure and record the result.",
    noEarthReference:
      "The device has no true earth reference: voltage to neutral or to the earth terminal alone is not enough. Choose another device.",
    deviceUnknown: "Read the device's data sheet: {lacking}.",
    recloses:
      "The device closes by itself onto the fault and makes the vehicle live again. Choose one that stays open until the neutral is back.",
    deviceDoubted:
      "The device is of a listed kind, but {doubt}. See in its data sheet that it opens line, neutral and protective conductor, and stays open while the fault lasts.",
    voltageWindow:
      "The device watches line to neutral on a single-phase supply. Prove it by the maker's procedure and record the result.",
    windowOnThreePhase:
      "A voltage window is for single-phase installations only; this supply has three phases. Choose another method.",
    otherDevice:
      "The maker states no less safety than the listed devices, and it does not close onto the fault.",
    otherDeviceUnproved:
      "The device closes by itself onto the fault, or the maker gives no statement of equal safety. Choose another.",
    separateElectrode:
      "The charge point has an electrode of its own; see its electrode and what can be touched with it.",
    isolatingTransformer:
      "Electrical separation serves one vehicle a transformer. A designer must confirm it from the book in force.",
  },
  judge: (study) => study.circuits.map((circuit) => judgePoint(study, circuit)),
});

function judgePoint(study: Study, circuit: PointCircuit): Judgement<Message> {
  const { arrangement } = study.job.earthing;
  const { point } = circuit;
  const { openPen } = point;
  const subject = nodeSubject(point, "openPen.method");
  if (arrangement.state !== "known") return cannotTell(subject, "arrangementUnknown", [missing(arrangement)]);
  if (arrangement.value !== "TN-C-S") {
    return {
      ...notApplicable(subject, "notTncs", factsOf(arrangement)),
      data: { arrangement: arrangement.value },
    };
  }
  const placed = factsOf(arrangement, point.isOutdoors);
  if (point.isOutdoors.state !== "known")
    return cannotTell(subject, "placeUnknown", [missing(point.isOutdoors)], { facts: placed });
  if (!point.isOutdoors.value) return notApplicable(subject, "indoors", placed);
  if (openPen.method.state !== "known")
    return cannotTell(subject, "methodUnknown", [missing(openPen.method)], { facts: placed });
  const facts = [...placed, ...factsOf(openPen.method)];
  const decided = (
    verdict: "pass" | "fail",
    message: Message,
    more: readonly LocatedFact<unknown>[] = [],
  ): Judgement<Message> => ({
    subject,
    verdict,
    message,
    data: {},
    facts: [...facts, ...factsOf(...more)],
  });
  const refer = (message: Message, what: string): Judgement<Message> =>
    cannotTell(subject, message, [missingDecision(what)], { facts, action: "refer" });
  const lacking = (...of: readonly LocatedFact<unknown>[]): Judgement<Message> => {
    const unknown = of.filter((fact) => fact.state !== "known");
    const data = { lacking: unknown.map((fact) => fact.guide.title).join(", ") };
    return cannotTell(subject, "deviceUnknown", unknown.map(missing), { facts, data });
  };

  /** A device the rules name: it must not close onto the fault, and its maker vouches for one that stands apart. */
  const listedDevice = (passes: Message, ...more: readonly LocatedFact<boolean>[]): Judgement<Message> => {
    const { recloses, isInsideChargePoint, hasMakersStatement } = openPen;
    if (isKnownAs(recloses, true)) return decided("fail", "recloses", [recloses]);
    const needed = [...more, recloses, isInsideChargePoint];
    if (needed.some((fact) => fact.state !== "known")) return lacking(...needed);
    const doubts = [
      ...(isKnownAs(isInsideChargePoint, false) && !isKnownAs(hasMakersStatement, true)
        ? ["it is not inside the charge point"]
        : []),
      ...(isKnownAs(hasMakersStatement, false) ? ["its maker gives no statement"] : []),
    ];
    const judged = decided("pass", passes, [...needed, hasMakersStatement]);
    return doubts.length === 0
      ? judged
      : { ...judged, message: "deviceDoubted", action: "caution", data: { doubt: doubts.join(", and ") } };
  };

  switch (openPen.method.value) {
    case "none":
      return decided("fail", "none");
    case "three-phase-balance":
      return refer("balanceWithdrawn", "whether balanced three-phase load may be relied on");
    case "low-resistance-electrode":
      return judgeElectrode(study, circuit, facts);
    case "device-with-earth-reference":
      return isKnownAs(openPen.hasEarthReference, false)
        ? decided("fail", "noEarthReference", [openPen.hasEarthReference])
        : listedDevice("earthReference", openPen.hasEarthReference);
    case "device-with-voltage-window":
      return study.job.supply.phases === 1
        ? listedDevice("voltageWindow")
        : decided("fail", "windowOnThreePhase");
    case "other-device": {
      const { hasMakersStatement, recloses } = openPen;
      if (hasMakersStatement.state !== "known" || recloses.state !== "known")
        return lacking(hasMakersStatement, recloses);
      return hasMakersStatement.value && !recloses.value
        ? decided("pass", "otherDevice", [hasMakersStatement, recloses])
        : decided("fail", "otherDeviceUnproved", [hasMakersStatement, recloses]);
    }
    case "separate-electrode":
      return decided("pass", "separateElectrode");
    case "isolating-transformer":
      return refer("isolatingTransformer", "electrical separation of the charge point");
  }
}

const isKnownAs = (fact: LocatedFact<boolean>, value: boolean): boolean =>
  fact.state === "known" && fact.value === value;

/** The electrode joined to the main earthing terminal, against the load that would return through it. */
function judgeElectrode(
  study: Study,
  { point }: PointCircuit,
  facts: NonNullable<Judgement["facts"]>,
): Judgement<Message> {
  const subject = nodeSubject(point, "openPen.electrode");
  const { electrode } = point.openPen;
  if (electrode === null)
    return cannotTell(
      subject,
      "noElectrode",
      [{ path: subject.path, label: "the electrode", what: "fact" }],
      { facts },
    );
  const RE = { ...electrodeResistance(electrode, study.figures), symbol: "RE" };
  const touch = study.figures("openPenTouchV");
  const potential = worstOpenPenPotential({
    u0: study.u0,
    lines: study.demand.map(({ line, unmanaged }) => ({
      load: unmanaged.high,
      fedBack: total(
        { symbol: "G", label: `what can feed back on ${line}`, unit: "A", clause: "generation-route" },
        fedBackOn(study.tree, line),
      ),
    })),
    electrode: RE,
    idle: study.figures("idleLineA"),
  });
  return compare({
    subject,
    facts,
    check: { left: potential, relation: "<=", right: touch },
    holds:
      electrode.resistanceOhm.state === "known"
        ? "electrodeHolds"
        : {
            message: "electrodeEstimated",
            verdict: "cannot-tell",
            missing: [missing(electrode.resistanceOhm)],
          },
    broken: "electrodeTooHigh",
    unknown: "electrodeUnknown",
    data: { value: shownOf(potential, 1, "up"), limit: shownOf(touch, 1, "down") },
    turnsOn: electrode.resistanceOhm,
  });
}
