import { logNormalCdf } from "./densities.ts";
import type { Evidence, EvidenceStep } from "./evidence.ts";
import type { LinearFilter } from "./linear-filter.ts";
import type { LoadScale } from "./load-scale.ts";
import type { ObservationModel } from "./observation-model.ts";
import {
  CAR_TAN_SD,
  LOAD_SD,
  LOAD_VAR_SD,
  LOOSE_SHARE,
  LOOSE_SHARE_SD,
  MEASURED_CAR_SD,
  OFFERED_CAR_SD,
} from "./reading-errors.ts";
import { type SitePlaces, sizeUnder } from "./site-places.ts";

/** Mean and spread of a line's power before anything is read. [W] */
export interface Beforehand {
  readonly meansW: readonly number[];
  readonly sdW: number;
}

/** Sets the filter to what is known of the site before the first reading. */
export function startSite(
  filter: LinearFilter,
  places: SitePlaces,
  { meansW, sdW }: Beforehand,
  scale: LoadScale,
  model: ObservationModel,
  evidence: Evidence,
): void {
  const n = evidence.lines;
  const first = evidence.steps[0] as EvidenceStep;
  filter.reset(sizeUnder(model, places));
  for (let k = 0; k < n; k++) {
    const load = first.loadW[k] as number;
    const mean = meansW[k] as number;
    const spread = sdW * sdW + (LOAD_SD * load) ** 2;
    filter.state[k] = mean + load;
    filter.state[n + k] = scale.tan * mean;
    filter.setVariance(k, spread);
    filter.setCovariance(k, n + k, scale.tan * spread);
    filter.setVariance(n + k, scale.tan ** 2 * spread + scale.sdVar ** 2);
  }
  for (let c = 0; c < n; c++) {
    filter.setVariance(places.gain + c, (model.gainSd[c] as number) ** 2);
    filter.setVariance(places.angle + c, (model.angleSd[c] as number) ** 2);
    filter.setCovariance(places.gain + c, places.angle + c, model.gainAngleCovariance[c] as number);
  }
  model.loose.forEach((_, index) => {
    filter.state[places.loose + index] = LOOSE_SHARE - 1;
    filter.setVariance(places.loose + index, LOOSE_SHARE_SD ** 2);
  });
  startCar(filter, places, model, evidence);
}

/** Sets what is known of the car alone before it has drawn anything. */
export function startCar(
  filter: LinearFilter,
  places: SitePlaces,
  model: ObservationModel,
  { lines, carIsMeasured }: Evidence,
): void {
  filter.size = sizeUnder(model, places);
  filter.state[places.carShare] = 1;
  const followSd = carIsMeasured ? MEASURED_CAR_SD : OFFERED_CAR_SD;
  filter.setVariance(places.carShare, followSd ** 2 + model.carSd ** 2);
  filter.setVariance(places.carTan, CAR_TAN_SD ** 2);
  for (let k = 0; k < lines; k++) filter.setVariance(places.carOnLine + k, model.carLineSd ** 2);
}

/** From one step to the next the building's load wanders, and loads of known size come and go. */
export function walkSite(
  filter: LinearFilter,
  scale: LoadScale,
  lines: number,
  step: EvidenceStep,
  last: EvidenceStep,
): void {
  for (let k = 0; k < lines; k++) {
    const change = (step.loadW[k] as number) - (last.loadW[k] as number);
    filter.state[k] = (filter.state[k] as number) + change;
    filter.addVariance(k, scale.driftW ** 2 + (LOAD_SD * change) ** 2);
    filter.addVariance(lines + k, scale.driftVar ** 2 + (LOAD_VAR_SD * change) ** 2);
  }
}

/**
 * A load that would have to be negative speaks against a hypothesis, unless power may flow back:
 * logarithm of how much likelier it is positive than it was beforehand; 0 where it surely is.
 */
export function logPositive(filter: LinearFilter, k: number, logBeforehand: number): number {
  const sd = Math.sqrt(filter.variance(k));
  const z = (filter.state[k] as number) / Math.max(sd, 1);
  return z > 3 ? 0 : logNormalCdf(z) - logBeforehand;
}
