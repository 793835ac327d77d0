import type { EvidenceStep } from "./evidence.ts";
import type { Estimate, Likelihood } from "./likelihood.ts";
import { SUPPLY_V } from "./load-scale.ts";
import type { ObservationModel } from "./observation-model.ts";
import { CURRENT_FLOOR, POWER_FLOOR, RANDOM_VAR } from "./reading-errors.ts";
import { clampVariance } from "./step-density.ts";

/** What one step would show on each channel, and a clamp on each line. */
export interface Forecast {
  readonly V: readonly Estimate[];
  readonly I: readonly Estimate[];
  readonly P: readonly Estimate[];
  readonly Q: readonly Estimate[];
  readonly clamp: readonly Estimate[];
}

/**
 * What a further step would show, given all steps so far under the same hypothesis: call after
 * {@link Likelihood.of} with the same model. The estimate is left as it stands.
 */
export function forecast(
  likelihood: Likelihood,
  model: ObservationModel,
  step: EvidenceStep,
  last: EvidenceStep,
): Forecast {
  const { expected } = likelihood;
  const { filter, places, lines } = expected;
  const kept = filter.keepsake();
  filter.keep(kept);
  likelihood.goOn(step, last);
  const each = (one: (c: number) => Estimate): Estimate[] => Array.from({ length: lines }, (_, c) => one(c));
  const shown = (c: number, floor: number, add: () => number): Estimate => {
    filter.row.fill(0);
    const mean = add();
    filter.row[places.gain + c] = mean;
    const noise = (floor * model.scale) ** 2 + RANDOM_VAR * mean * mean;
    return { mean, variance: filter.project(noise) };
  };
  const found: Forecast = {
    P: each((c) => shown(c, POWER_FLOOR, () => expected.addPower(model, step, c, false))),
    Q: each((c) => shown(c, POWER_FLOOR, () => expected.addPower(model, step, c, true))),
    I: each((c) => shown(c, CURRENT_FLOOR, () => expected.addShownCurrent(model, step, c))),
    V: each((c) => ({
      mean: (model.voltage[c] as number) * SUPPLY_V,
      variance: model.voltageSdV ** 2 + 1,
    })),
    clamp: each((k) => {
      const mean = expected.clamped(model, step, k);
      return { mean, variance: filter.project(clampVariance(model, mean)) };
    }),
  };
  filter.restore(kept);
  return found;
}
