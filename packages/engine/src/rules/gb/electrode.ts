import { type Electrode, electrodeResistance } from "../../earthing/index.ts";
import { given, missing } from "../../job/index.ts";
import type { SupplyCable, SupplyNode } from "../../supply/index.ts";
import { decide, numberOf, type Quantity, step } from "../../worked/index.ts";
import { type PlacedResidual, residualDevicesAhead } from "../point-protection.ts";
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
import { hasOvercurrent, type PointCircuit, type Study } from "../study.ts";
import { nodeSubject } from "../subjects.ts";

type Message =
  | "earthedBySupply"
  | "arrangementUnknown"
  | "noElectrode"
  | "holds"
  | "unstable"
  | "estimated"
  | "tooHigh"
  | "unknown"
  | "nearEarthedMetal"
  | "outOfReach"
  | "reachUnknown"
  | "noResidual";

/** Where a charge point is earthed by an electrode, the residual current device and the electrode fit each other. */
export const electrode = rule<Message>({
  id: "electrode",
  title: "The earth electrode is good enough for the residual current device",
  stage: "decide",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    earthedBySupply: "Earthed through the supply; no electrode is relied on.",
    arrangementUnknown: "Find out the earthing arrangement first.",
    noElectrode: "No electrode is described. Describe it, or its rods for an estimate.",
    holds: "{device}: {resistance} × {residual} gives {touch}; not above {limit}.",
    unstable:
      "{device}: {resistance} × {residual} gives {touch}, not above {limit}, but above {stable} an electrode may be unstable as the ground dries. Add rods.",
    estimated:
      "Estimated from rods and soil at {resistance}, which would give {touch}, not above {limit}. Measure it before relying on it.",
    tooHigh:
      "{device}: {resistance} × {residual} gives {touch}, above {limit}. Improve the electrode before relying on it.",
    unknown:
      "Measure the electrode, with its link open and the supply isolated, and record the rated residual current of {device}.",
    nearEarthedMetal:
      "Metal on the supply's earth can be touched together with the vehicle. Move one of them, or choose another method.",
    outOfReach: "No metal on the supply's earth is within reach of the vehicle.",
    reachUnknown: "Look for metal on the supply's earth within reach of the vehicle, above and below ground.",
    noResidual:
      "{cable} is earthed by an electrode and has no residual current device at its start: a fault in it would not be cleared. Fit one at {start}.",
  },
  judge: (study) => study.circuits.flatMap((circuit) => judgePoint(study, circuit)),
});

function judgePoint(study: Study, circuit: PointCircuit): readonly Judgement<Message>[] {
  const { arrangement } = study.job.earthing;
  const { openPen } = circuit.point;
  const subject = nodeSubject(circuit.point, "openPen.electrode.resistanceOhm");
  const isSeparate = openPen.method.state === "known" && openPen.method.value === "separate-electrode";
  const facts = factsOf(arrangement, openPen.method);
  if (isSeparate) {
    return [
      judgeTouch(study, circuit, openPen.electrode, "openPen.electrode.resistanceOhm"),
      judgeReach(circuit),
    ];
  }
  if (arrangement.state !== "known")
    return [cannotTell(subject, "arrangementUnknown", [missing(arrangement)])];
  if (arrangement.value !== "TT") return [notApplicable(subject, "earthedBySupply", facts)];
  return [judgeTouch(study, circuit, study.job.earthing.electrode, null)];
}

function judgeTouch(
  study: Study,
  circuit: PointCircuit,
  described: Electrode | null,
  field: string | null,
): Judgement<Message> {
  const place = nodeSubject(circuit.point, field ?? "");
  const subject = field === null ? { ...place, path: "earthing.electrode.resistanceOhm" } : place;
  if (described === null) {
    return cannotTell(subject, "noElectrode", [{ path: subject.path, label: "the electrode", what: "fact" }]);
  }
  const first = firstOnElectrode(study, circuit);
  const guard = mostSensitive(residualDevicesAhead(study, circuit, first));
  if (guard === undefined) {
    const start = study.tree.node(first.from).label;
    return { subject, verdict: "fail", message: "noResidual", data: { cable: first.name, start } };
  }
  const RA: Quantity = { ...electrodeResistance(described, study.figures), symbol: "RA" };
  const residual = given(guard.device.ratedResidualMa, "IdN");
  const limit = study.figures("touchVoltageTt");
  const stable = study.figures("electrodeStableOhm");
  const touch = step({
    symbol: "Ut",
    label: "touch voltage at the rated residual current",
    unit: "V",
    clause: "electrode-touch-voltage",
    formula: "RA * IdN / 1000",
    inputs: { RA, IdN: residual },
    compute: ({ RA, IdN }) => (RA * IdN) / 1000,
  });
  const isStable = decide({ left: RA, relation: "<=", right: stable }).state === "holds";
  const isEstimated = described.resistanceOhm.state !== "known";
  return compare({
    subject,
    check: { left: touch, relation: "<=", right: limit },
    holds: isEstimated
      ? { message: "estimated", verdict: "cannot-tell", missing: [missing(described.resistanceOhm)] }
      : isStable
        ? "holds"
        : { message: "unstable", action: "caution" },
    broken: "tooHigh",
    unknown: "unknown",
    data: {
      device: guard.at.label,
      resistance: shownOf(RA, 1, "up"),
      residual: shownOf(residual, 0),
      touch: shownOf(touch, 1, "up"),
      limit: shownOf(limit, 0),
      stable: shownOf(stable, 0),
    },
    turnsOn: described.resistanceOhm,
  });
}

/**
 * The first cable, supply side first, in which an earth fault returns through the electrode: after the tails, which
 * no device follows yet; with an electrode for the charge point alone, of the final circuit only. What guards its
 * start guards all that follows.
 */
function firstOnElectrode(study: Study, circuit: PointCircuit): SupplyCable {
  const isInstallation =
    study.job.earthing.arrangement.state === "known" && study.job.earthing.arrangement.value === "TT";
  const cables = isInstallation ? circuit.path : circuit.finalCables;
  const start = cables.findIndex(({ from }) => endsTails(study.tree.node(from)));
  const after = start < 0 ? cables.slice(-1) : cables.slice(start);
  return (after.find(({ run }) => run !== "busbar") ?? after.at(-1)) as SupplyCable;
}

const endsTails = (node: SupplyNode): boolean =>
  node.kind === "board" ||
  (node.kind !== "cut-out" && hasOvercurrent(node)) ||
  ("residual" in node && node.residual !== null);

/** The one with the smallest rated current; one nobody has read while there is any. */
const mostSensitive = (devices: readonly PlacedResidual[]): PlacedResidual | undefined => {
  const unread = devices.find(({ device }) => device.ratedResidualMa.state !== "known");
  const rating = ({ device }: PlacedResidual): number => numberOf(given(device.ratedResidualMa, "IdN"));
  return unread ?? [...devices].sort((a, b) => rating(a) - rating(b))[0];
};

function judgeReach({ point }: PointCircuit): Judgement<Message> {
  const { isNearEarthedMetal } = point.openPen;
  const subject = nodeSubject(point, "openPen.isNearEarthedMetal");
  if (isNearEarthedMetal.state !== "known")
    return cannotTell(subject, "reachUnknown", [missing(isNearEarthedMetal)]);
  const facts = factsOf(isNearEarthedMetal);
  return isNearEarthedMetal.value
    ? { subject, verdict: "fail", message: "nearEarthedMetal", data: {}, facts }
    : { subject, verdict: "pass", message: "outOfReach", data: {}, facts };
}
