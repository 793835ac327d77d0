import {
  add,
  type Complex,
  complex,
  conjugate,
  LINE_ANGLE_RAD,
  LINES,
  magnitude,
  multiply,
  polar,
} from "../quantities/index.ts";
import type { Chain } from "./chain.ts";
import type { PossibleFault } from "./possible-faults.ts";

/**
 * A faulty chain as linear equations between the powers of the site and those the meter shows.
 *
 * With S of line k in its own line's frame, channel c shows S′c = Σk m[c,k]·Sb[k] + Σk e[c,k]·Se[k] for
 * building and car, and conj(I′c) = Σk q[c,k]·Sb[k] + Σk f[c,k]·Se[k], per volt. Real and imaginary
 * parts stand in arrays of n·n, channel by channel.
 */
export interface ObservationModel {
  readonly mRe: Float64Array;
  readonly mIm: Float64Array;
  readonly eRe: Float64Array;
  readonly eIm: Float64Array;
  readonly qRe: Float64Array;
  readonly qIm: Float64Array;
  readonly fRe: Float64Array;
  readonly fIm: Float64Array;
  /** Voltage of each channel, in units of a line's. */
  readonly voltage: Float64Array;
  readonly voltageSdV: number;
  readonly gainSd: Float64Array;
  readonly angleSd: Float64Array;
  readonly wander: Float64Array;
  readonly carSd: number;
  readonly mayExport: boolean;
  readonly hidesLoad: boolean;
  readonly sumsCurrents: boolean;
  /** Above this a channel's current stays flat; infinite in a sound chain. [A] */
  readonly clipA: number;
  /** Below this a channel shows zero. [A] */
  readonly floorA: number;
  /** Share of its true size at which a wrong setting shows the least readable change; at most 1. */
  readonly scale: number;
}

const NOTHING = complex(0);
const UNIT = LINES.map((line) => polar(1, LINE_ANGLE_RAD[line]));

/** @param faults The faults the chain was made of, for how far their parameters may stray. */
export function observationModel(
  chain: Chain,
  faults: readonly PossibleFault[],
  design: { readonly gainSd: number; readonly angleSd: number },
): ObservationModel {
  const n = chain.lines;
  const size = n * n;
  const model = {
    mRe: new Float64Array(size),
    mIm: new Float64Array(size),
    eRe: new Float64Array(size),
    eIm: new Float64Array(size),
    qRe: new Float64Array(size),
    qIm: new Float64Array(size),
    fRe: new Float64Array(size),
    fIm: new Float64Array(size),
    voltage: new Float64Array(n),
  };
  const building = currentsOf(chain, (j) => (chain.seesBuilding[j] as number) * chain.meteredShare);
  const car = moved(
    chain,
    currentsOf(chain, (j) => chain.seesChargePoint[j] as number),
  );
  const taps = chain.taps.map((row) =>
    row.reduce((sum, entry, k) => add(sum, multiply(entry, UNIT[k] as Complex)), NOTHING),
  );
  const { voltages, elements, shown } = throughMode(chain.mode, taps);
  for (let c = 0; c < n; c++) {
    model.voltage[c] = magnitude(voltages[c] as Complex);
    for (let k = 0; k < n; k++) {
      const at = c * n + k;
      const from = shown[c] as readonly number[];
      const q = from.reduce((sum, j) => add(sum, (building[j] as Complex[])[k] as Complex), NOTHING);
      const f = from.reduce((sum, j) => add(sum, (car[j] as Complex[])[k] as Complex), NOTHING);
      const element = elements[c] as { readonly voltage: Complex; readonly channel: number } | null;
      const m =
        element === null
          ? NOTHING
          : multiply(element.voltage, (building[element.channel] as Complex[])[k] as Complex);
      const e =
        element === null
          ? NOTHING
          : multiply(element.voltage, (car[element.channel] as Complex[])[k] as Complex);
      model.mRe[at] = m.re;
      model.mIm[at] = m.im;
      model.eRe[at] = e.re;
      model.eIm[at] = e.im;
      model.qRe[at] = q.re;
      model.qIm[at] = q.im;
      model.fRe[at] = f.re;
      model.fIm[at] = f.im;
    }
  }
  const spread = (name: "gainSd" | "angleSd" | "wander", base: number): Float64Array =>
    Float64Array.from({ length: n }, (_, c) =>
      Math.hypot(base, ...faults.map((item) => (stands(item, c + 1) ? (item[name] ?? 0) : 0))),
    );
  return {
    ...model,
    voltageSdV: Math.hypot(6, ...faults.map((item) => item.voltageSdV ?? 0)),
    gainSd: spread("gainSd", design.gainSd),
    angleSd: spread("angleSd", design.angleSd),
    wander: spread("wander", 0),
    carSd: Math.hypot(0, ...faults.map((item) => item.carSd ?? 0)),
    mayExport: faults.some((item) => item.mayExport),
    hidesLoad: faults.some((item) => item.hidesLoad),
    sumsCurrents: chain.decoding.some(({ id }) => id === "F43"),
    clipA: chain.clipA,
    floorA: chain.floorA,
    scale: Math.min(1, chain.setting),
  };
}

