/**
 * What a recorded trace proves of a load manager, line by line.
 *
 * Three things are claimed of every line: that the supply comes back under the limit in the operator's
 * time; that after each loss the car falls to the fallback current in time and stays there; and that the
 * main fuse was not brought to the fast edge of its band. A time is known only between two values: a claim
 * is proved when it holds for the longest the time may have been, failed when it does not for the shortest,
 * and cannot be told in between.
 *
 * Whether the current transformers see the right lines is another proof: `proof.ts`.
 *
 * @module
 */
import type { Line } from "../../quantities/index.ts";
import { holds } from "../../worked/index.ts";
import { type Claim, type TraceVerdict, worstVerdict } from "./claim.ts";
import { type Excursion, excursionsOf, greatest } from "./excursion.ts";
import { type FallbackTrial, fallbackTrial } from "./fallback-trial.ts";
import { type FuseApproach, fuseApproach } from "./fuse-approach.ts";
import { type Recovery, recoveriesOf } from "./recovery.ts";
import { type Sampling, samplingOf } from "./sampling.ts";
import { LOSSES, type Loss, requireTrace, type Trace } from "./trace.ts";
import type { TraceBounds } from "./trace-bounds.ts";

/**
 * A car counts as down at the fallback within this share of the limit: what a clamp misreads of a small
 * current, and what a charge point draws for itself. Own judgement. [1]
 */
export const FALLBACK_SLACK = 0.01;

/** One line of a trace, judged. */
export interface JudgedLine {
  readonly line: Line;
  readonly verdict: TraceVerdict;
  readonly claims: readonly Claim[];
  /** Null where the line was not recorded. */
  readonly sampling: Sampling | null;
  readonly excursions: readonly Excursion[];
  readonly longest: Excursion | null;
  /** Most ampere-seconds above the limit. */
  readonly largest: Excursion | null;
  readonly recoveries: readonly Recovery[];
  readonly fallbacks: readonly FallbackTrial[];
  /** Nearest the main fuse was brought to the fast edge; null where no band is held or nothing was over. */
  readonly fuse: FuseApproach | null;
}

export interface JudgedTrace {
  readonly verdict: TraceVerdict;
  readonly lines: readonly JudgedLine[];
  readonly durationS: number;
  /** Lines recorded that the supply does not have. */
  readonly strayLines: readonly Line[];
  readonly bounds: TraceBounds;
}

/**
 * Judges a trace on every line of the supply.
 *
 * @throws EngineError OUT_OF_DOMAIN when the trace is not in order; see `requireTrace`.
 */
export function judgeTrace(trace: Trace, bounds: TraceBounds): JudgedTrace {
  requireTrace(trace);
  const lines = bounds.lines.map((line) => judgeLine(line, trace, bounds));
  const { timesS } = trace;
  return {
    verdict: worstVerdict(lines.map(({ verdict }) => verdict)),
    lines,
    durationS: (timesS.at(-1) as number) - (timesS[0] as number),
    strayLines: (Object.keys(trace.supplyA) as Line[]).filter((line) => !bounds.lines.includes(line)),
    bounds,
  };
}

function judgeLine(line: Line, trace: Trace, bounds: TraceBounds): JudgedLine {
  const { timesS, events } = trace;
  const currentA = trace.supplyA[line];
  const carA = trace.carA?.[line] ?? null;
  const sampling = currentA === undefined ? null : samplingOf(line, timesS, currentA, carA ?? undefined);
  const trials = fallbacksOf(line, carA, trace, bounds);
  const losses = LOSSES.map((loss) => lossClaim(loss, line, trials, bounds));
  if (currentA === undefined || sampling === null || sampling.valueCount === 0) {
    const claims = [claim("trace", "cannot-tell", "lineNotRecorded"), ...losses];
    return {
      line,
      claims,
      verdict: worstVerdict(claims.map(({ verdict }) => verdict)),
      sampling,
      excursions: [],
      longest: null,
      largest: null,
      recoveries: [],
      fallbacks: trials,
      fuse: null,
    };
  }
  const recorded = { timesS, currentA, carA };
  const excursions = bounds.limitA === null ? [] : excursionsOf(recorded, bounds.limitA);
  const recoveries = recoveriesOf(excursions, events, bounds.typicalS ?? 0);
  const approaches = fuseApproaches(recorded, recoveries, bounds);
  const fuse = greatest(approaches, ({ share }) => share[1]);
  const claims = [
    ...standing(sampling, bounds),
    reactionClaim(recoveries, sampling, bounds),
    ...losses,
    fuseClaim(approaches, sampling, bounds),
  ];
  return {
    line,
    verdict: worstVerdict(claims.map(({ verdict }) => verdict)),
    claims,
    sampling,
    excursions,
    longest: greatest(excursions, ({ heldS }) => heldS),
    largest: greatest(excursions, ({ overAs }) => overAs),
    recoveries,
    fallbacks: trials,
    fuse,
  };
}

