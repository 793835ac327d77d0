import { adriftStep } from "./broken-neutral.ts";
import { logNormalCdf } from "./densities.ts";
import type { Evidence, EvidenceStep } from "./evidence.ts";
import { ExpectedReadings } from "./expected-readings.ts";
import type { KeptEstimate, LinearFilter } from "./linear-filter.ts";
import { type LoadScale, SUPPLY_V } from "./load-scale.ts";
import { LooseBranches } from "./loose-branches.ts";
import type { AdriftSite, ObservationModel } from "./observation-model.ts";
import { LOOSE_OFTEN } from "./reading-errors.ts";
import { type Beforehand, logPositive, startCar, startSite, walkSite } from "./site-walk.ts";
import { type StarPoint, starPointOf } from "./star-point.ts";
import { type ReadingWatcher, StepDensity } from "./step-density.ts";
import { VoltageDensity } from "./voltage-density.ts";

/** A value with its uncertainty. */
export interface Estimate {
  readonly mean: number;
  readonly variance: number;
}

/**
 * How well hypotheses explain readings, with the building's own load marginalised.
 *
 * A Kalman filter over the steps: see `site-places.ts` for what it estimates. What no reading determines
 * stays as uncertain as it was. All work is done in arrays made once; nothing is allocated while a step
 * is weighed, but for a loose terminal.
 */
export class Likelihood {
  /** After each step, the logarithm of the density of all readings so far. */
  readonly cumulative: Float64Array;
  readonly expected: ExpectedReadings;
  /** After {@link of}, sum of squares of how far the readings lay from what was expected. [1] */
  misfit = 0;
  private readonly filter: LinearFilter;
  private readonly density: StepDensity;
  private readonly branches: LooseBranches;
  private readonly voltages = new VoltageDensity();
  private readonly stars = new WeakMap<Evidence, Map<string, readonly StarPoint[] | null>>();
  private readonly idleStep: IdleStep;
  private readonly lines: number;
  private readonly logPositiveBeforehand: number;
  private readonly importing: Beforehand;
  private readonly signs: readonly (readonly number[])[];

  constructor(
    evidence: Evidence,
    private readonly scale: LoadScale,
  ) {
    this.lines = evidence.lines;
    this.cumulative = new Float64Array(evidence.steps.length);
    this.expected = new ExpectedReadings(evidence);
    this.filter = this.expected.filter;
    this.density = new StepDensity(this.expected);
    this.branches = new LooseBranches(this.filter);
    this.idleStep = { idle: null, evidence, least: 0, sum: 0, kept: this.filter.keepsake() };
    this.importing = { meansW: new Array<number>(evidence.lines).fill(scale.meanW), sdW: scale.sdW };
    this.logPositiveBeforehand = logNormalCdf(scale.meanW / scale.sdW);
    const hasSigns = evidence.steps.some(
      ({ P, totalP }) => !Number.isNaN(totalP) || P.some((value) => !Number.isNaN(value)),
    );
    this.signs = hasSigns ? alike(this.lines) : everySign(this.lines);
  }

  /**
   * Logarithm of the density of the readings under a hypothesis; −∞ once it has fallen below `floor` at
   * any step, since it can no longer matter.
   *
   * @param floor Per step, the least cumulative value worth going on with.
   * @param idle The same for models that show the same while the car takes nothing: what was worked out for
   * one after another need not be worked out again.
   */
  of(model: ObservationModel, evidence: Evidence, floor?: Float64Array, idle?: number): number {
    const { meanW, sdW } = this.scale;
    if (model.mayExport || (evidence.steps[0] as EvidenceStep).mayExport) {
      // Sizes fit importing and exporting alike: each is weighed from its own side.
      const signs = model.mayExport ? this.signs : alike(this.lines);
      const misfits: number[] = [];
      const each = signs.map((sign) => {
        const meansW = sign.map((one) => (one < 0 ? -1.5 * meanW : meanW));
        const value = this.from({ meansW, sdW: 1.5 * sdW }, model, evidence, floor);
        misfits.push(this.filter.misfit);
        return value;
      });
      const most = Math.max(...each);
      this.misfit = misfits[each.indexOf(most)] as number;
      return most === Number.NEGATIVE_INFINITY
        ? most
        : most + Math.log(each.reduce((sum, value) => sum + Math.exp(value - most), 0) / each.length);
    }
    const value = this.from(this.importing, model, evidence, floor, idle);
    this.misfit = this.filter.misfit;
    return value;
  }

