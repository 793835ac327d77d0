import { LINE_ANGLE_RAD, LINES } from "../quantities/index.ts";
import type { Chain } from "./chain.ts";
import type { Matrix } from "./matrix.ts";
import type { PossibleFault } from "./possible-faults.ts";

/**
 * A faulty chain as linear equations between the powers of the site and those the meter shows.
 *
 * With S of line k in its own line's frame, channel c shows S′c = Σk m[c,k]·Sb[k] + Σk e[c,k]·Se[k] for
 * building and car, and conj(I′c) = Σk q[c,k]·Sb[k] + Σk f[c,k]·Se[k], per volt. Real and imaginary
 * parts stand in arrays of n·n, channel by channel.
 */
export interface ObservationModel {
  readonly mRe: readonly number[];
  readonly mIm: readonly number[];
  readonly eRe: readonly number[];
  readonly eIm: readonly number[];
  readonly qRe: readonly number[];
  readonly qIm: readonly number[];
  readonly fRe: readonly number[];
  readonly fIm: readonly number[];
  /** Voltage of each channel, in units of a line's. */
  readonly voltage: readonly number[];
  readonly voltageSdV: number;
  /** Per channel, spread of errors of ratio and angle, and how the two go together. [1], [rad], [rad] */
  readonly gainSd: readonly number[];
  readonly angleSd: readonly number[];
  readonly gainAngleCovariance: readonly number[];
  /** Channels, from 0, whose terminal is loose: bad in some steps, sound in others. */
  readonly loose: readonly number[];
  /** Spread of the share of its current the car draws, alike on all lines and line by line. [1] */
  readonly carSd: number;
  readonly carLineSd: number;
  readonly mayExport: boolean;
  readonly hidesLoad: boolean;
  readonly sumsCurrents: boolean;
  /** Set where the neutral is broken: what is needed to move the star point. */
  readonly adrift: AdriftSite | null;
  /** Per channel, false where current says nothing of power: no voltage, or no element of its own. */
  readonly hasPower: readonly boolean[];
  /** Above this a channel's current stays flat; infinite in a sound chain. [A] */
  readonly clipA: number;
  /** Below this a channel shows zero. [A] */
  readonly floorA: number;
  /** Share of its true size at which a wrong setting shows the least readable change; at most 1. */
  readonly scale: number;
}

/** How a site without a neutral is tapped, and where its car stands. Lines and channels count from 0. */
export interface AdriftSite {
  /** Line that each channel's voltage is of; −1 for none, or for more than one. */
  readonly tapLines: readonly number[];
  /** Line the car's current is on when it should be on line k, and the share of it that it draws. */
  readonly carLines: readonly number[];
  readonly carShares: readonly number[];
}

const UNIT_RE = LINES.map((line) => Math.cos(LINE_ANGLE_RAD[line]));
const UNIT_IM = LINES.map((line) => Math.sin(LINE_ANGLE_RAD[line]));

/**
 * @param faults The faults the chain was made of, for how far their parameters may stray.
 * @param design Usual errors of ratio and angle.
 */
