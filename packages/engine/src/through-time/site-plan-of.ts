/**
 * A job as the simulation takes it: every figure from the job where it is known, from knowledge where not.
 *
 * @module
 */
import { given, type Job, type Located } from "../job/index.ts";
import type { ControlSettings } from "../limiter/index.ts";
import { timeCurrentBand } from "../protection/index.ts";
import { designedPlaces, isDesignedWhole } from "../proving/index.ts";
import type { Line } from "../quantities/index.ts";
import type { Study } from "../rules/index.ts";
import type {
  CarHabit,
  CarPlan,
  PointPlan,
  SimulationFigure,
  SitePlan,
  TimedFault,
} from "../simulation/index.ts";
import { isKnown, type Missing, type Quantity } from "../worked/index.ts";
import { cableBodies } from "./cable-bodies.ts";
import { Choices } from "./choices.ts";
import { excursionTimes } from "./excursion-times.ts";

export interface PlannedSite {
  readonly plan: SitePlan;
  readonly habits: readonly CarHabit[];
  /** Lines of the supply in the order of the plan. */
  readonly lines: readonly Line[];
  /** Everything the plan rests on, facts and figures. */
  readonly rests: readonly Quantity[];
  /** What is presumed of the job besides figures, because nobody recorded it. */
  readonly presumed: readonly Presumption[];
  /** Rating of the main fuse; null while it is not known. [A] */
  readonly fuseRatingA: number | null;
  /** Charge points that no load manager governs: their cars take what they can. */
  readonly ungoverned: readonly string[];
  /** Whether the job has no load manager, and the plan is that of one with usual settings. */
  readonly isManagerImagined: boolean;
  /** The limit the manager keeps to, as it was come by. [A] */
  readonly limit: Quantity;
  /** The highest that may be set, the margin of the metering chain taken off; null while it is not known. [A] */
  readonly highestLimitA: number | null;
  /** Transformers that by the design do not see all the main fuse carries; the run takes them as put right. */
  readonly misplaced: readonly string[];
}

/** A direct law, equal sharing among several charge points, a car that draws from every line of its charge point. */
export type Presumption = "direct-law" | "equal-sharing" | "car-on-every-line";

export type PlannedSiteResult =
  | { readonly ok: true; readonly site: PlannedSite }
  | { readonly ok: false; readonly missing: readonly Missing[] };

const HOUR_S = 3600;

/** The plan of a job; what is missing when the supply itself is not known well enough. */
export function sitePlanOf(study: Study): PlannedSiteResult {
  const { job, lines, tree, circuits } = study;
  const choices = new Choices(study.figures);
  const supplyLimitA = choices.take(study.supplyLimit);
  const control = controlOf(study, choices);
  const points = circuits.map(
    ({ point }): PointPlan => ({
      id: point.id,
      lines: tree.linesAt(point.id).map((line) => lines.indexOf(line) as 0 | 1 | 2),
      ratedA: choices.take(given(point.ratedA, "Icp")),
    }),
  );
  const voltageV = choices.take(study.u0);
  const cars = carsOf(study, points);
  const governs = job.limiter?.chargePoints ?? circuits.map(({ point }) => point.id);
  const ungoverned = points.filter(({ id }) => !governs.includes(id)).map(({ id }) => id);
  const band = timeCurrentBand(tree.cutOut.overcurrent, study.knowledge.protection);
  const plan: SitePlan = {
    lineCount: lines.length === 1 ? 1 : 3,
    stepS: 1,
    readsLate: true,
    voltageV,
    supplyLimitA,
    listExcursionsFromS: excursionTimes(study).usualS,
    control,
    points,
    cars: cars.map((car) => {
      const planned = carPlan(car, points, choices);
      // Nobody turns it down, but its charge point still offers no more than its rating.
      const atMostA = ungoverned.includes(car.chargePoint) ? (points[planned.point]?.ratedA ?? 0) : Infinity;
      return { ...planned, onboardA: Math.min(planned.onboardA, atMostA) };
    }),
    fuse: band === null ? null : { band, coolingS: choices.figure("fuseCoolingS") },
    bodies: cableBodies(study, choices),
    faults: ungoverned.map(
      (id): TimedFault => ({
        kind: "car-ignores-offer",
        point: points.findIndex((point) => point.id === id),
        fromS: 0,
        untilS: Number.POSITIVE_INFINITY,
      }),
    ),
  };
  const habits = cars.map((car) => habitOf(car, study, choices));
  if (choices.missing.length > 0) return { ok: false, missing: unique(choices.missing) };
  const { ratingA } = tree.cutOut.overcurrent;
  const fuseRatingA = ratingA.state === "known" ? ratingA.value : null;
  const { rests } = choices;
  const misplaced = misplacedIn(study);
  const highestLimitA = isKnown(study.highestLimit) ? study.highestLimit.value : null;
  return {
    ok: true,
    site: {
      plan,
      habits,
      lines,
      rests,
      presumed: presumedOf(job, cars, points),
      fuseRatingA,
      ungoverned,
      isManagerImagined: job.limiter === null,
      limit: study.limit,
      highestLimitA,
      misplaced,
    },
  };
}

