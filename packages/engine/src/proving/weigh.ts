import { type AlikeHypotheses, alikeClasses, type Weighed } from "./alike.ts";
import type { Evidence } from "./evidence.ts";
import { type Hypothesis, PRIOR } from "./hypotheses.ts";
import { Likelihood } from "./likelihood.ts";
import { type LoadScale, QUIET_LOAD, RESTLESS_LOAD, SMALL_LOAD, USUAL_LOAD } from "./load-scale.ts";
import type { ObservationModel } from "./observation-model.ts";
import { isShowable, type UndoneEvidence, withoutDecoding } from "./without-decoding.ts";

export interface Weighing {
  readonly classes: readonly AlikeHypotheses[];
  /** That none of the catalogue explains the readings. */
  readonly somethingElse: number;
  /** True where the building's own load moved so much between steps that little can be told. */
  readonly isRestless: boolean;
}

/** Weighs the readings against every hypothesis. */
export function weigh(all: readonly Hypothesis[], evidence: Evidence): Weighing {
  const usual = logLikelihoods(all, evidence, new Likelihood(evidence, USUAL_LOAD));
  const restlessBest = bestOf(all.slice(0, SINGLES_TO_TRY), evidence);
  const isRestless = restlessBest + Math.log(LOAD_SHARES.restless) > most(usual) + 2;
  const somethingElse = Math.log(PRIOR.other) + broadDensity(evidence);
  const { mixed, likeliest } = isRestless
    ? {
        mixed: logLikelihoods(all, evidence, new Likelihood(evidence, RESTLESS_LOAD)),
        likeliest: RESTLESS_LOAD,
      }
    : withOtherLoads(all, evidence, usual);
  const logPosterior = mixed.map((value, index) => value + (all[index] as Hypothesis).logPrior);
  const top = Math.max(somethingElse, most(logPosterior));
  const sum = logPosterior.reduce(
    (total, value) => total + Math.exp(value - top),
    Math.exp(somethingElse - top),
  );
  const weighed = all
    .map(
      (hypothesis, index): Weighed => ({
        hypothesis,
        logLikelihood: mixed[index] as number,
        probability: Math.exp((logPosterior[index] as number) - top) / sum,
      }),
    )
    .filter(({ probability }) => probability > NEGLIGIBLE)
    .sort((a, b) => b.probability - a.probability);
  return {
    classes: alikeClasses(weighed, {
      likelihood: new Likelihood(evidence, likeliest),
      readingsUnder: (hypothesis) => readingsUnder(hypothesis, evidence),
    }),
    somethingElse: Math.exp(somethingElse - top) / sum,
    isRestless,
  };
}

/** The readings as a hypothesis sees them: with its fault of decoding taken out. */
export function readingsUnder({ decoding }: Hypothesis, evidence: Evidence): Evidence {
  return decoding === null ? evidence : (withoutDecoding(evidence, decoding)?.evidence ?? evidence);
}

interface UnderOtherLoads {
  readonly mixed: Float64Array;
  /** The way that makes the likeliest hypothesis likeliest. */
  readonly likeliest: LoadScale;
}

/** A building may be quiet or small instead: all are mixed wherever a hypothesis still counts. */
function withOtherLoads(
  all: readonly Hypothesis[],
  evidence: Evidence,
  usual: Float64Array,
): UnderOtherLoads {
  const least = most(usual) - SLACK;
  const counts = (value: number): boolean => value > least;
  const counting = all.filter((_, index) => counts(usual[index] as number));
  const under = (scale: LoadScale): Float64Array =>
    logLikelihoods(counting, evidence, new Likelihood(evidence, scale));
  const quiet = under(QUIET_LOAD);
  const small = under(SMALL_LOAD);
  let at = 0;
  let leading = Number.NEGATIVE_INFINITY;
  let likeliest = USUAL_LOAD;
  const mixed = usual.map((value, index) => {
    if (!counts(value)) return Number.NEGATIVE_INFINITY;
    const others = [quiet[at] as number, small[at] as number] as const;
    at++;
    const larger = Math.max(value, ...others);
    if (larger + (all[index] as Hypothesis).logPrior > leading) {
      leading = larger + (all[index] as Hypothesis).logPrior;
      likeliest = larger === value ? USUAL_LOAD : larger === others[0] ? QUIET_LOAD : SMALL_LOAD;
    }
    return (
      larger +
      Math.log(
        LOAD_SHARES.usual * Math.exp(value - larger) +
          LOAD_SHARES.quiet * Math.exp(others[0] - larger) +
          LOAD_SHARES.small * Math.exp(others[1] - larger),
      )
    );
  });
  return { mixed, likeliest };
}

