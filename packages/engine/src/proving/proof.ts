import type { Line } from "../quantities/index.ts";
import { RULED_OUT } from "./alike.ts";
import type { DesignedPlace } from "./designed-place.ts";
import { type Diagnosis, gainOf, twoSigma } from "./diagnose.ts";
import type { Hypothesis } from "./hypotheses.ts";
import { Likelihood } from "./likelihood.ts";
import { USUAL_LOAD } from "./load-scale.ts";
import type { ObservationModel } from "./observation-model.ts";
import type { PossibleFault } from "./possible-faults.ts";
import { readingsUnder } from "./weigh.ts";

/** What a proof of the metering chain is made of, line by line. */
export const PROPERTIES = [
  "own-line",
  "direction",
  "sees-building",
  "sees-charge-point",
  "ratio",
  "decoding",
] as const;
export type Property = (typeof PROPERTIES)[number];

/** One property of one channel: proved, or what still stands in the way. */
export interface ProvedProperty {
  readonly property: Property;
  readonly channel: Line;
  readonly isProved: boolean;
  /** Where it is not proved: the commonest fault that the readings do not rule out; null for something unknown. */
  readonly stands: readonly PossibleFault[] | null;
  /** What the transformer misses by the design, where that alone keeps the property from being proved. */
  readonly missedByDesign: readonly string[];
  /** True where no reading can prove it: one transformer on a supply of several lines shows none of the others. */
  readonly isBeyondReadings: boolean;
  /** For the ratio: bounds of gain over all that the readings leave possible. [1] */
  readonly gain: readonly [number, number] | null;
}

export interface Proof {
  /** Mark of the chain it was given for; another mark means that the chain has changed and the proof has expired. */
  readonly mark: string;
  /** False where the readings name another chain than the job's. */
  readonly isOfThisChain: boolean;
  /** Lines of the chain's channels, for the names of faults. */
  readonly channels: readonly Line[];
  readonly properties: readonly ProvedProperty[];
  readonly isComplete: boolean;
  /** Largest deviation of the ratio that still counts as proved. [1] */
  readonly ratioTolerance: number;
}

/** Active power shown as a thousandth of what it is. */
const THOUSANDTH: readonly PossibleFault[] = [
  { fault: { id: "F60", quantity: "P", exponent: -3 }, weight: 1 },
];

/** A ratio is proved when it lies within this of 1 under everything left possible. Own judgement. */
export const RATIO_TOLERANCE = 0.1;

/**
 * What the readings prove of the chain.
 *
 * A property is proved when every fault and every pair of faults that would break it makes the readings
 * at least a hundred times less likely than the best explanation. How rare a fault is plays no part: a
 * proof rests on readings, not on habit.
 */
export function proofOf(diagnosis: Diagnosis): Proof {
  const { evidence, weighing, mark, readings, somethingElse } = diagnosis;
  const n = evidence.lines;
  const members = weighing.classes.flatMap((group) => group.members);
  const best = Math.max(...members.map(({ logLikelihood }) => logLikelihood));
  const possible = members
    .filter(({ logLikelihood }) => logLikelihood > best - Math.log(RULED_OUT))
    .sort((a, b) => b.probability - a.probability)
    .map(({ hypothesis }) => hypothesis);
  const isUnexplained = possible.length === 0 || somethingElse > 0.05 || weighing.isRestless;
  const likelihood = new Likelihood(evidence, USUAL_LOAD);
  const gains = possible.map((hypothesis) => gainBounds(hypothesis, diagnosis, likelihood));
  const properties = diagnosis.design.channels.flatMap((channel, c) =>
    PROPERTIES.map((property): ProvedProperty => {
      const breaks = possible.find(
        (hypothesis, index) =>
          isRelevant(hypothesis, property, diagnosis) &&
          (property === "ratio"
            ? isOff(gains[index]?.[c] ?? [0, 0])
            : BROKEN[property](hypothesis.model, hypothesis, n, c)),
      );
      const bounds = possible.flatMap((hypothesis, index) =>
        isRelevant(hypothesis, "ratio", diagnosis) ? [gains[index]?.[c] as readonly [number, number]] : [],
      );
      const missedByDesign = coverageMissed(property, diagnosis.design.places[c]);
      // What was typed shows a wrong unit; only what was taken for it does not.
      const isBeyondReadings = property === "own-line" && diagnosis.design.isOnThreePhaseSupply;
      const misread = property === "decoding" && diagnosis.isTakenAsKilowatts ? THOUSANDTH : null;
      return {
        property,
        channel,
        missedByDesign,
        isBeyondReadings,
        isProved:
          breaks === undefined &&
          misread === null &&
          !isUnexplained &&
          !isBeyondReadings &&
          missedByDesign.length === 0,
        stands: breaks?.faults ?? misread,
        gain:
          property === "ratio" && bounds.length > 0
            ? [Math.min(...bounds.map(([low]) => low)), Math.max(...bounds.map(([, high]) => high))]
            : null,
      };
    }),
  );
  const isOfThisChain = readings.chain === undefined || readings.chain === mark;
  return {
    mark,
    isOfThisChain,
    channels: diagnosis.design.channels,
    properties,
    isComplete: isOfThisChain && properties.every(({ isProved }) => isProved),
    ratioTolerance: RATIO_TOLERANCE,
  };
}

