import type { Evidence, EvidenceStep } from "./evidence.ts";
import type { Likelihood } from "./likelihood.ts";
import type { ObservationModel } from "./observation-model.ts";

/**
 * What a hypothesis would have shown in the same steps on a site that stands still: its own estimate of
 * loads, car and errors, without noise. Call after {@link Likelihood.of} with the same model.
 *
 * Voltages stay as read, each channel at its mean. Only what was read is predicted.
 */
export function predictedEvidence(
  likelihood: Likelihood,
  model: ObservationModel,
  evidence: Evidence,
): Evidence {
  const { expected } = likelihood;
  const { filter, places, lines } = expected;
  const kept = filter.keepsake();
  filter.keep(kept);
  const last = evidence.steps.at(-1) as EvidenceStep;
  const each = (one: (c: number) => number): number[] => Array.from({ length: lines }, (_, c) => one(c));
  const volts = each((c) => meanOf(evidence.steps.map((step) => step.V[c] as number)));
  const predicted = (step: EvidenceStep): EvidenceStep => {
    filter.restore(kept);
    for (let k = 0; k < lines; k++)
      filter.state[k] = (filter.state[k] as number) + (step.loadW[k] as number) - (last.loadW[k] as number);
    const gain = (c: number): number => 1 + (filter.state[places.gain + c] as number);
    const current = (c: number): number => {
      filter.row.fill(0);
      return expected.addShownCurrent(model, step, c) * gain(c);
    };
    // A channel below the least it shows is silent; above the most, it stays there.
    const through = (c: number): number => {
      const amps = current(c);
      return amps < model.floorA ? 0 : amps > model.clipA ? model.clipA / amps : 1;
    };
    const power = (c: number, isReactive: boolean): number => {
      const own = expected.power(model, step, c, isReactive);
      const twin = expected.power(model, step, c, !isReactive);
      const turned = (filter.state[places.angle + c] as number) * (isReactive ? -twin : twin);
      return (own * gain(c) + turned) * through(c);
    };
    const where = (read: readonly number[], value: (c: number) => number): number[] =>
      each((c) => (Number.isNaN(read[c]) ? Number.NaN : value(c)));
    const sum = (read: number, isReactive: boolean): number =>
      Number.isNaN(read) ? read : each((c) => power(c, isReactive)).reduce((total, one) => total + one, 0);
    return {
      ...step,
      V: where(step.V, (c) => volts[c] as number),
      I: where(step.I, (c) => current(c) * through(c)),
      P: where(step.P, (c) => power(c, false)),
      Q: where(step.Q, (c) => power(c, true)),
      totalP: sum(step.totalP, false),
      totalQ: sum(step.totalQ, true),
      clampA: where(step.clampA, (k) => expected.clamped(model, step, k)),
    };
  };
  const steps = evidence.steps.map(predicted);
  filter.restore(kept);
  return { ...evidence, steps };
}

const meanOf = (values: readonly number[]): number => {
  const read = values.filter((value) => !Number.isNaN(value));
  return read.length === 0 ? Number.NaN : read.reduce((sum, value) => sum + value, 0) / read.length;
};
