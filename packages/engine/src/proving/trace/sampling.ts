import type { Line } from "../../quantities/index.ts";

/** How a line was sampled. */
export interface Sampling {
  readonly line: Line;
  readonly valueCount: number;
  readonly missingCount: number;
  /** Values below zero: power fed back, or a transformer the wrong way round. */
  readonly negativeCount: number;
  /** Values of the charge points well above the supply's own at the same moment: generation, or a wrong recording. */
  readonly carAboveCount: number;
  readonly peakA: number;
  /** Largest current fed back; 0 where none was. [A] */
  readonly mostBackA: number;
  /** Longest time without a value, and where it begins. [s] */
  readonly longestStepS: number;
  readonly longestStepAtS: number;
}

/** By how much a car's current may seem above the supply's for their meters' errors. Own judgement. [A], [1] */
const CLOSE_A = 2;
const CLOSE_SHARE = 0.05;

/** How one line of a trace was sampled, the ends of the trace counted. */
export function samplingOf(
  line: Line,
  timesS: Float64Array,
  currentA: Float64Array,
  carA?: Float64Array,
): Sampling {
  let carAboveCount = 0;
  let [valueCount, negativeCount, peakA, mostBackA] = [0, 0, Number.NEGATIVE_INFINITY, 0];
  let lastS = timesS[0] as number;
  let [longestStepS, longestStepAtS] = [0, lastS];
  for (let i = 0; i < timesS.length; i++) {
    const value = currentA[i] as number;
    const isMissing = Number.isNaN(value);
    if (isMissing && i < timesS.length - 1) continue;
    const timeS = timesS[i] as number;
    if (timeS - lastS > longestStepS) {
      longestStepS = timeS - lastS;
      longestStepAtS = lastS;
    }
    lastS = timeS;
    if (isMissing) continue;
    valueCount++;
    if (value < 0) negativeCount++;
    const car = carA?.[i] ?? Number.NaN;
    if (value >= 0 && car - value > CLOSE_A + CLOSE_SHARE * car) carAboveCount++;
    if (-value > mostBackA) mostBackA = -value;
    if (value > peakA) peakA = value;
  }
  return {
    line,
    valueCount,
    missingCount: timesS.length - valueCount,
    negativeCount,
    carAboveCount,
    peakA,
    mostBackA,
    longestStepS,
    longestStepAtS,
  };
}