export function observationModel(
  chain: Chain,
  faults: readonly PossibleFault[],
  design: { readonly gainSd: number; readonly angleSd: number },
): ObservationModel {
  const n = chain.lines;
  const building = currentsOf(chain, chain.seesBuilding, chain.meteredShare);
  const car = moved(chain, currentsOf(chain, chain.seesChargePoint, 1));
  const { uRe, uIm, elements, shown } = throughMode(chain);
  const zeros = (): number[] => new Array<number>(n * n).fill(0);
  const [mRe, mIm, eRe, eIm] = [zeros(), zeros(), zeros(), zeros()];
  const [qRe, qIm, fRe, fIm] = [zeros(), zeros(), zeros(), zeros()];
  for (let c = 0; c < n; c++) {
    const element = elements[c] as number;
    for (let k = 0; k < n; k++) {
      const at = c * n + k;
      for (const j of shown[c] as readonly number[]) {
        plus(qRe, at, building.re[j * n + k] as number);
        plus(qIm, at, building.im[j * n + k] as number);
        plus(fRe, at, car.re[j * n + k] as number);
        plus(fIm, at, car.im[j * n + k] as number);
      }
      if (element < 0) continue;
      const [re, im] = [uRe[c] as number, uIm[c] as number];
      const from = element * n + k;
      mRe[at] = re * (building.re[from] as number) - im * (building.im[from] as number);
      mIm[at] = re * (building.im[from] as number) + im * (building.re[from] as number);
      eRe[at] = re * (car.re[from] as number) - im * (car.im[from] as number);
      eIm[at] = re * (car.im[from] as number) + im * (car.re[from] as number);
    }
  }
  const voltage = uRe.map((re, c) => Math.hypot(re, uIm[c] as number));
  const variance = (base: number, c: number, of: (item: PossibleFault) => number): number =>
    faults.reduce((sum, item) => (stands(item, c + 1) ? sum + of(item) : sum), base * base);
  const each = (of: (c: number) => number): number[] => voltage.map((_, c) => of(c));
  const largest = (name: "voltageSdV" | "carSd" | "carLineSd", base: number): number =>
    faults.reduce((most, item) => Math.max(most, item[name] ?? 0), base);
  return {
    mRe,
    mIm,
    eRe,
    eIm,
    qRe,
    qIm,
    fRe,
    fIm,
    voltage,
    hasPower: voltage.map((size, c) => size > 0.01 && (elements[c] as number) >= 0),
    voltageSdV: largest("voltageSdV", USUAL_VOLTAGE_SD),
    gainSd: each((c) => Math.sqrt(variance(design.gainSd, c, gainVariance))),
    angleSd: each((c) => Math.sqrt(variance(design.angleSd, c, ({ angleSd = 0 }) => angleSd ** 2))),
    gainAngleCovariance: each((c) => variance(0, c, (item) => gainPerAngle(item) * (item.angleSd ?? 0) ** 2)),
    loose: faults.flatMap(({ fault }) => (fault.id === "F39" ? fault.channels.map((c) => c - 1) : [])),
    carSd: largest("carSd", 0),
    carLineSd: largest("carLineSd", 0),
    mayExport: faults.some((item) => item.mayExport),
    hidesLoad: faults.some((item) => item.hidesLoad),
    sumsCurrents: chain.decoding.some(({ id }) => id === "F43"),
    adrift: chain.site.some(({ id }) => id === "F17") ? adriftSite(chain) : null,
    clipA: chain.clipA,
    floorA: chain.floorA,
    scale: Math.min(1, chain.setting),
  };
}

/** How far a supply's voltage usually lies from the usual one. [V] */
const USUAL_VOLTAGE_SD = 6;

const stands = ({ fault }: PossibleFault, channel: number): boolean =>
  "channels" in fault ? fault.channels.includes(channel) : true;

function adriftSite({ taps, mode, site, lines }: Chain): AdriftSite {
  const all = Array.from({ length: lines }, (_, k) => k);
  const exchanged = site.find((fault) => fault.id === "F46");
  const less = site.find((fault) => fault.id === "F65");
  return {
    tapLines: taps.map((row) => {
      const seen = all.filter((k) => row[k]?.re !== 0 || row[k]?.im !== 0);
      return mode === "each-line" && seen.length === 1 ? (seen[0] as number) : -1;
    }),
    carLines: exchanged === undefined ? all : exchanged.order.map((line) => line - 1),
    carShares: less === undefined ? all.map(() => 1) : less.shares,
  };
}

/** A burden turns and weakens together: gain is the cosine of the angle whose tangent is x. */
const gainPerAngle = ({ fault }: PossibleFault): number =>
  fault.id === "F34" || fault.id === "F35" ? -fault.x : 0;

const gainVariance = (item: PossibleFault): number =>
  (item.gainSd ?? 0) ** 2 + (gainPerAngle(item) * (item.angleSd ?? 0)) ** 2;

function plus(array: number[], at: number, value: number): void {
  array[at] = (array[at] as number) + value;
}

interface Coefficients {
  readonly re: readonly number[];
  readonly im: readonly number[];
}

