import type { Evidence } from "./evidence.ts";
import type { Hypothesis } from "./hypotheses.ts";
import type { Likelihood } from "./likelihood.ts";
import { predictedEvidence } from "./predicted-evidence.ts";

export interface Weighed {
  readonly hypothesis: Hypothesis;
  /** Logarithm of the density of the readings. */
  readonly logLikelihood: number;
  /** Share of all that is possible, after the readings. */
  readonly probability: number;
}

/** Hypotheses these readings cannot part, the likeliest first. */
export interface AlikeHypotheses {
  readonly members: readonly Weighed[];
  readonly probability: number;
}

/** A fault is ruled out when the readings are this many times likelier without it. Own judgement. */
export const RULED_OUT = 100;
/** Coverage factor of an expanded uncertainty; about 95 % of a normal distribution. */
const COVERAGE = 2;
/**
 * Readings that make one of two hypotheses likelier by less than a factor of e say nothing worth a mention:
 * Kass and Raftery, Bayes factors, Journal of the American Statistical Association 90 (1995), recalled.
 */
const WORTH_MENTION = 1;
/** A class with less belief in its likeliest member than this is not looked into. */
const LOOKED_INTO = 0.05;

/** How two hypotheses are compared: the readings as a hypothesis sees them, and what weighs them. */
export interface Comparison {
  readonly likelihood: Likelihood;
  readonly readingsUnder: (hypothesis: Hypothesis) => Evidence;
}

/**
 * Gathers hypotheses, likeliest first, into classes that read like their likeliest member.
 *
 * Another hypothesis reads alike when the readings make neither likelier by a factor worth a mention; or
 * when it could have shown what the likeliest predicts for these steps within the errors of site and
 * instruments, expanded by k = 2, and the readings do not rule either out beside the other. The second
 * is physical: it asks what the two predict, not how the noise of the day happened to fall.
 */
export function alikeClasses(
  weighed: readonly Weighed[],
  comparison: Comparison,
): readonly AlikeHypotheses[] {
  const classes: AlikeHypotheses[] = [];
  let left = weighed;
  while (left.length > 0) {
    const [first] = left as readonly [Weighed, ...Weighed[]];
    const couldShow =
      first.probability < LOOKED_INTO ? () => false : whatCouldShow(first.hypothesis, comparison);
    const members: Weighed[] = [];
    const others: Weighed[] = [];
    for (const item of left) {
      const apart = Math.abs(item.logLikelihood - first.logLikelihood);
      const isAlike = apart <= WORTH_MENTION || (apart <= Math.log(RULED_OUT) && couldShow(item.hypothesis));
      (isAlike ? members : others).push(item);
    }
    classes.push({ members, probability: members.reduce((sum, { probability }) => sum + probability, 0) });
    left = others;
  }
  return classes.sort((a, b) => b.probability - a.probability);
}

/** Whether another hypothesis fits the first one's own predictions nearly as well as the first does. */
function whatCouldShow(
  first: Hypothesis,
  { likelihood, readingsUnder }: Comparison,
): (other: Hypothesis) => boolean {
  likelihood.of(first.model, readingsUnder(first));
  // A loose terminal predicts nothing for a given step, nor does a star point that drifts with every load.
  if (first.model.loose.length > 0 || first.model.adrift !== null) return () => false;
  const predicted = predictedEvidence(likelihood, first.model, readingsUnder(first));
  likelihood.of(first.model, predicted);
  const least = likelihood.misfit;
  return ({ model, decoding }) => {
    if (decoding !== first.decoding) return false;
    likelihood.of(model, predicted);
    return likelihood.misfit - least <= COVERAGE ** 2;
  };
}

/** Belief at which a diagnosis is given rather than "cannot tell". Own judgement. */
const TOLD = 0.9;

/**
 * Where a sound chain is among what reads alike, the likeliest is only told when it is twice as likely as all the
 * rest together: so a sound chain is, and so is what a design misses by itself, which is expected before any reading.
 */
const SOUND_SHARE = 2 / 3;

/** Whether a class is believed enough to be given as the diagnosis. */
export function isTold(top: AlikeHypotheses | undefined): boolean {
  const [first] = top?.members ?? [];
  if (top === undefined || first === undefined || top.probability < TOLD) return false;
  const mayBeSound = top.members.some(({ hypothesis }) => hypothesis.faults.length === 0);
  return !mayBeSound || first.probability >= SOUND_SHARE;
}
