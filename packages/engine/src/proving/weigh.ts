import { type Evidence, isShowable, type UndoneEvidence, withoutDecoding } from "./evidence.ts";
import { type Hypothesis, PRIOR } from "./hypotheses.ts";
import { Likelihood } from "./likelihood.ts";
import { type LoadScale, QUIET_LOAD, RESTLESS_LOAD, SMALL_LOAD, USUAL_LOAD } from "./load-scale.ts";

export interface Weighed {
  readonly hypothesis: Hypothesis;
  /** Logarithm of the density of the readings. */
  readonly logLikelihood: number;
  /** Share of all that is possible, after the readings. */
  readonly probability: number;
}

/** Hypotheses these readings cannot part, the likeliest first. */
interface AlikeHypotheses {
  readonly members: readonly Weighed[];
  readonly probability: number;
}

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
  const isRestless = restlessBest + Math.log(LOAD_SHARES.restless) > Math.max(...usual) + 2;
  const somethingElse = Math.log(PRIOR.other) + broadDensity(evidence);
  const chosen = isRestless
    ? logLikelihoods(all, evidence, new Likelihood(evidence, RESTLESS_LOAD))
    : withOtherLoads(all, evidence, usual);
  const logPosterior = chosen.map((value, index) => value + (all[index] as Hypothesis).logPrior);
  const most = Math.max(somethingElse, ...logPosterior);
  const sum = logPosterior.reduce(
    (total, value) => total + Math.exp(value - most),
    Math.exp(somethingElse - most),
  );
  const weighed = all
    .map(
      (item, index): Weighed => ({
        hypothesis: item,
        logLikelihood: chosen[index] as number,
        probability: Math.exp((logPosterior[index] as number) - most) / sum,
      }),
    )
    .filter(({ probability }) => probability > NEGLIGIBLE)
    .sort((a, b) => b.probability - a.probability);
  return {
    classes: alike(weighed),
    somethingElse: Math.exp(somethingElse - most) / sum,
    isRestless,
  };
}

/** A building may be quiet or small instead: all are mixed wherever a hypothesis still counts. */
function withOtherLoads(all: readonly Hypothesis[], evidence: Evidence, usual: Float64Array): Float64Array {
  const most = usual.reduce((best, value) => Math.max(best, value), Number.NEGATIVE_INFINITY);
  const counts = (value: number): boolean => value > most - SLACK;
  const counting = all.filter((_, index) => counts(usual[index] as number));
  const under = (scale: LoadScale): Float64Array =>
    logLikelihoods(counting, evidence, new Likelihood(evidence, scale));
  const quiet = under(QUIET_LOAD);
  const small = under(SMALL_LOAD);
  let at = 0;
  return usual.map((value) => {
    if (!counts(value)) return Number.NEGATIVE_INFINITY;
    const others = [quiet[at] as number, small[at] as number] as const;
    at++;
    const larger = Math.max(value, ...others);
    return (
      larger +
      Math.log(
        LOAD_SHARES.usual * Math.exp(value - larger) +
          LOAD_SHARES.quiet * Math.exp(others[0] - larger) +
          LOAD_SHARES.small * Math.exp(others[1] - larger),
      )
    );
  });
}

/** How often a building's own load moves between steps as each scale says. Own judgement. */
const LOAD_SHARES = { quiet: 0.3, small: 0.3, usual: 0.3, restless: 0.1 };
/** A hypothesis this far behind the best, as a logarithm, no longer counts. */
const SLACK = 16;
const SINGLES_TO_TRY = 250;
const NEGLIGIBLE = 1e-9;
/** Readings part two hypotheses when one makes them this many times likelier than the other, as a logarithm. */
const PARTED = 1;

function logLikelihoods(
  all: readonly Hypothesis[],
  evidence: Evidence,
  likelihood: Likelihood,
): Float64Array {
  const undone = new Map<Hypothesis["decoding"], UndoneEvidence | null>([[null, { evidence, logScale: 0 }]]);
  const best = new Float64Array(evidence.steps.length).fill(Number.NEGATIVE_INFINITY);
  const floor = new Float64Array(best.length);
  const isShown = evidence.steps.every((step) =>
    [...step.V, ...step.I, ...step.P, ...step.Q, step.totalP, step.totalQ].every(isShowable),
  );
  return Float64Array.from(all, ({ model, decoding, logPrior }) => {
    if (!isShown && decoding?.id !== "F58") return Number.NEGATIVE_INFINITY;
    let readings = undone.get(decoding);
    if (readings === undefined && decoding !== null) {
      readings = withoutDecoding(evidence, decoding);
      undone.set(decoding, readings);
    }
    if (readings === null || readings === undefined) return Number.NEGATIVE_INFINITY;
    // The change of scale belongs to the readings as they come; spread over the steps it prunes alike.
    const offset = logPrior + readings.logScale;
    for (let s = 0; s < floor.length; s++)
      floor[s] = (best[s] as number) - SLACK - Math.max(offset, logPrior);
    const value = likelihood.of(model, readings.evidence, floor);
    if (value > Number.NEGATIVE_INFINITY) {
      for (let s = 0; s < best.length; s++)
        best[s] = Math.max(
          best[s] as number,
          (likelihood.cumulative[s] as number) + Math.min(offset, logPrior),
        );
    }
    return value + readings.logScale;
  });
}

const bestOf = (some: readonly Hypothesis[], evidence: Evidence): number =>
  Math.max(...logLikelihoods(some, evidence, new Likelihood(evidence, RESTLESS_LOAD)));

/** Density of the readings when nothing is known of them but their usual range. */
function broadDensity({ steps }: Evidence): number {
  let sum = 0;
  const add = (values: readonly number[], sd: number): void => {
    for (const value of values)
      if (!Number.isNaN(value)) sum -= 0.5 * (Math.log(2 * Math.PI * sd * sd) + (value / sd) ** 2);
  };
  for (const step of steps) {
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

function alike(weighed: readonly Weighed[]): AlikeHypotheses[] {
  const classes: AlikeHypotheses[] = [];
  let left = weighed;
  while (left.length > 0) {
    const [first] = left as readonly [Weighed, ...Weighed[]];
    const isLike = (item: Weighed): boolean => Math.abs(item.logLikelihood - first.logLikelihood) <= PARTED;
    const members = left.filter(isLike);
    classes.push({ members, probability: members.reduce((sum, { probability }) => sum + probability, 0) });
    left = left.filter((item) => !isLike(item));
  }
  return classes.sort((a, b) => b.probability - a.probability);
}