  /** As {@link of}, telling for every reading what was expected just before it was weighed. */
  watch(model: ObservationModel, evidence: Evidence, watcher: ReadingWatcher): number {
    this.density.watcher = watcher;
    const value = this.of(model, evidence);
    this.density.watcher = null;
    return value;
  }

  /** After {@link of}, the building's own active power on a line in the last step. [W] */
  building(k: number): Estimate {
    return this.estimate(k);
  }
  /** After {@link of}, a channel's error of ratio beside what the hypothesis says. [1] */
  gainError(c: number): Estimate {
    return this.estimate(this.expected.places.gain + c);
  }
  /** After {@link of}, a channel's error of angle beside what the hypothesis says, leading. [rad] */
  angleError(c: number): Estimate {
    return this.estimate(this.expected.places.angle + c);
  }
  private estimate(place: number): Estimate {
    return { mean: this.filter.state[place] as number, variance: this.filter.variance(place) };
  }

  /** Takes the estimate on to a further step that nobody has read. */
  goOn(step: EvidenceStep, last: EvidenceStep): void {
    walkSite(this.filter, this.scale, this.lines, step, last);
  }

  private from(
    beforehand: Beforehand,
    model: ObservationModel,
    evidence: Evidence,
    floor: Float64Array | undefined,
    idle?: number,
  ): number {
    const { filter, density } = this;
    const { steps } = evidence;
    filter.misfit = 0;
    if (model.adrift !== null && !evidence.steps.some(({ mayExport }) => mayExport)) {
      const points = this.starPoints(model.adrift, evidence);
      if (points !== null) return this.adrift(points, model.adrift, beforehand, model, evidence, floor);
    }
    if (model.loose.length > 0) return this.loosely(beforehand, model, evidence, floor);
    let sum = this.firstStep(beforehand, model, evidence, leastAt(floor, 0), idle);
    let leastLoad = 0;
    for (let s = 0; s < steps.length; s++) {
      const step = steps[s] as EvidenceStep;
      const least = leastAt(floor, s);
      if (s > 0) {
        walkSite(filter, this.scale, this.lines, step, steps[s - 1] as EvidenceStep);
        sum += density.of(model, evidence, s, least - sum);
      }
      if (!(sum >= least)) return Number.NEGATIVE_INFINITY;
      leastLoad = this.leastLoad(model, step, leastLoad);
      this.cumulative[s] = sum;
    }
    return sum + leastLoad;
  }

  /** The voltages and the first step; −∞ where both end below `least`. */
  private firstStep(
    beforehand: Beforehand,
    model: ObservationModel,
    evidence: Evidence,
    least: number,
    idle: number | undefined,
  ): number {
    const { filter, expected, idleStep } = this;
    const isIdle = idle !== undefined && (evidence.steps[0] as EvidenceStep).carA.every((amps) => amps === 0);
    const isKnown = isIdle && idleStep.idle === idle && idleStep.evidence === evidence;
    if (isKnown && idleStep.sum === Number.NEGATIVE_INFINITY && least >= idleStep.least) return idleStep.sum;
    if (isKnown && idleStep.sum !== Number.NEGATIVE_INFINITY) {
      filter.restore(idleStep.kept);
      startCar(filter, expected.places, model, evidence);
      return idleStep.sum;
    }
    let sum = expected.voltageIsRead ? this.voltages.of(model, evidence, filter) : 0;
    if (sum + BEST_STEP < least) sum = Number.NEGATIVE_INFINITY;
    else {
      startSite(filter, expected.places, beforehand, this.scale, model, evidence);
      sum += this.density.of(model, evidence, 0, least - sum);
    }
    if (isIdle) {
      idleStep.idle = idle;
      idleStep.evidence = evidence;
      idleStep.least = least;
      idleStep.sum = sum;
      if (sum !== Number.NEGATIVE_INFINITY) filter.keep(idleStep.kept);
    }
    return sum;
  }

  /** Where the star point is in each step; null where the voltages do not show it. */
  private starPoints({ tapLines }: AdriftSite, evidence: Evidence): readonly StarPoint[] | null {
    const known = this.stars.get(evidence) ?? new Map<string, readonly StarPoint[] | null>();
    this.stars.set(evidence, known);
    const key = tapLines.join();
    const before = known.get(key);
    if (before !== undefined) return before;
    const points = evidence.steps.map(({ V }) => starPointOf(tapLines, V));
    const found = points.every((point) => point !== null) ? points : null;
    known.set(key, found);
    return found;
  }