const claim = (
  id: Claim["claim"],
  verdict: TraceVerdict,
  reason: Claim["reason"],
  data: Claim["data"] = {},
): Claim => ({ claim: id, verdict, reason, data });

/** What stands in the way of proving anything on a line, whatever happened on it. */
function standing(
  { longestStepS, longestStepAtS }: Sampling,
  { limitA, isLimitSet, longestS }: TraceBounds,
): readonly Claim[] {
  return [
    ...(limitA !== null && !isLimitSet ? [claim("trace", "cannot-tell", "limitNotSet", { limitA })] : []),
    ...(longestS !== null && !holds(longestStepS, "<=", longestS)
      ? [
          claim("trace", "cannot-tell", "unseen", {
            atS: longestStepAtS,
            stepS: longestStepS,
            longestS,
          }),
        ]
      : []),
  ];
}

/** The slowest recovery decides; a failure before a doubt, a doubt before a proof. */
function reactionClaim(
  recoveries: readonly Recovery[],
  { peakA, longestStepS: stepS }: Sampling,
  { limitA, typicalS, longestS }: TraceBounds,
): Claim {
  if (limitA === null) return claim("reaction", "cannot-tell", "limitNotKnown");
  if (typicalS === null || longestS === null) return claim("reaction", "cannot-tell", "figuresNotKnown");
  const worst = greatest(recoveries, ({ lengthS }) => lengthS[0]);
  if (worst === null) return claim("reaction", "cannot-tell", "neverOver", { limitA, peakA });
  const dataOf = ({ lengthS: [leastS, mostS], startS, withoutCarS, excursions }: Recovery) => ({
    startS,
    leastS,
    ...(Number.isFinite(mostS) ? { mostS } : {}),
    withoutCarS,
    excursionCount: excursions.length,
    typicalS,
    longestS,
    stepS,
  });
  if (!holds(worst.lengthS[0], "<=", longestS)) {
    const isOneTooLong = worst.excursions.some(({ lengthS }) => !holds(lengthS[0], "<=", longestS));
    const isAlone = !holds(worst.withoutCarS, "<=", longestS);
    const reason = isAlone ? "tooSlowWithoutCar" : isOneTooLong ? "tooSlow" : "hunts";
    return claim("reaction", "failed", reason, dataOf(worst));
  }
  const doubtful = greatest(recoveries, ({ lengthS }) => lengthS[1]) as Recovery;
  if (!holds(doubtful.lengthS[1], "<=", longestS)) {
    const reason = doubtful.isUnfinished ? "unfinished" : doubtful.beganBefore ? "beganBefore" : "tooCoarse";
    return claim("reaction", "cannot-tell", reason, dataOf(doubtful));
  }
  if (holds(doubtful.lengthS[1], "<=", typicalS))
    return claim("reaction", "proved", "quick", dataOf(doubtful));
  if (!holds(worst.lengthS[0], "<=", typicalS)) return claim("reaction", "proved", "slow", dataOf(worst));
  return claim("reaction", "proved", "withinLongest", dataOf(doubtful));
}

/** Highest current on a line that counts as the fallback; null while limit or fallback is not known. [A] */
function allowedOn(line: Line, { limitA, fallbackA, pointCount }: TraceBounds): number | null {
  if (limitA === null || fallbackA === null) return null;
  return (pointCount[line] ?? 0) * fallbackA + FALLBACK_SLACK * limitA;
}

function fallbacksOf(
  line: Line,
  carA: Float64Array | null,
  { timesS, events }: Trace,
  bounds: TraceBounds,
): readonly FallbackTrial[] {
  const currentA = allowedOn(line, bounds);
  const timeOutS = bounds.timeOutS ?? bounds.longestS;
  if (currentA === null || timeOutS === null || !bounds.pointCount[line]) return [];
  return events.flatMap(({ what }, index) =>
    isLoss(what) ? [fallbackTrial({ timesS, carA, events }, index, { currentA, timeOutS })] : [],
  );
}

const isLoss = (what: string): what is Loss => (LOSSES as readonly string[]).includes(what);

/** How each outcome of a trial is judged. */
const OUTCOMES: Readonly<Record<FallbackTrial["outcome"], readonly [TraceVerdict, Claim["reason"]]>> = {
  late: ["failed", "fallbackLate"],
  never: ["failed", "fallbackNever"],
  rose: ["failed", "fallbackRose"],
  held: ["proved", "fallbackHeld"],
  coarse: ["cannot-tell", "fallbackTooCoarse"],
  short: ["cannot-tell", "watchedTooShort"],
  "not-drawing": ["cannot-tell", "notDrawing"],
  "not-recorded": ["cannot-tell", "carNotRecorded"],
};

