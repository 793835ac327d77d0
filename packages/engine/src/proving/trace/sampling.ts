import type { Line } from "../../quantities/index.ts";

/** How a line was sampled. */
export interface Sampling {
  readonly line: Line;
  readonly valueCount: number;
  readonly missingCount: number;
  /** Values below zero: power fed back, or a transformer the wrong way round. */
  readonly negativeCount: number;
  readonly peakA: number;
  /** Largest current fed back; 0 where none was. [A] */
  readonly mostBackA: number;
  /** Longest time without a value, and where it begins. [s] */
  readonly longestStepS: number;
  readonly longestStepAtS: number;
}

/** How one line of a trace was sampled, the ends of the trace counted. */
export function samplingOf(line: Line, timesS: Float64Array, currentA: Float64Array): Sampling {
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
    if (-value > mostBackA) mostBackA = -value;
    if (value > peakA) peakA = value;
  }
  return {
    line,
    valueCount,
    missingCount: timesS.length - valueCount,
    negativeCount,
    peakA,
    mostBackA,
    longestStepS,
    longestStepAtS,
  };
}