/** conj(J[c]) per unit of S[k]: conj(setting · Σ secondary[c,j] · window[j,k] · sees[j] · u[k]). */
function currentsOf(chain: Chain, sees: readonly number[], share: number): Coefficients {
  const n = chain.lines;
  const re = new Array<number>(n * n).fill(0);
  const im = new Array<number>(n * n).fill(0);
  for (let c = 0; c < n; c++) {
    const row = chain.secondary[c] as Matrix[number];
    for (let j = 0; j < n; j++) {
      const entry = row[j] as Matrix[number][number];
      const weight = (sees[j] as number) * share * chain.setting;
      if (weight === 0 || (entry.re === 0 && entry.im === 0)) continue;
      const window = chain.window[j] as Matrix[number];
      for (let k = 0; k < n; k++) {
        const inside = window[k] as Matrix[number][number];
        plus(re, c * n + k, weight * (entry.re * inside.re - entry.im * inside.im));
        plus(im, c * n + k, weight * (entry.re * inside.im + entry.im * inside.re));
      }
    }
    for (let k = 0; k < n; k++) {
      const at = c * n + k;
      const [a, b] = [re[at] as number, im[at] as number];
      const [ur, ui] = [UNIT_RE[k] as number, UNIT_IM[k] as number];
      re[at] = a * ur - b * ui;
      im[at] = -(a * ui + b * ur);
    }
  }
  return { re, im };
}

/**
 * Columns of the car after faults of the site: less drawn, or lines exchanged at the charge point. What
 * acts last on the current comes first on the columns.
 */
function moved(chain: Chain, rows: Coefficients): Coefficients {
  const n = chain.lines;
  return chain.site.reduceRight(({ re, im }, fault) => {
    if (fault.id === "F65") {
      const share = (at: number): number => fault.shares[at % n] as number;
      return { re: re.map((x, at) => x * share(at)), im: im.map((x, at) => x * share(at)) };
    }
    if (fault.id !== "F46") return { re, im };
    const from = (at: number): number => at - (at % n) + (fault.order[at % n] as number) - 1;
    return { re: re.map((_, at) => re[from(at)] as number), im: im.map((_, at) => im[from(at)] as number) };
  }, rows);
}

interface ThroughMode {
  /** Voltage of each channel, in units of a line's. */
  readonly uRe: readonly number[];
  readonly uIm: readonly number[];
  /** Channel whose current multiplies with it to a power; −1 where none is shown. */
  readonly elements: readonly number[];
  /** Channels whose currents it shows the sum of. */
  readonly shown: readonly (readonly number[])[];
}

const EACH = [[0], [1], [2]] as const;

function throughMode({ mode, taps, lines }: Chain): ThroughMode {
  const re = new Array<number>(lines).fill(0);
  const im = new Array<number>(lines).fill(0);
  for (let c = 0; c < lines; c++) {
    const row = taps[c] as Matrix[number];
    for (let k = 0; k < lines; k++) {
      const entry = row[k] as Matrix[number][number];
      const [ur, ui] = [UNIT_RE[k] as number, UNIT_IM[k] as number];
      plus(re, c, entry.re * ur - entry.im * ui);
      plus(im, c, entry.re * ui + entry.im * ur);
    }
  }
  const first = <T>(values: readonly T[]): T => values[0] as T;
  switch (mode) {
    case "each-line":
      return { uRe: re, uIm: im, elements: re.map((_, c) => c), shown: EACH };
    case "two-element": {
      const between = (part: readonly number[], a: number, b: number): number =>
        (part[a] as number) - (part[b] as number);
      const pairs = [[0, 1] as const, [2, 0] as const, [2, 1] as const];
      return {
        uRe: pairs.map(([a, b]) => between(re, a, b)),
        uIm: pairs.map(([a, b]) => between(im, a, b)),
        elements: [0, -1, 2],
        shown: [[0], [0, 2], [2]],
      };
    }
    case "first-line":
      return { uRe: [first(re), 0, 0], uIm: [first(im), 0, 0], elements: [0, -1, -1], shown: [[0], [], []] };
    case "first-line-copied":
      return {
        uRe: re.map(() => first(re)),
        uIm: im.map(() => first(im)),
        elements: re.map(() => 0),
        shown: re.map(() => [0]),
      };
  }
}