  /** The same where the neutral is broken and the voltages show where the star point has gone. */
  private adrift(
    points: readonly StarPoint[],
    site: AdriftSite,
    beforehand: Beforehand,
    model: ObservationModel,
    evidence: Evidence,
    floor: Float64Array | undefined,
  ): number {
    const { filter, expected, density } = this;
    const { steps } = evidence;
    filter.misfit = points.reduce((total, { misfit }) => total + misfit, 0);
    let sum = points.reduce((total, point) => total + point.logDensity, 0);
    if (sum + BEST_STEP < leastAt(floor, 0)) return Number.NEGATIVE_INFINITY;
    const supply = Float64Array.from(expected.volts);
    expected.volts.fill(SUPPLY_V);
    startSite(filter, expected.places, beforehand, this.scale, model, evidence);
    let leastLoad = 0;
    for (let s = 0; s < steps.length; s++) {
      const step = steps[s] as EvidenceStep;
      if (s > 0) walkSite(filter, this.scale, this.lines, step, steps[s - 1] as EvidenceStep);
      const at = adriftStep(expected, model, site, points[s] as StarPoint, step);
      sum += at.logDensity;
      sum += density.of(at.model, evidence, s, leastAt(floor, s) - sum);
      leastLoad = this.leastLoad(model, step, leastLoad);
      this.cumulative[s] = sum;
      if (!(sum >= leastAt(floor, s))) {
        sum = Number.NEGATIVE_INFINITY;
        break;
      }
    }
    expected.volts.set(supply);
    return sum + leastLoad;
  }

  /** The same where terminals are good in some steps and bad in others. */
  private loosely(
    beforehand: Beforehand,
    model: ObservationModel,
    evidence: Evidence,
    floor: Float64Array | undefined,
  ): number {
    const { filter, density, branches, expected } = this;
    const { steps } = evidence;
    const courses = 2 ** model.loose.length;
    const ofVoltages = expected.voltageIsRead ? this.voltages.of(model, evidence, filter) : 0;
    if (ofVoltages + BEST_STEP < leastAt(floor, 0)) return Number.NEGATIVE_INFINITY;
    startSite(filter, expected.places, beforehand, this.scale, model, evidence);
    branches.begin(filter, ofVoltages);
    for (let s = 0; s < steps.length; s++) {
      const step = steps[s] as EvidenceStep;
      const least = leastAt(floor, s);
      for (let b = 0; b < branches.count; b++) {
        for (let course = 0; course < courses; course++) {
          const { logDensity, leastLoad } = branches.resume(filter, b);
          let sum = logDensity;
          for (let index = 0; index < model.loose.length; index++) {
            const isBad = ((course >> index) & 1) === 1;
            density.isBad[index] = isBad;
            sum += Math.log(isBad ? LOOSE_OFTEN : 1 - LOOSE_OFTEN);
          }
          if (s > 0) walkSite(filter, this.scale, this.lines, step, steps[s - 1] as EvidenceStep);
          sum += density.of(model, evidence, s, least - sum);
          if (sum >= least) branches.add(filter, sum, this.leastLoad(model, step, leastLoad));
        }
      }
      const sum = branches.endStep();
      this.cumulative[s] = sum;
      if (branches.count === 0) return Number.NEGATIVE_INFINITY;
    }
    branches.resume(filter, 0);
    return branches.logTotal();
  }

  private leastLoad(model: ObservationModel, step: EvidenceStep, soFar: number): number {
    if (model.mayExport || step.mayExport) return soFar;
    let least = soFar;
    for (let k = 0; k < this.lines; k++)
      least = Math.min(least, logPositive(this.filter, k, this.logPositiveBeforehand));
    return least;
  }
}

/** A first step with the car idle, as it was last worked out; it was given up where its sum is −∞. */
interface IdleStep {
  idle: number | null;
  evidence: Evidence;
  /** What it had to reach. */
  least: number;
  sum: number;
  readonly kept: KeptEstimate;
}

const leastAt = (floor: Float64Array | undefined, step: number): number =>
  floor === undefined ? Number.NEGATIVE_INFINITY : (floor[step] as number);

/** No step makes a hypothesis likelier than this, as a logarithm. */
const BEST_STEP = 30;

const alike = (lines: number): readonly (readonly number[])[] =>
  [-1, 1].map((sign) => new Array<number>(lines).fill(sign));

const everySign = (lines: number): readonly (readonly number[])[] =>
  Array.from({ length: 2 ** lines }, (_, bits) =>
    Array.from({ length: lines }, (_unused, k) => ((bits >> k) & 1 ? 1 : -1)),
  );
