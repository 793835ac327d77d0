import { type CableRun, currentCapacity } from "../../circuits/index.ts";
import { given, type LocatedFact } from "../../job/index.ts";
import type { SupplyCable } from "../../supply/index.ts";
import { type Quantity, step } from "../../worked/index.ts";
import { cannotTell, compare, type Judgement, rule, shownOf, UNITED_KINGDOM } from "../rule.ts";
import type { PointCircuit, Study } from "../study.ts";
import { cableSubject, nodeSubject, undescribed } from "../subjects.ts";

type Message =
  | "load"
  | "loadAbove"
  | "loadUnknown"
  | "cable"
  | "cableBelow"
  | "cableFactored"
  | "cableFactoredBelow"
  | "cableUnknown"
  | "notSurveyed";

/** The device carries the load and protects every cable on the way against overload: Ib ≤ In ≤ Iz. */
export const overloadProtection = rule<Message>({
  id: "overload-protection",
  title: "Devices carry the load and protect the cables",
  stage: "size",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    load: "{device}: {rating} carries the {load} of {point} continuously.",
    loadAbove:
      "{device}: {rating} is less than the {load} that {point} draws for hours. Fit a larger device, or turn the point down for good.",
    loadUnknown: "Record the rating of {device} and the rated current of {point}.",
    cable: "{cable}: {capacity} as laid, protected at {protection}.",
    cableBelow:
      "{cable}: {capacity} as laid is less than the {protection} that protects it. Choose a larger cable, a better route, or a smaller device.",
    cableFactored:
      "{cable}: {capacity} as laid. {which} of {rating} asks for {protection}: its rating divided by {factor}, so that an overload stays within what the cable stands.",
    cableFactoredBelow:
      "{cable}: {capacity} as laid. {which} of {rating} asks for {protection}: its rating divided by {factor}, so that an overload stays within what the cable stands. Choose a larger cable, a better route, or a smaller device.",
    cableUnknown: "{cable}: record what is missing to work out its capacity.",
    notSurveyed: "{cable} is on the way to a charge point and has not been described.",
  },
  judge: (study) => {
    const seen = new Set<string>();
    return study.circuits.flatMap((circuit) => [
      judgeLoad(circuit),
      ...circuit.path
        .filter((cable) => cable.run !== "busbar" && !seen.has(cable.id) && seen.add(cable.id))
        .map((cable) => judgeCable(study, cable)),
    ]);
  },
});

/** Ib is the rated current of the point, not what a load manager lets it draw. */
function judgeLoad({ point, protectedBy }: PointCircuit): Judgement<Message> {
  const load = given(point.ratedA, "Ib");
  const rating = given(protectedBy.overcurrent.ratingA, "In");
  return compare({
    subject: nodeSubject(point, "ratedA"),
    check: { left: load, relation: "<=", right: rating },
    holds: "load",
    broken: "loadAbove",
    unknown: "loadUnknown",
    data: {
      device: protectedBy.label,
      point: point.label,
      rating: shownOf(rating, 0),
      load: shownOf(load, 1, "up"),
    },
    turnsOn: point.ratedA,
  });
}

function judgeCable(study: Study, cable: SupplyCable): Judgement<Message> {
  const { knowledge, figures } = study;
  const name = { cable: cable.name };
  if (cable.run === "busbar" || cable.run === "not-surveyed") {
    const { subject, missing } = undescribed(cable);
    return cannotTell(subject, "notSurveyed", missing, { data: name });
  }
  const guard = study.deviceAhead(cable.from);
  const rating = given(guard.overcurrent.ratingA, "In");
  const loaded = cable.lines.length === 1 ? 2 : 3;
  const capacity = currentCapacity(cable.run, loaded, knowledge.circuits, figures);
  const slow = slowDevice(cable.run, guard.overcurrent.standard, figures);
  const protection = slow === null ? rating : capacityBehind(rating, slow.Cc);
  return compare({
    subject: cableSubject(cable, "lineMm2"),
    check: { left: protection, relation: "<=", right: capacity },
    holds: slow === null ? "cable" : "cableFactored",
    broken: slow === null ? "cableBelow" : "cableFactoredBelow",
    unknown: "cableUnknown",
    data: {
      ...name,
      capacity: shownOf(capacity, 1, "down"),
      protection: shownOf(protection, 1, "up"),
      ...(slow && { which: slow.which, rating: shownOf(rating, 0), factor: shownOf(slow.Cc, 3) }),
    },
    turnsOn: guard.overcurrent.ratingA,
  });
}

/** A device slower to act than a cable's overload allows: a semi-enclosed fuse, or any before a cable in the ground. */
function slowDevice(
  run: CableRun,
  standard: LocatedFact<string>,
  figures: Study["figures"],
): { readonly which: string; readonly Cc: Quantity } | null {
  if (standard.state === "known" && standard.value === "bs-3036")
    return { which: "A semi-enclosed fuse", Cc: figures("semiEnclosedFuseFactor") };
  if (run.method.state === "known" && run.method.value === "D")
    return { which: "In the ground a device", Cc: figures("buriedOverloadFactor") };
  return null;
}

/** Capacity that a cable needs behind a slow device. */
const capacityBehind = (rating: Quantity, Cc: Quantity): Quantity =>
  step({
    symbol: "Iz_min",
    label: "capacity needed for protection",
    unit: "A",
    clause: "overload-coordination",
    formula: "In / Cc",
    inputs: { In: rating, Cc },
    compute: ({ In, Cc }) => In / Cc,
  });