/**
 * What keeps a claim of coverage from being proved whatever was read: a transformer that by the design does not
 * carry all of it. A reading shows what was on at the time, never what is not on its way.
 */
function coverageMissed(property: Property, place: DesignedPlace | undefined): readonly string[] {
  if (place === undefined) return [];
  if (property === "sees-building" && place.seesBuilding !== "all") return place.misses;
  if (property === "sees-charge-point" && place.seesChargePoint !== "all") return place.misses;
  return [];
}

/**
 * Whether a hypothesis could break a property at all here: a sign lost in decoding harms only where power
 * can flow back, and a scale only of what was read. A loose terminal that held during the test shows
 * nothing; no reading can rule it out, so the ratio is proved as it stood.
 */
function isRelevant(
  { decoding, model }: Hypothesis,
  property: Property,
  { design, evidence }: Diagnosis,
): boolean {
  if (property === "ratio" && model.loose.length > 0) return false;
  if (decoding?.id === "F59") return design.hasGeneration;
  if (decoding?.id !== "F60" || decoding.quantity === "all") return true;
  const { quantity } = decoding;
  const isRead = (value: number): boolean => !Number.isNaN(value);
  return evidence.steps.some(
    (step) =>
      step[quantity].some(isRead) ||
      (quantity === "P" && isRead(step.totalP)) ||
      (quantity === "Q" && isRead(step.totalQ)),
  );
}

const isOff = ([low, high]: readonly [number, number]): boolean =>
  low < 1 - RATIO_TOLERANCE || high > 1 + RATIO_TOLERANCE;

type Breaks = (model: ObservationModel, hypothesis: Hypothesis, lines: number, c: number) => boolean;

const size = (re: readonly number[], im: readonly number[], at: number): number =>
  Math.hypot(re[at] as number, im[at] as number);
/** Share of a channel's largest coefficient below which it sees nothing of something. [1] */
const SMALL = 0.02;

/** Largest coefficient of a channel's current, for whatever it sees most of. */
const largest = ({ qRe, qIm, fRe, fIm }: ObservationModel, n: number, c: number): number =>
  Math.max(
    ...Array.from({ length: n }, (_, k) => Math.max(size(qRe, qIm, c * n + k), size(fRe, fIm, c * n + k))),
  );

const sees = (
  model: ObservationModel,
  re: readonly number[],
  im: readonly number[],
  n: number,
  c: number,
  k: number,
): boolean => {
  const most = largest(model, n, c);
  return most > 0 && size(re, im, c * n + k) > SMALL * most;
};

const BROKEN: Readonly<Record<Exclude<Property, "ratio">, Breaks>> = {
  // Lines are named by the car: labels exchanged at meter and charge point alike change nothing.
  "own-line": (model, _, n, c) => {
    const { qRe, qIm, fRe, fIm } = model;
    const others = Array.from({ length: n }, (_unused, k) => k).filter((k) => k !== c);
    const seesCar = Array.from({ length: n }, (_unused, k) => sees(model, fRe, fIm, n, c, k)).some(Boolean);
    const [re, im] = seesCar ? [fRe, fIm] : [qRe, qIm];
    return others.some((k) => sees(model, re, im, n, c, k));
  },
  direction: (model, _, n, c) => {
    const { mRe, eRe, mIm, eIm } = model;
    const at = c * n + c;
    const part = size(eRe, eIm, at) > 0 ? eRe : mRe;
    return (part[at] as number) <= 0 && (size(mRe, mIm, at) > 0 || size(eRe, eIm, at) > 0);
  },
  "sees-building": (model, _, n, c) => {
    const any = Array.from({ length: n }, (_unused, k) => sees(model, model.qRe, model.qIm, n, c, k)).some(
      Boolean,
    );
    return model.hidesLoad || !any;
  },
  "sees-charge-point": (model, { faults }, n, c) =>
    !sees(model, model.fRe, model.fIm, n, c, c) && !faults.some(({ fault }) => fault.id === "F65"),
  decoding: ({ sumsCurrents }, { decoding }) => sumsCurrents || decoding !== null,
};

/** Per channel, current shown over current carried, k = 2, under one hypothesis and these readings. */
function gainBounds(
  hypothesis: Hypothesis,
  { evidence }: Diagnosis,
  likelihood: Likelihood,
): readonly (readonly [number, number])[] {
  const n = evidence.lines;
  likelihood.of(hypothesis.model, readingsUnder(hypothesis, evidence));
  const { decoding } = hypothesis;
  const scale =
    decoding?.id === "F60" && ["P", "all"].includes(decoding.quantity) ? 10 ** decoding.exponent : 1;
  return Array.from({ length: n }, (_, c) => {
    const nominal = scale * gainOf(hypothesis.model, n, c);
    const [low, high] = twoSigma(likelihood.gainError(c));
    return [nominal * (1 + low), nominal * (1 + high)];
  });
}
