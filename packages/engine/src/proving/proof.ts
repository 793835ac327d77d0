import { LINES, type Line } from "../quantities/index.ts";
import { type Diagnosis, gainOf, readingsUnder } from "./diagnose.ts";
import type { Hypothesis } from "./hypotheses.ts";
import { Likelihood, USUAL_LOAD } from "./likelihood.ts";
import type { ObservationModel } from "./observation-model.ts";
import type { PossibleFault } from "./possible-faults.ts";

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
  /** For the ratio: bounds of gain over all that the readings leave possible. [1] */
  readonly gain: readonly [number, number] | null;
}

export interface Proof {
  /** Mark of the chain it was given for; another mark means that the chain has changed and the proof has expired. */
  readonly mark: string;
  /** False where the readings name another chain than the job's. */
  readonly isOfThisChain: boolean;
  readonly properties: readonly ProvedProperty[];
  readonly isComplete: boolean;
  /** Largest deviation of the ratio that still counts as proved. [1] */
  readonly ratioTolerance: number;
}

/** A fault is ruled out when the readings are this many times likelier without it. Own judgement. */
const RULED_OUT = 100;
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
  const properties = LINES.slice(0, n).flatMap((channel, c) =>
    PROPERTIES.map((property): ProvedProperty => {
      const breaks = possible.find((hypothesis, index) =>
        property === "ratio"
          ? isOff(gains[index]?.[c] ?? [0, 0])
          : isRelevant(hypothesis, diagnosis) && BROKEN[property](hypothesis.model, hypothesis, n, c),
      );
      const bounds = gains.map((item) => item[c] as readonly [number, number]);
      return {
        property,
        channel,
        isProved: breaks === undefined && !isUnexplained,
        stands: breaks?.faults ?? null,
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
    properties,
    isComplete: isOfThisChain && properties.every(({ isProved }) => isProved),
    ratioTolerance: RATIO_TOLERANCE,
  };
}

/** A number read without its sign harms only where power can flow back. */
const isRelevant = ({ decoding }: Hypothesis, { design }: Diagnosis): boolean =>
  decoding?.id !== "F59" || design.hasGeneration;

const isOff = ([low, high]: readonly [number, number]): boolean =>
  low < 1 - RATIO_TOLERANCE || high > 1 + RATIO_TOLERANCE;

type Breaks = (model: ObservationModel, hypothesis: Hypothesis, lines: number, c: number) => boolean;

const size = (re: readonly number[], im: readonly number[], at: number): number =>
  Math.hypot(re[at] as number, im[at] as number);
const SMALL = 0.02;

const BROKEN: Readonly<Record<Exclude<Property, "ratio">, Breaks>> = {
  "own-line": ({ qRe, qIm, fRe, fIm }, _, n, c) =>
    Array.from({ length: n }, (_unused, k) => k).some(
      (k) => k !== c && (size(qRe, qIm, c * n + k) > SMALL || size(fRe, fIm, c * n + k) > SMALL),
    ),
  direction: ({ mRe, eRe, mIm, eIm }, _, n, c) => {
    const at = c * n + c;
    const part = size(mRe, mIm, at) >= size(eRe, eIm, at) ? mRe : eRe;
    return (part[at] as number) < SMALL;
  },
  "sees-building": ({ qRe, qIm, hidesLoad }, _, n, c) => hidesLoad || size(qRe, qIm, c * n + c) < SMALL,
  "sees-charge-point": ({ fRe, fIm }, { faults }, n, c) =>
    size(fRe, fIm, c * n + c) < SMALL && !faults.some(({ fault }) => fault.id === "F65"),
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
  return LINES.slice(0, n).map((_, c) => {
    const { qRe, qIm } = hypothesis.model;
    const nominal = Math.max(gainOf(hypothesis.model, n, c), size(qRe, qIm, c * n + c));
    const at = 2 * n + 1 + c;
    const mean = likelihood.state[at] as number;
    const sd = Math.sqrt(likelihood.covariance[at * likelihood.size + at] as number);
    return [nominal * (1 + mean - 2 * sd), nominal * (1 + mean + 2 * sd)];
  });
}