function presumedOf(
  { limiter }: Study["job"],
  cars: readonly Car[],
  points: readonly PointPlan[],
): readonly Presumption[] {
  const isUnknown = (fact: { readonly state: string } | undefined): boolean => fact?.state !== "known";
  const linesOf = (car: Car): number => points.find(({ id }) => id === car.chargePoint)?.lines.length ?? 1;
  const presumed: readonly (readonly [Presumption, boolean])[] = [
    ["direct-law", isUnknown(limiter?.law)],
    ["equal-sharing", points.length > 1 && isUnknown(limiter?.sharing)],
    ["car-on-every-line", cars.some((car) => linesOf(car) > 1 && isUnknown(factOf(car, "lineCount")))],
  ];
  return presumed.flatMap(([presumption, isSo]) => (isSo ? [presumption] : []));
}

const misplacedIn = ({ job, tree, lines }: Study): readonly string[] =>
  job.metering === null
    ? []
    : designedPlaces(job, tree, lines).flatMap((place) =>
        place.transformer === null || isDesignedWhole(place) ? [] : [place.transformer],
      );

const unique = (missing: readonly Missing[]): readonly Missing[] => [
  ...new Map(missing.map((item) => [item.path, item])).values(),
];

function controlOf({ job: { limiter }, limit, figures }: Study, choices: Choices): ControlSettings {
  const facts = limiter ?? undefined;
  const law = facts?.law.state === "known" ? facts.law.value : "direct";
  return {
    limitA: choices.take(limit),
    marginA: 0,
    law: law === "direct" ? { kind: law } : { kind: law, gain: choices.figure("integratingGain") },
    averageS: choices.fact(facts?.averageS, "averageS"),
    readEveryS: choices.fact(facts?.readEveryS, "readEveryS"),
    decideEveryS: choices.fact(facts?.decideEveryS, "decideEveryS"),
    commandS: choices.fact(facts?.commandS, "commandS"),
    minOfferA: choices.take(figures("minOffer")),
    offerStepA: choices.figure("offerStepA"),
    riseHoldS: choices.fact(facts?.riseHoldS, "riseHoldS"),
    riseStepA: Number.POSITIVE_INFINITY,
    resumeExtraA: choices.figure("resumeExtraA"),
    resumeHoldS: choices.figure("resumeHoldS"),
    minimumOffS: choices.fact(facts?.minimumOffS, "minimumOffS"),
    fallbackA: facts?.fallbackA.state === "known" ? choices.take(given(facts.fallbackA, "If")) : null,
    fallbackAfterS: choices.fact(facts?.fallbackAfterS, "fallbackAfterS"),
    sharing: facts?.sharing.state === "known" ? facts.sharing.value : "equal",
    turnS: choices.figure("sharingTurnS"),
  };
}

type Car = Located<Job["cars"][number]> | { readonly id: string; readonly chargePoint: string };

/** The cars of the job, and one about which nothing is known for a charge point without any. */
function carsOf({ job, circuits }: Study, points: readonly PointPlan[]): readonly Car[] {
  const labelOf = (id: string): string => circuits.find(({ point }) => point.id === id)?.point.label ?? id;
  const without = points.filter(({ id }) => job.cars.every(({ chargePoint }) => chargePoint !== id));
  return [...job.cars, ...without.map(({ id }) => ({ id: `a car at ${labelOf(id)}`, chargePoint: id }))];
}

const factOf = <K extends keyof Located<Job["cars"][number]>>(car: Car, name: K) =>
  name in car ? (car as Located<Job["cars"][number]>)[name] : undefined;

function carPlan(car: Car, points: readonly PointPlan[], choices: Choices): CarPlan {
  const index = points.findIndex(({ id }) => id === car.chargePoint);
  const lineCount = factOf(car, "lineCount");
  const battery = choices.fact(factOf(car, "batteryKwh"), "carBatteryKwh");
  return {
    id: car.id,
    point: index,
    onboardA: choices.fact(factOf(car, "onboardA"), "carOnboardA"),
    lineCount: lineCount?.state === "known" ? lineCount.value : (points[index]?.lines.length ?? 1),
    response: {
      deadS: choices.figure("carDeadS"),
      fallAPerS: choices.figure("carFallAPerS"),
      riseAPerS: choices.figure("carRiseAPerS"),
      resumeS: choices.figure("carResumeS"),
    },
    taperKwh: battery * choices.figure("carTaperShare"),
  };
}

function habitOf(car: Car, study: Study, choices: Choices): CarHabit {
  const clock = (name: "arrives" | "leaves", otherwise: SimulationFigure): number => {
    const fact = factOf(car, name);
    if (fact?.state !== "known") return choices.figure(otherwise) * HOUR_S;
    const [hours = 0, minutes = 0] = fact.value.split(":").map(Number);
    return hours * HOUR_S + minutes * 60;
  };
  const delay = study.circuits.find(({ point }) => point.id === car.chargePoint)?.point.smart
    .randomDelayDefaultS;
  return {
    chargesPerWeek: choices.fact(factOf(car, "chargesPerWeek"), "carChargesPerWeek"),
    arrivesS: clock("arrives", "carArrivesH"),
    arrivesSpreadS: choices.figure("carArrivesSpreadH") * HOUR_S,
    leavesS: clock("leaves", "carLeavesH"),
    leavesSpreadS: choices.figure("carLeavesSpreadH") * HOUR_S,
    medianKwh: choices.fact(factOf(car, "sessionKwh"), "carSessionKwh"),
    energySpread: choices.figure("carSessionSpread"),
    mostKwh: choices.fact(factOf(car, "batteryKwh"), "carBatteryKwh"),
    randomDelayS:
      delay?.state === "known"
        ? choices.take(given(delay, "tr"))
        : choices.take(study.figures("randomDelayDefaultS")),
  };
}
