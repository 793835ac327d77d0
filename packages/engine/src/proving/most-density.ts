import { censored } from "./densities.ts";
import type { Evidence, EvidenceStep } from "./evidence.ts";
import type { ObservationModel } from "./observation-model.ts";
import { CLAMP_FLOOR, CURRENT_FLOOR, POWER_FLOOR, RANDOM_VAR } from "./reading-errors.ts";

/** Per channel, the most that each reading of a step may add to a likelihood, as a logarithm; 0 where none is. */
export interface MostOfStep {
  readonly P: readonly number[];
  readonly Q: readonly number[];
  readonly I: readonly number[];
  readonly totalsAndClamps: number;
}

/**
 * The most that readings may add to a likelihood, whatever the site does: no reading is likelier than one
 * that is just as expected, with no more than its own error, nor than all of it within one step of its
 * display. Worked out once for each scale of hypotheses.
 */
export class MostDensity {
  private readonly known = new WeakMap<Evidence, Map<number, readonly MostOfStep[]>>();
  private evidence: Evidence | null = null;
  private scale = 1;
  private steps: readonly MostOfStep[] = [];

  of({ scale, clipA }: ObservationModel, evidence: Evidence, stepIndex: number): MostOfStep {
    // A channel at the most it can show is weighed as lying within one step of its display.
    const floor = clipA === Number.POSITIVE_INFINITY ? scale : 0;
    if (this.evidence !== evidence || this.scale !== floor) {
      this.steps = this.find(evidence, floor);
      this.evidence = evidence;
      this.scale = floor;
    }
    return this.steps[stepIndex] as MostOfStep;
  }

  private find(evidence: Evidence, floor: number): readonly MostOfStep[] {
    const scales = this.known.get(evidence) ?? new Map<number, readonly MostOfStep[]>();
    this.known.set(evidence, scales);
    const steps =
      scales.get(floor) ?? evidence.steps.map((step) => mostOfStep(step, evidence.resolution, floor));
    scales.set(floor, steps);
    return steps;
  }
}

function mostOfStep(step: EvidenceStep, resolution: Evidence["resolution"], scale: number): MostOfStep {
  const most = (floor: number, digit: number) => (value: number) => {
    if (Number.isNaN(value)) return 0;
    if (value === 0 || scale === 0) return censored(digit);
    const noise = (floor * scale) ** 2 + RANDOM_VAR * value * value + digit ** 2 / 12;
    return Math.min(censored(digit), peak(noise));
  };
  let totalsAndClamps = 0;
  if (step.P.some((value) => Number.isNaN(value))) {
    if (!Number.isNaN(step.totalP)) totalsAndClamps += censored(resolution.P);
    if (!Number.isNaN(step.totalQ)) totalsAndClamps += censored(resolution.Q);
  }
  for (const amps of step.clampA) if (!Number.isNaN(amps)) totalsAndClamps += peak(CLAMP_FLOOR ** 2);
  return {
    P: step.P.map(most(POWER_FLOOR, resolution.P)),
    Q: step.Q.map(most(POWER_FLOOR, resolution.Q)),
    I: step.I.map(most(CURRENT_FLOOR, resolution.I)),
    totalsAndClamps,
  };
}

/** Logarithm of a normal density at its mean. */
const peak = (variance: number): number => -0.5 * Math.log(2 * Math.PI * variance);
