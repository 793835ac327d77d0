import { isTold, type Weighed } from "../proving/alike.ts";
import { faultyChain } from "../proving/apply-faults.ts";
import type { ChainDesign } from "../proving/chain-design.ts";
import { decodedReading } from "../proving/decoding.ts";
import type { Evidence, EvidenceStep } from "../proving/evidence.ts";
import type { Fault, FaultId } from "../proving/fault.ts";
import type { Hypothesis } from "../proving/hypotheses.ts";
import {
  canBePaired,
  type FaultWeights,
  type PossibleFault,
  possibleFaults,
} from "../proving/possible-faults.ts";
import { predictReading } from "../proving/predict-reading.ts";
import { simplest } from "../proving/simplest.ts";
import { weigh } from "../proving/weigh.ts";
import {
  type Complex,
  complex,
  conjugate,
  LINE_ANGLE_RAD,
  LINES,
  multiply,
  polar,
} from "../quantities/index.ts";

/** A heater of known power, switched on in the single-phase examination. [W] */
const HEATER_W = 2000;

/** Readings a person may have, from all there are to one number on a display. */
export const OBSERVABLES = {
  "V, I, P, Q": { V: true, I: true, P: true, Q: true, total: false },
  "I, P": { V: false, I: true, P: true, Q: false, total: false },
  "I, unsigned": { V: false, I: true, P: false, Q: false, total: false },
  "total P": { V: false, I: false, P: false, Q: false, total: true },
} as const;
export type Observables = keyof typeof OBSERVABLES;

interface Question {
  readonly faults: readonly Fault[];
  readonly evidence: Evidence;
}

