import { censored } from "./densities.ts";
import type { Evidence } from "./evidence.ts";
import type { LinearFilter } from "./linear-filter.ts";
import { SUPPLY_V } from "./load-scale.ts";
import type { ObservationModel } from "./observation-model.ts";
import { VOLTAGE_DRIFT } from "./reading-errors.ts";

/**
 * Logarithm of the density of all voltages read: each channel's lies near its own level, and hardly moves
 * from step to step. They are told apart by size only.
 *
 * @param filter Where their misfit is counted.
 */
export function logVoltageDensity(
  model: ObservationModel,
  { lines, steps, resolution }: Evidence,
  filter: LinearFilter,
): number {
  let sum = 0;
  for (let c = 0; c < lines; c++) {
    const relative = model.voltage[c] as number;
    const drift = VOLTAGE_DRIFT ** 2 * relative * relative + resolution.V ** 2;
    // Each reading is weighed against the mean of those before it: the level is one unknown for all.
    let mean = relative * SUPPLY_V;
    let variance = (model.voltageSdV * Math.max(1, relative)) ** 2;
    for (const step of steps) {
      const value = step.V[c] as number;
      if (Number.isNaN(value)) continue;
      if (value === 0 && relative < 0.01) {
        sum += censored(resolution.V);
        continue;
      }
      sum += Math.min(filter.weighed(value - mean, variance + drift), censored(resolution.V));
      const weight = variance / (variance + drift);
      mean += weight * (value - mean);
      variance *= 1 - weight;
    }
  }
  return sum;
}
