import type { Line } from "../quantities/index.ts";
import type { Diagnosis } from "./diagnose.ts";
import type { EvidenceStep } from "./evidence.ts";
import { type Forecast, forecast } from "./forecast.ts";
import { type Estimate, Likelihood } from "./likelihood.ts";
import { USUAL_LOAD } from "./load-scale.ts";
import { readingsUnder } from "./weigh.ts";

/** Something to do on site that would tell more. */
export interface Measurement {
  readonly action: "read-all" | "charge" | "switch-load" | "clamp" | "read-plate";
  readonly line: Line | null;
  /** Current to offer the car, where it charges. [A] */
  readonly offeredA: number;
  /** Time it takes on site. Common practice. [min] */
  readonly minutes: number;
}

/** A measurement and what it is worth: expected information about which fault it is. */
export interface RankedMeasurement {
  readonly measurement: Measurement;
  /** [bit] */
  readonly information: number;
  /** [bit/min] */
  readonly perMinute: number;
}

/** Hypotheses that are weighed when measurements are compared: the likeliest. */
const CONSIDERED = 40;
const KNOWN_LOAD_W = 2500;

/**
 * Measurements by expected information per minute, the best first; an empty list where nothing that can
 * be read would part what is left.
 *
 * The information a reading is expected to give about the hypothesis is bounded from below with pairwise
 * Bhattacharyya distances between what each hypothesis forecasts (Kolchinsky and Tracey, Estimating
 * mixture entropy with pairwise distances, Entropy 19, 2017; recalled).
 */
export function nextMeasurements(diagnosis: Diagnosis): readonly RankedMeasurement[] {
  const { evidence, classes } = diagnosis;
  const { channels } = diagnosis.design;
  const last = evidence.steps.at(-1) as EvidenceStep;
  const considered = classes
    .flatMap(({ members }) => members)
    .sort((a, b) => b.probability - a.probability)
    .slice(0, CONSIDERED)
    .map(({ weighed }) => weighed);
  const total = considered.reduce((sum, { probability }) => sum + probability, 0);
  if (considered.length < 2 || total === 0) return [];
  const shares = considered.map(({ probability }) => probability / total);
  const likelihood = new Likelihood(evidence, USUAL_LOAD);
  const actions = measurements(channels);
  const forecasts = considered.map(({ hypothesis }) => {
    likelihood.of(hypothesis.model, readingsUnder(hypothesis, evidence));
    return actions.map((action) =>
      forecast(likelihood, hypothesis.model, stepOf(action, last, channels), last),
    );
  });
  return actions
    .map((measurement, at): RankedMeasurement => {
      const read = forecasts.map((each, index) => ({
        values: measured(measurement, each[at] as Forecast, last, channels),
        plate: plateOf(considered[index]?.hypothesis.faults.map(({ fault }) => fault.id) ?? []),
      }));
      const information = mutualInformation(shares, (i, j) => {
        const [a, b] = [read[i], read[j]];
        if (a === undefined || b === undefined) return 0;
        if (measurement.action === "read-plate") return a.plate === b.plate ? 0 : PARTED;
        return a.values.reduce((sum, value, k) => sum + bhattacharyya(value, b.values[k] as Estimate), 0);
      });
      return { measurement, information, perMinute: information / measurement.minutes };
    })
    .filter(({ information }) => information > LEAST_BITS)
    .sort((a, b) => b.perMinute - a.perMinute);
}

const LEAST_BITS = 0.01;
const PARTED = 20;

function measurements(each: readonly Line[]): readonly Measurement[] {
  return [
    { action: "read-all", line: null, offeredA: 0, minutes: 1 },
    ...each.map((line): Measurement => ({ action: "charge", line, offeredA: 32, minutes: 2 })),
    ...each.map((line): Measurement => ({ action: "switch-load", line, offeredA: 0, minutes: 3 })),
    ...each.map((line): Measurement => ({ action: "clamp", line, offeredA: 0, minutes: 2 })),
    { action: "read-plate", line: null, offeredA: 0, minutes: 2 },
  ];
}

const stepOf = (
  { action, line, offeredA }: Measurement,
  last: EvidenceStep,
  channels: readonly Line[],
): EvidenceStep => {
  const on = (value: number): readonly number[] =>
    last.carA.map((_, k) => (channels[k] === line ? value : 0));
  return {
    ...last,
    ...(action === "charge" && { carA: on(offeredA) }),
    ...(action === "switch-load" && {
      loadW: last.loadW.map((load, k) => load + (on(KNOWN_LOAD_W)[k] as number)),
    }),
  };
};

/** What would be read: all of every channel for a reading, the same kinds as before for a step, one clamp. */
function measured(
  { action, line }: Measurement,
  forecast: Forecast,
  last: EvidenceStep,
  channels: readonly Line[],
): readonly Estimate[] {
  if (action === "clamp") return forecast.clamp.filter((_, k) => channels[k] === line);
  if (action === "read-all") return [...forecast.V, ...forecast.I, ...forecast.P, ...forecast.Q];
  const was = (values: readonly number[]): boolean => values.some((value) => !Number.isNaN(value));
  const all = [
    ...(was(last.P) ? forecast.P : []),
    ...(was(last.Q) ? forecast.Q : []),
    ...(was(last.I) ? forecast.I : []),
  ];
  if (all.length > 0) return all;
  return [
    forecast.P.reduce((sum, { mean, variance }) => ({
      mean: sum.mean + mean,
      variance: sum.variance + variance,
    })),
  ];
}

const ON_THE_PLATE: ReadonlySet<string> = new Set(["F26", "F27", "F28", "F29", "F30", "F32", "F33"]);
const plateOf = (ids: readonly string[]): string => ids.filter((id) => ON_THE_PLATE.has(id)).join("+");

/** Distance between two normal distributions: Bhattacharyya 1943, closed form for one dimension. */
function bhattacharyya(a: Estimate, b: Estimate): number {
  const sum = a.variance + b.variance;
  const difference = a.mean - b.mean;
  return (
    (difference * difference) / (4 * sum) + 0.5 * Math.log(sum / (2 * Math.sqrt(a.variance * b.variance)))
  );
}

/** In bits. */
function mutualInformation(shares: readonly number[], distance: (i: number, j: number) => number): number {
  return (
    shares.reduce((sum, share, i) => {
      const near = shares.reduce((inner, other, j) => inner + other * Math.exp(-distance(i, j)), 0);
      return sum - share * Math.log(near);
    }, 0) / Math.LN2
  );
}
