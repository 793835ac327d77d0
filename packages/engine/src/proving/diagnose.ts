import type { Line } from "../quantities/index.ts";
import type { OpenJob } from "../supply/index.ts";
import { isTold, type Weighed } from "./alike.ts";
import { type BusCause, type BusObservation, busCauses } from "./bus-causes.ts";
import type { ChainDesign } from "./chain-design.ts";
import { chainMark, chainOfJob } from "./chain-of-job.ts";
import type { Evidence } from "./evidence.ts";
import { evidenceOf } from "./evidence-of.ts";
import type { Fault } from "./fault.ts";
import type { FaultCatalogue } from "./fault-catalogue.ts";
import { type Hypothesis, hypotheses } from "./hypotheses.ts";
import { type Estimate, Likelihood } from "./likelihood.ts";
import { USUAL_LOAD } from "./load-scale.ts";
import type { ObservationModel } from "./observation-model.ts";
import type { FaultWeights } from "./possible-faults.ts";
import type { ReadingRemark } from "./reading-remark.ts";
import type { Readings } from "./readings.ts";
import type { WatchedReading } from "./step-density.ts";
import { readingsUnder, type Weighing, weigh } from "./weigh.ts";

/** A fault as a diagnosis names it. */
export interface NamedFault {
  readonly id: Fault["id"];
  /** Meter channels it stands on; all of them for a fault of the whole chain. */
  readonly channels: readonly Line[];
  readonly fault: Fault;
}

/** One way the chain could be, and how likely after the readings. No faults means a sound chain. */
export interface DiagnosedHypothesis {
  readonly faults: readonly NamedFault[];
  readonly probability: number;
  readonly weighed: Weighed;
}

/** Hypotheses that these readings cannot part, the likeliest first, and their share together. */
export interface DiagnosedClass {
  readonly probability: number;
  readonly members: readonly DiagnosedHypothesis[];
}

/** A reading that a sound chain would not have given. */
export type Contradiction = WatchedReading;

/** What a channel does, under the likeliest hypothesis: k = 2 intervals. */
export interface ChannelEstimate {
  readonly channel: Line;
  /** Current shown over current carried by its own line. [1] */
  readonly gain: readonly [number, number];
  /** Phase displacement, secondary leading. [°] */
  readonly angleDeg: readonly [number, number];
  /** The building's own load on this line in the last step. [W] */
  readonly buildingW: readonly [number, number];
}

export interface Diagnosis {
  readonly design: ChainDesign;
  readonly mark: string;
  /** As they were weighed: their steps are those of the evidence, one for one. */
  readonly readings: Readings;
  readonly evidence: Evidence;
  readonly remarks: readonly ReadingRemark[];
  /** True where figures typed as watts were taken as kilowatts: then no scale is proved. */
  readonly isTakenAsKilowatts: boolean;
  readonly all: readonly Hypothesis[];
  readonly weighing: Weighing;
  readonly classes: readonly DiagnosedClass[];
  readonly somethingElse: number;
  /** True where one class holds at least this project's threshold of belief. */
  readonly isTold: boolean;
  readonly estimates: readonly ChannelEstimate[];
  /** Faults of bus and time, by what was observed. */
  readonly busCauses: readonly BusCause[];
  /** Every reading weighed, beside what a sound chain would have shown after those before it. */
  readonly besideSound: readonly WatchedReading[];
  readonly contradictions: readonly Contradiction[];
}

/** What was written down of the bus, and what the readings themselves show: values that never change. */
function observationsOf({ bus = [] }: Readings, { steps }: Evidence): readonly BusObservation[] {
  const shown = steps.map(({ V, I, P, Q, totalP }) => JSON.stringify([V, I, P, Q, totalP]));
  const isWorked = new Set(steps.map(({ carA, loadW }) => JSON.stringify([carA, loadW]))).size > 1;
  const standsStill =
    steps.length > 2 && isWorked && new Set(shown).size === 1 && /[1-9]/.test(shown[0] ?? "");
  return standsStill ? [...bus, "values-stand-still"] : bus;
}

/** The job has no metering chain to diagnose. */
export type DiagnosisResult =
  | { readonly ok: true; readonly diagnosis: Diagnosis }
  | { readonly ok: false; readonly reason: "no-metering" };

/** How common each fault is, as the catalogue judges it. */
export const weightsOf = (catalogue: FaultCatalogue): FaultWeights =>
  Object.fromEntries(Object.entries(catalogue).map(([id, { weight }]) => [id, weight])) as FaultWeights;

/**
 * Weighs readings of one job against every fault of the catalogue, singly and in pairs.
 *
 * The ground is de Kleer and Williams, Diagnosing multiple faults, Artificial Intelligence 32 (1987):
 * candidates, their probabilities, and the next probe by expected entropy; improved by a physical
 * likelihood in which the building's own load is marginalised.
 */