/** How often a building's own load moves between steps as each scale says. Own judgement. */
const LOAD_SHARES = { quiet: 0.3, small: 0.3, usual: 0.3, restless: 0.1 };
/** A hypothesis this far behind the best, as a logarithm, no longer counts. */
const SLACK = 16;
/** The likeliest in the end may be as far behind another on the way, as a logarithm. */
const CATCH_UP = 8;
const SINGLES_TO_TRY = 250;
const NEGLIGIBLE = 1e-9;
function logLikelihoods(
  all: readonly Hypothesis[],
  evidence: Evidence,
  likelihood: Likelihood,
): Float64Array {
  const undone = new Map<Hypothesis["decoding"], UndoneEvidence | null>([[null, { evidence, logScale: 0 }]]);
  // A fault of decoding that changes none of these readings is weighed like the rest of its hypothesis.
  const unchanged = new Map<ObservationModel, number>();
  // How the likeliest so far got there: whoever falls far behind it on the way is given up.
  const course = new Float64Array(evidence.steps.length).fill(Number.NEGATIVE_INFINITY);
  const furthest = new Float64Array(course.length).fill(Number.NEGATIVE_INFINITY);
  let leading = Number.NEGATIVE_INFINITY;
  const floor = new Float64Array(course.length);
  const floorFor = (logPrior: number, logScale: number): Float64Array => {
    for (let s = 0; s < floor.length; s++)
      floor[s] =
        Math.max(course[s] as number, (furthest[s] as number) - CATCH_UP) -
        SLACK -
        logPrior -
        Math.max(0, (logScale * (s + 1)) / floor.length, logScale);
    return floor;
  };
  const isShown = evidence.steps.every((step) =>
    [...step.V, ...step.I, ...step.P, ...step.Q, step.totalP, step.totalQ].every(isShowable),
  );
  const logLikelihood = ({ model, idle, decoding, logPrior }: Hypothesis): number => {
    if (!isShown && decoding === null) return Number.NEGATIVE_INFINITY;
    let readings = undone.get(decoding);
    if (readings === undefined && decoding !== null) {
      readings = withoutDecoding(evidence, decoding);
      undone.set(decoding, readings);
    }
    if (readings === null || readings === undefined) return Number.NEGATIVE_INFINITY;
    const isUnchanged = readings.evidence === evidence;
    const known = isUnchanged ? unchanged.get(model) : undefined;
    if (known !== undefined) return known;
    const value = likelihood.of(model, readings.evidence, floorFor(logPrior, readings.logScale), idle);
    if (isUnchanged && decoding === null) unchanged.set(model, value);
    if (value === Number.NEGATIVE_INFINITY) return value;
    const total = value + readings.logScale + logPrior;
    const leads = total > leading;
    if (leads) leading = total;
    for (let s = 0; s < course.length; s++) {
      const soFar =
        (likelihood.cumulative[s] as number) + logPrior + (readings.logScale * (s + 1)) / course.length;
      if (leads) course[s] = soFar;
      if (soFar > (furthest[s] as number)) furthest[s] = soFar;
    }
    return value + readings.logScale;
  };
  const values = new Float64Array(all.length);
  for (let index = 0; index < all.length; index++) values[index] = logLikelihood(all[index] as Hypothesis);
  return values;
}

const bestOf = (some: readonly Hypothesis[], evidence: Evidence): number =>
  most(logLikelihoods(some, evidence, new Likelihood(evidence, RESTLESS_LOAD)));

const most = (values: Float64Array): number =>
  values.reduce((best, value) => Math.max(best, value), Number.NEGATIVE_INFINITY);

/** Density of the readings when nothing is known of them but their usual range. */
function broadDensity({ steps }: Evidence): number {
  let sum = 0;
  const add = (values: readonly number[], sd: number): void => {
    for (const value of values)
      if (!Number.isNaN(value)) sum -= 0.5 * (Math.log(2 * Math.PI * sd * sd) + (value / sd) ** 2);
  };
  for (const step of steps) {
    for (const value of step.V) if (!Number.isNaN(value)) sum -= Math.log(BROAD_V);
    add(step.P, 6000);
    add(step.Q, 4000);
    add(step.I, 25);
    if (step.P.some((value) => Number.isNaN(value))) {
      add([step.totalP], 10_000);
      add([step.totalQ], 6000);
    }
    add(step.clampA, 25);
  }
  return sum;
}

/** Voltages of anything on a board lie somewhere in this span. [V] */
const BROAD_V = 450;