/** One loss on one line: a failed trial fails it; failing that one that held proves it. */
function lossClaim(loss: Loss, line: Line, all: readonly FallbackTrial[], bounds: TraceBounds): Claim {
  if (!bounds.pointCount[line]) return claim(loss, "not-applicable", "noCarHere");
  if (bounds.limitA === null) return claim(loss, "cannot-tell", "limitNotKnown");
  const allowedA = allowedOn(line, bounds);
  if (allowedA === null) return claim(loss, "cannot-tell", "fallbackNotSet");
  const timeOutS = bounds.timeOutS ?? bounds.longestS;
  if (timeOutS === null) return claim(loss, "cannot-tell", "figuresNotKnown");
  const trials = all.filter(({ what }) => what === loss);
  const [trial] = ["failed", "proved", "cannot-tell"].flatMap((verdict) =>
    trials.filter(({ outcome }) => OUTCOMES[outcome][0] === verdict),
  );
  if (trial === undefined) return claim(loss, "cannot-tell", "notTried");
  const [verdict, reason] = OUTCOMES[trial.outcome];
  const data = {
    atS: trial.atS,
    untilS: trial.untilS,
    allowedA,
    timeOutS,
    ...(Number.isNaN(trial.drawnA) ? {} : { drawnA: trial.drawnA }),
    ...(trial.fellS === null ? {} : { leastS: trial.fellS[0], mostS: trial.fellS[1] }),
    ...(Number.isNaN(trial.afterA) ? {} : { afterA: trial.afterA }),
    ...(trial.rose === null ? {} : { roseAtS: trial.rose.atS, roseA: trial.rose.currentA }),
  };
  return bounds.timeOutS === null && verdict !== "failed" && isDown(trial)
    ? claim(loss, "cannot-tell", "noTimeOut", data)
    : claim(loss, verdict, reason, data);
}

/** Whether a trial had something to fall and saw it down: then only the time-out is still to be compared. */
const isDown = ({ outcome, fellS }: FallbackTrial): boolean =>
  fellS !== null && (outcome === "held" || outcome === "coarse" || outcome === "short");

/** Each recovery's approach to the fast edge: its excursions' shares added, the nearest one's rms shown. */
function fuseApproaches(
  recorded: { readonly timesS: Float64Array; readonly currentA: Float64Array },
  recoveries: readonly Recovery[],
  { limitA, fuseBand }: TraceBounds,
): readonly FuseApproach[] {
  if (fuseBand === null) return [];
  const firstGateA = fuseBand.fast[0]?.[0] ?? 0;
  // A limit unknown, or set above what the fuse carries for ever, leaves the fuse its own excursions.
  const groups =
    limitA !== null && limitA <= firstGateA
      ? recoveries.map(({ excursions }) => excursions)
      : excursionsOf({ ...recorded, carA: null }, firstGateA).map((excursion) => [excursion]);
  return groups.map((excursions) => {
    const approaches = excursions.map((excursion) => fuseApproach(recorded, excursion, fuseBand));
    const nearest = greatest(approaches, ({ share }) => share[1]) as FuseApproach;
    const sum = (end: 0 | 1): number => approaches.reduce((total, { share }) => total + share[end], 0);
    return { ...nearest, share: [sum(0), sum(1)] };
  });
}

function fuseClaim(
  approaches: readonly FuseApproach[],
  { peakA, mostBackA }: Sampling,
  { fuseRatingA, fuseBand }: TraceBounds,
): Claim {
  if (fuseRatingA === null) return claim("main-fuse", "cannot-tell", "fuseNotKnown");
  // A fuse does not ask which way the current flows; excursions are counted one way only.
  if (!holds(mostBackA, "<=", fuseRatingA))
    return claim("main-fuse", "cannot-tell", "fedBack", { mostBackA, fuseRatingA });
  if (holds(peakA, "<=", fuseRatingA))
    return claim("main-fuse", "proved", "withinRating", { peakA, fuseRatingA });
  if (fuseBand === null) return claim("main-fuse", "cannot-tell", "noBand", { peakA, fuseRatingA });
  const nearest = greatest(approaches, ({ share }) => share[1]);
  const hardest = greatest(approaches, ({ share }) => share[0]);
  if (nearest === null || hardest === null)
    return claim("main-fuse", "proved", "awayFromEdge", { peakA, fuseRatingA, usedShare: 0 });
  const dataOf = ({ startS, rmsA, heldS, share }: FuseApproach, end: 0 | 1) => ({
    startS,
    rmsA,
    heldS,
    peakA,
    fuseRatingA,
    ...(Number.isFinite(share[end]) ? { usedShare: share[end] } : {}),
  });
  if (hardest.share[0] >= 1) return claim("main-fuse", "failed", "edgeReached", dataOf(hardest, 0));
  if (nearest.share[1] >= 1) return claim("main-fuse", "cannot-tell", "edgePerhaps", dataOf(nearest, 1));
  return claim("main-fuse", "proved", "awayFromEdge", dataOf(nearest, 1));
}
