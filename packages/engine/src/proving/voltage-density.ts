import { censored } from "./densities.ts";
import type { Evidence } from "./evidence.ts";
import type { LinearFilter } from "./linear-filter.ts";
import { SUPPLY_V } from "./load-scale.ts";
import type { ObservationModel } from "./observation-model.ts";
import { VOLTAGE_DRIFT } from "./reading-errors.ts";

interface ChannelDensity {
  readonly log: number;
  readonly misfit: number;
}

/**
 * How well the voltages read fit: each channel's lies near its own level, and hardly moves from step to
 * step. They are told apart by size only.
 *
 * Hypotheses share a few levels, so each channel is worked out once for each.
 */
export class VoltageDensity {
  private readonly known = new WeakMap<Evidence, Map<number, ChannelDensity>[]>();

  /**
   * Logarithm of the density of all voltages.
   *
   * @param filter Where their misfit is counted.
   */
  of({ voltage, voltageSdV }: ObservationModel, evidence: Evidence, filter: LinearFilter): number {
    let channels = this.known.get(evidence);
    if (channels === undefined) {
      channels = voltage.map(() => new Map());
      this.known.set(evidence, channels);
    }
    let sum = 0;
    for (let c = 0; c < evidence.lines; c++) {
      const relative = voltage[c] as number;
      const levels = channels[c] as Map<number, ChannelDensity>;
      // One number for both: no channel shows four times the supply's voltage.
      const key = 4 * voltageSdV + relative;
      let density = levels.get(key);
      if (density === undefined) {
        density = channelDensity(evidence, c, relative, voltageSdV);
        levels.set(key, density);
      }
      sum += density.log;
      filter.misfit += density.misfit;
    }
    return sum;
  }
}

function channelDensity(
  { steps, resolution }: Evidence,
  c: number,
  relative: number,
  levelSdV: number,
): ChannelDensity {
  const drift = VOLTAGE_DRIFT ** 2 * relative * relative + resolution.V ** 2;
  // Each reading is weighed against the mean of those before it: the level is one unknown for all.
  let mean = relative * SUPPLY_V;
  let variance = (levelSdV * Math.max(1, relative)) ** 2;
  let log = 0;
  let misfit = 0;
  for (const step of steps) {
    const value = step.V[c] as number;
    if (Number.isNaN(value)) continue;
    if (value === 0 && relative < 0.01) {
      log += censored(resolution.V);
      continue;
    }
    const square = (value - mean) ** 2 / (variance + drift);
    misfit += square;
    log += Math.min(-0.5 * (Math.log(2 * Math.PI * (variance + drift)) + square), censored(resolution.V));
    const weight = variance / (variance + drift);
    mean += weight * (value - mean);
    variance *= 1 - weight;
  }
  return { log, misfit };
}