const stands = ({ fault }: PossibleFault, channel: number): boolean =>
  "channels" in fault ? fault.channels.includes(channel) : true;

/** conj(J[c]) per unit of S[k]: rows of conj(setting · secondary · window · u[k]). */
function currentsOf(chain: Chain, sees: (row: number) => number): Complex[][] {
  return chain.secondary.map((row) =>
    Array.from({ length: chain.lines }, (_, k) => {
      let sum = NOTHING;
      row.forEach((entry, j) => {
        const share = sees(j);
        if (share !== 0)
          sum = add(
            sum,
            multiply(entry, multiply((chain.window[j] as Complex[])[k] as Complex, complex(share))),
          );
      });
      return conjugate(multiply(multiply(sum, UNIT[k] as Complex), complex(chain.setting)));
    }),
  );
}

/** Columns of the car after faults of the site: less drawn, or lines exchanged at the charge point. */
function moved(chain: Chain, rows: Complex[][]): Complex[][] {
  return chain.site.reduce((now, fault) => {
    if (fault.id === "F65")
      return now.map((row) => row.map((x, k) => multiply(x, complex(fault.shares[k] as number))));
    if (fault.id === "F46") return now.map((row) => fault.order.map((onto) => row[onto - 1] as Complex));
    return now;
  }, rows);
}

interface ThroughMode {
  readonly voltages: readonly Complex[];
  /** What multiplies to a channel's power; null where it shows none. */
  readonly elements: readonly ({ readonly voltage: Complex; readonly channel: number } | null)[];
  /** Currents a channel shows the sum of. */
  readonly shown: readonly (readonly number[])[];
}

function throughMode(mode: Chain["mode"], taps: readonly Complex[]): ThroughMode {
  const tap = (c: number): Complex => taps[c] ?? NOTHING;
  const between = (a: number, b: number): Complex => add(tap(a), multiply(tap(b), complex(-1)));
  switch (mode) {
    case "each-line":
      return {
        voltages: taps,
        elements: taps.map((voltage, channel) => ({ voltage, channel })),
        shown: taps.map((_, c) => [c]),
      };
    case "two-element":
      return {
        voltages: [between(0, 1), between(2, 0), between(2, 1)],
        elements: [{ voltage: between(0, 1), channel: 0 }, null, { voltage: between(2, 1), channel: 2 }],
        shown: [[0], [0, 2], [2]],
      };
    case "first-line":
      return {
        voltages: [tap(0), NOTHING, NOTHING],
        elements: [{ voltage: tap(0), channel: 0 }, null, null],
        shown: [[0], [], []],
      };
    case "first-line-copied":
      return {
        voltages: [tap(0), tap(0), tap(0)],
        elements: taps.map(() => ({ voltage: tap(0), channel: 0 })),
        shown: taps.map(() => [0]),
      };
  }
}
