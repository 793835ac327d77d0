import type { EvidenceStep } from "./evidence.ts";
import type { ExpectedReadings } from "./expected-readings.ts";
import { SUPPLY_V } from "./load-scale.ts";
import type { AdriftSite, ObservationModel } from "./observation-model.ts";
import { cornerOf, type StarPoint } from "./star-point.ts";

interface Rotor {
  readonly re: number;
  readonly im: number;
}

/**
 * What each line's voltage is multiplied by once the star point has drifted: in angle as its place says,
 * in size as the channel on that line reads.
 */
function drifts({ tapLines }: AdriftSite, point: StarPoint, step: EvidenceStep): readonly Rotor[] {
  return tapLines.map((_, k) => {
    const corner = cornerOf(k);
    const [x, y] = [corner.re - point.re, corner.im - point.im];
    const size = Math.max(1e-6, Math.hypot(x, y));
    const scale = (step.V[tapLines.indexOf(k)] as number) / SUPPLY_V / size;
    return {
      re: scale * (x * corner.re + y * corner.im),
      im: scale * (y * corner.re - x * corner.im),
    };
  });
}

/**
 * The model at one star point. Loads are admittances: a line whose voltage is multiplied by ρ draws ρ
 * times its current, so that a channel shows ρ of its voltage times the conjugate of ρ of its current.
 */
function modelAt(model: ObservationModel, site: AdriftSite, rho: readonly Rotor[]): ObservationModel {
  const n = rho.length;
  const turned = (
    re: readonly number[],
    im: readonly number[],
    lineOf: (k: number) => number,
    isPower: boolean,
  ): readonly [number[], number[]] => {
    const [outRe, outIm] = [[...re], [...im]];
    for (let c = 0; c < n; c++) {
      const tap = isPower ? (rho[site.tapLines[c] as number] as Rotor) : { re: 1, im: 0 };
      for (let k = 0; k < n; k++) {
        const at = c * n + k;
        const own = rho[lineOf(k)] as Rotor;
        const [fr, fi] = [tap.re * own.re + tap.im * own.im, tap.im * own.re - tap.re * own.im];
        const [r, i] = [re[at] as number, im[at] as number];
        outRe[at] = r * fr - i * fi;
        outIm[at] = r * fi + i * fr;
      }
    }
    return [outRe, outIm];
  };
  const same = (k: number): number => k;
  const ofCar = (k: number): number => site.carLines[k] as number;
  const [mRe, mIm] = turned(model.mRe, model.mIm, same, true);
  const [eRe, eIm] = turned(model.eRe, model.eIm, ofCar, true);
  const [qRe, qIm] = turned(model.qRe, model.qIm, same, false);
  const [fRe, fIm] = turned(model.fRe, model.fIm, ofCar, false);
  return { ...model, mRe, mIm, eRe, eIm, qRe, qIm, fRe, fIm };
}

/** Currents of the three lines must leave nothing for the neutral that is gone. */
function withoutNeutral(model: ObservationModel, site: AdriftSite, rho: readonly Rotor[]): ObservationModel {
  const zeros = model.qRe.map(() => 0);
  const [qRe, qIm, fRe, fIm] = [[...zeros], [...zeros], [...zeros], [...zeros]];
  const conjugateCurrent = (line: number): Rotor => {
    const { re, im } = rho[line] as Rotor;
    const corner = cornerOf(line);
    return { re: re * corner.re - im * corner.im, im: -(re * corner.im + im * corner.re) };
  };
  rho.forEach((_, k) => {
    const own = conjugateCurrent(k);
    const car = conjugateCurrent(site.carLines[k] as number);
    const share = site.carShares[k] as number;
    qRe[k] = own.re;
    qIm[k] = own.im;
    fRe[k] = share * car.re;
    fIm[k] = share * car.im;
  });
  return { ...model, qRe, qIm, fRe, fIm };
}

/** How far the currents' sum may seem to lie from nothing, for what voltages and angles are known to. [A] */
const SUM_SD_A = 0.7;

/**
 * Takes in that the neutral carries nothing in this step; returns the logarithm of the density of the
 * star point where it is, given the loads, and the model for the step's readings.
 *
 * The voltages of a supply are taken as SUPPLY_V.
 */
export function adriftStep(
  expected: ExpectedReadings,
  model: ObservationModel,
  site: AdriftSite,
  point: StarPoint,
  step: EvidenceStep,
): { readonly logDensity: number; readonly model: ObservationModel } {
  const { filter } = expected;
  const rho = drifts(site, point, step);
  const sum = withoutNeutral(model, site, rho);
  let logDensity = 0;
  for (const isReactive of [false, true]) {
    filter.row.fill(0);
    const watts = expected.addCurrentPart(sum, step, 0, isReactive);
    logDensity += filter.update(0, watts, (SUM_SD_A * SUPPLY_V) ** 2);
  }
  // From a density over the current of the neutral to one over the star point's place: by the admittance.
  const admittance = totalVa(expected, site, step) / SUPPLY_V ** 2;
  return {
    logDensity: logDensity + 2 * Math.log(SUPPLY_V) + 2 * Math.log(Math.max(LEAST_SIEMENS, admittance)),
    model: modelAt(model, site, rho),
  };
}

/** Something is always on. [A/V] */
const LEAST_SIEMENS = 0.001;

/** Size of all that the lines draw together at the supply's voltage. [VA] */
function totalVa({ filter, places, lines }: ExpectedReadings, site: AdriftSite, step: EvidenceStep): number {
  let [P, Q] = [0, 0];
  for (let k = 0; k < lines; k++) {
    P += filter.state[k] as number;
    P +=
      (site.carShares[k] as number) *
      (step.carA[k] as number) *
      SUPPLY_V *
      (filter.state[places.carShare] as number);
    Q += filter.state[lines + k] as number;
  }
  return Math.hypot(P, Q);
}