/** A repeatable source of numbers; mulberry32, public domain. */
export function randomNumbers(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/**
 * One question of the examination: a site, faults, three charging steps one line at a time, and readings
 * with the errors of real instruments.
 */
export function question(
  design: ChainDesign,
  weights: FaultWeights,
  faultCount: number,
  observables: Observables,
  random: () => number,
): Question {
  const between = (low: number, high: number): number => low + (high - low) * random();
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  const faults = drawn(design, weights, faultCount, random).map((fault) => varied(fault, between));
  const n = design.lines;
  const lines = Array.from({ length: n }, (_, k) => k);
  // A loose terminal makes and breaks: its fault comes and goes from step to step.
  const firm = faultyChain(
    n,
    faults.filter(({ id }) => id !== "F39"),
  );
  const loose = faultyChain(n, faults);
  const volts = lines.map(() => between(230, 246));
  const loads = lines.map(() => {
    const W = Math.min(7000, 150 - 900 * Math.log(1 - random()));
    return { W, var: W * between(0, 0.45) };
  });
  const carShare = between(0.92, 1);
  const looseFrom = random() < 0.5 ? 0 : 1;
  const gains = lines.map(() => 1 + between(-0.025, 0.025));
  const angles = lines.map(() => between(-1, 1) * (Math.PI / 180));
  const coarse = random() < 0.3;
  const digits = { V: 0.1, I: coarse ? 0.1 : 0.01, P: coarse ? 10 : 1, Q: coarse ? 10 : 1 };
  const stepLines: (number | null)[] = n === 1 ? [null, 0, 0, null] : [null, 0, 1, 2];
  const amps = n === 1 ? [0, 16, 32, 0] : [0, 32, 32, 32];
  const heaterW = n === 1 ? [0, 0, 0, HEATER_W] : [0, 0, 0, 0];
  const heaterShare = between(0.94, 1.06);
  const kept = OBSERVABLES[observables];
  const steps = stepLines.map((on, s): EvidenceStep => {
    const chain = (s + looseFrom) % 2 === 0 ? loose : firm;
    const state = lines.map((k) => {
      const load = loads[k] as { W: number; var: number };
      if (s > 0) {
        load.W = Math.max(60, load.W + 235 * normal());
        load.var = Math.max(0, load.var + 60 * normal());
      }
      const V = polar(volts[k] as number, LINE_ANGLE_RAD[LINES[k] as (typeof LINES)[number]]);
      const B = conjugate(divided(complex(load.W + (heaterW[s] as number) * heaterShare, load.var), V));
      const carW = on === k ? (amps[s] as number) * carShare * (volts[k] as number) : 0;
      return { V, B, E: conjugate(divided(complex(carW, 0.04 * carW), V)) };
    });
    const factors = lines.map((k) => polar(gains[k] as number, angles[k] as number));
    const exact = predictReading(
      {
        ...chain,
        decoding: chain.decoding.filter(({ id }) => id === "F43"),
        secondary: chain.secondary.map((row, c) => row.map((x) => multiply(x, factors[c] as Complex))),
      },
      {
        voltageV: state.map(({ V }) => V),
        buildingA: state.map(({ B }) => B),
        chargePointA: state.map(({ E }) => E),
        generationA: lines.map(() => complex(0)),
      },
    );
    const noisy =
      (digit: number) =>
      (value: number | null): number | null =>
        value === null || value === 0 ? value : Math.round((value * (1 + 0.002 * normal())) / digit) * digit;
    const read = decodedReading(
      {
        ...exact,
        V: exact.V.map(noisy(digits.V)),
        I: exact.I.map(noisy(digits.I)),
        P: exact.P.map(noisy(digits.P)),
        Q: exact.Q.map(noisy(digits.Q)),
        totalP: noisy(10)(exact.totalP),
      },
      chain.decoding.filter(({ id }) => id !== "F43"),
    );
    const channel = (name: "V" | "I" | "P" | "Q"): number[] =>
      read[name].map((value) => (kept[name] ? (value ?? Number.NaN) : Number.NaN));
    return {
      carA: lines.map((k) => (on === k ? (amps[s] as number) * 0.96 : 0)),
      loadW: lines.map(() => heaterW[s] as number),
      mayExport: false,
      V: channel("V"),
      I: channel("I"),
      P: channel("P"),
      Q: channel("Q"),
      totalP: kept.total ? (read.totalP ?? Number.NaN) : Number.NaN,
      totalQ: Number.NaN,
      clampA: lines.map(() => Number.NaN),
    };
  });
  return { faults, evidence: { lines: n, steps, resolution: digits, carIsMeasured: false } };
}

const divided = (a: Complex, b: Complex): Complex => {
  const size = b.re * b.re + b.im * b.im;
  return { re: (a.re * b.re + a.im * b.im) / size, im: (a.im * b.re - a.re * b.im) / size };
};

function drawn(design: ChainDesign, weights: FaultWeights, count: number, random: () => number): Fault[] {
  const possible = possibleFaults(design, weights);
  const total = possible.reduce((sum, { weight }) => sum + weight, 0);
  const one = (): Fault => {
    let left = random() * total;
    for (const { fault, weight } of possible) {
      left -= weight;
      if (left < 0) return fault;
    }
    return (possible[0] as PossibleFault).fault;
  };
  if (count === 0) return [];
  if (count === 1) return [one()];
  for (;;) {
    const [a, b] = [one(), one()];
    if (a !== b && canBePaired(a, b)) return [a, b];
  }
}

/** The fault with its parameters as nature would have them, not as the diagnosis supposes. */
function varied(fault: Fault, between: (low: number, high: number) => number): Fault {
  switch (fault.id) {
    case "F24":
      return { ...fault, factor: polar(fault.factor.re * between(0.93, 1.07), between(-0.08, 0.08)) };
    case "F34":
      return { ...fault, x: between(0.06, 0.2) };
    case "F35":
      return { ...fault, x: between(0.25, 1.5) };
    case "F36":
      return { ...fault, angleRad: Math.sign(fault.angleRad) * between(0.03, 0.08) };
    case "F39":
      return { ...fault, factor: between(0.3, 0.9) };
    case "F44":
      return { ...fault, amps: fault.amps.map(() => between(4, 12)) };
    case "F45":
      return { ...fault, share: between(0.2, 0.6) };
    case "F65":
      return fault.shares.every((share) => share === 0.65)
        ? { ...fault, shares: fault.shares.map(() => between(0.4, 0.85)) }
        : fault;
    default:
      return fault;
  }
}

/** Parameters nature draws from a range: a diagnosis that names the fault need not hit them. */
const FREE_PARAMETERS: Readonly<Partial<Record<FaultId, string>>> = {
  F24: "factor",
  F34: "x",
  F35: "x",
  F36: "angleRad",
  F39: "factor",
  F44: "amps",
  F45: "share",
};

/** A fault as the examiner compares it. */
function causeOf(fault: Fault): string {
  const free = FREE_PARAMETERS[fault.id];
  const shares = fault.id === "F65" && fault.shares.every((share) => share > 0 && share < 1);
  return JSON.stringify({ ...fault, ...(free && { [free]: 0 }), ...(shares && { shares: "less" }) });
}
const causesOf = (faults: readonly Fault[]): string => faults.map(causeOf).sort().join(" ");

/** Members of a class that are named in a written answer. */
const NAMED = 100;
/** Members that fit on a screen: the first, and those shown beside it. */
const ON_SCREEN = 7;

/** Where a class names the truth: its place, or −1. A cause with a fault more that changes nothing counts as named with it. */
function placeOf(faults: readonly Fault[], members: readonly Weighed[]): number {
  const truth = causesOf(faults);
  const isTruth = (of: readonly { readonly fault: Fault }[]): boolean =>
    causesOf(of.map(({ fault }) => fault)) === truth;
  if (!members.some(({ hypothesis }) => isTruth(hypothesis.faults))) return -1;
  const known = new Set(faults.map(causeOf));
  const place = simplest(members.map(({ hypothesis }) => hypothesis)).findIndex(
    ({ faults: each }) =>
      isTruth(each) || (each.length > 0 && each.every(({ fault }) => known.has(causeOf(fault)))),
  );
  return place < NAMED ? place : -1;
}

/** Result of one paper of the examination. */
export interface Marks {
  readonly questions: number;
  /** The first class names the truth. */
  readonly right: number;
  /** And does so at its first place, or among those on a screen. */
  readonly first: number;
  readonly onScreen: number;
  /** Verdicts given rather than "cannot tell", and how many of them were right. */
  readonly sure: number;
  readonly sureAndRight: number;
}

/** Sets one paper: many questions with the same number of faults and the same observables. */
export function examine(
  design: ChainDesign,
  weights: FaultWeights,
  prepared: readonly Hypothesis[],
  paper: {
    readonly faultCount: number;
    readonly observables: Observables;
    readonly questions: number;
    readonly seed: number;
  },
): Marks {
  const random = randomNumbers(paper.seed);
  const marks = { questions: 0, right: 0, first: 0, onScreen: 0, sure: 0, sureAndRight: 0 };
  for (; marks.questions < paper.questions; marks.questions++) {
    const { faults, evidence } = question(design, weights, paper.faultCount, paper.observables, random);
    const [top] = weigh(prepared, evidence).classes;
    const place = placeOf(faults, top?.members ?? []);
    const isSure = isTold(top);
    if (place >= 0) marks.right++;
    if (place === 0) marks.first++;
    if (place >= 0 && place < ON_SCREEN) marks.onScreen++;
    if (isSure) marks.sure++;
    if (isSure && place >= 0) marks.sureAndRight++;
  }
  return marks;
}

/** A chain as the examination supposes it: 150 A over 5 A. */
export const examinedDesign = (lines: 1 | 3): ChainDesign => ({
  lines,
  channels: LINES.slice(0, lines),
  isOnThreePhaseSupply: false,
  ratio: 30,
  secondaryA: 5,
  primaryA: 150,
  gainSd: 0.015,
  angleSd: 0.011,
  hasGeneration: false,
  places: [],
});