export function diagnose(
  { job, tree }: OpenJob,
  readings: Readings,
  catalogue: FaultCatalogue,
): DiagnosisResult {
  const design = chainOfJob(job, tree);
  if (design === null) return { ok: false, reason: "no-metering" };
  const { evidence, steps, remarks, isTakenAsKilowatts } = evidenceOf(
    readings,
    design.channels,
    design.hasGeneration,
    design.isOnThreePhaseSupply,
  );
  const all = preparedFor(design, catalogue);
  const weighing = weigh(all, evidence);
  const classes = weighing.classes.map(({ probability, members }) => ({
    probability,
    members: members.map((weighed) => diagnosed(weighed, design.channels)),
  }));
  const top = weighing.classes[0]?.members[0];
  const besideSound = watched(all[0] as Hypothesis, evidence);
  return {
    ok: true,
    diagnosis: {
      design,
      mark: chainMark(job),
      readings: { ...readings, steps: [...steps] },
      evidence,
      remarks,
      isTakenAsKilowatts,
      all,
      weighing,
      classes,
      somethingElse: weighing.somethingElse,
      isTold: isTold(weighing.classes[0]),
      estimates: top === undefined ? [] : estimatesUnder(top.hypothesis, evidence, design.channels),
      busCauses: busCauses(observationsOf(readings, evidence), catalogue),
      besideSound,
      contradictions: besideSound.filter(contradicts),
    },
  };
}

interface Prepared {
  readonly design: string;
  readonly all: readonly Hypothesis[];
}

/** The last chain's causes: further readings of the same chain find them prepared. */
const prepared = new WeakMap<FaultCatalogue, Prepared>();

function preparedFor(design: ChainDesign, catalogue: FaultCatalogue): readonly Hypothesis[] {
  const key = JSON.stringify(design);
  const last = prepared.get(catalogue);
  if (last?.design === key) return last.all;
  const all = hypotheses(design, weightsOf(catalogue));
  prepared.set(catalogue, { design: key, all });
  return all;
}

function diagnosed(weighed: Weighed, channels: readonly Line[]): DiagnosedHypothesis {
  const faults = weighed.hypothesis.faults.map(({ fault }) => ({
    id: fault.id,
    channels: channelsOf(fault, channels),
    fault,
  }));
  return { faults, probability: weighed.probability, weighed };
}

const channelsOf = (fault: Fault, channels: readonly Line[]): readonly Line[] =>
  "channels" in fault ? fault.channels.map((channel) => channels[channel - 1] as Line) : channels;

function estimatesUnder(
  hypothesis: Hypothesis,
  evidence: Evidence,
  channels: readonly Line[],
): ChannelEstimate[] {
  const likelihood = new Likelihood(evidence, USUAL_LOAD);
  likelihood.of(hypothesis.model, readingsUnder(hypothesis, evidence));
  return channels.map((channel, c) => {
    const gain = gainOf(hypothesis.model, evidence.lines, c);
    const turned = (angleOf(hypothesis.model, evidence.lines, c) * 180) / Math.PI;
    const [low, high] = twoSigma(likelihood.gainError(c));
    const angle = twoSigma(likelihood.angleError(c));
    return {
      channel,
      gain: [gain * (1 + low), gain * (1 + high)],
      angleDeg: [turned + (angle[0] * 180) / Math.PI, turned + (angle[1] * 180) / Math.PI],
      buildingW: twoSigma(likelihood.building(c)),
    };
  });
}

/** An interval, k = 2. */
export function twoSigma({ mean, variance }: Estimate): readonly [number, number] {
  const sd = Math.sqrt(variance);
  return [mean - 2 * sd, mean + 2 * sd];
}

/** Current a channel shows for one ampere on its own line, of the car or of the building, whichever it sees more of. */
export function gainOf({ fRe, fIm, qRe, qIm }: ObservationModel, lines: number, c: number): number {
  const at = c * lines + c;
  return Math.max(
    Math.hypot(fRe[at] as number, fIm[at] as number),
    Math.hypot(qRe[at] as number, qIm[at] as number),
  );
}

/** Angle by which a channel's power leads what its line carries. [rad] */
function angleOf({ eRe, eIm, mRe, mIm }: ObservationModel, lines: number, c: number): number {
  const at = c * lines + c;
  const seesCar = eRe[at] !== 0 || eIm[at] !== 0;
  const [re, im] = [(seesCar ? eRe : mRe)[at] as number, (seesCar ? eIm : mIm)[at] as number];
  return re === 0 && im === 0 ? 0 : Math.atan2(-im, re);
}

/** Standard deviations beyond which a reading contradicts a sound chain. */
const CONTRADICTS = 4;

const contradicts = ({ value, expected, variance }: WatchedReading): boolean =>
  Math.abs(value - expected) > CONTRADICTS * Math.sqrt(variance);

function watched(sound: Hypothesis, evidence: Evidence): readonly WatchedReading[] {
  const readings: WatchedReading[] = [];
  new Likelihood(evidence, USUAL_LOAD).watch(sound.model, evidence, (reading) => readings.push(reading));
  return readings;
}
