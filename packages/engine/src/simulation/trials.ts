/**
 * What becomes of the supply when something fails while a car charges and the building is at its highest.
 *
 * @module
 */
import type { SiteOutcome } from "./outcome.ts";
import type { CarHabit } from "./sessions.ts";
import { type BuildingDemand, simulateAll } from "./simulate.ts";
import type { SitePlan } from "./site-plan.ts";
import type { TimedFaultEffect } from "./timed-fault.ts";

export const TRIALS = [
  "nothing",
  "reading-frozen",
  "bus-lost",
  "meter-lost",
  "transformer-reversed",
  "ratio-half",
  "line-missing",
  "manager-restarted",
  "clock-jump",
  "car-ignores-offer",
] as const;
export type TrialKind = (typeof TRIALS)[number];

export interface Trial {
  readonly kind: TrialKind;
  /** Fallback of the trial; null: the last offer is held. [A] */
  readonly fallbackA: number | null;
  readonly outcome: SiteOutcome;
}

const HOUR_S = 3600;
/** Time a manager needs to start again. */
const RESTART_S = 300;

function effectOf(kind: TrialKind, line: 0 | 1 | 2): TimedFaultEffect | null {
  switch (kind) {
    case "nothing":
      return null;
    case "ratio-half":
      return { kind: "ratio-wrong", multiple: 0.5 };
    case "transformer-reversed":
    case "line-missing":
      return { kind, line };
    case "clock-jump":
      return { kind, jumpS: HOUR_S };
    case "car-ignores-offer":
      return { kind, point: 0 };
    default:
      return { kind };
  }
}

/** The highest interval of a building and where it lies. */
export function peakOf(
  building: BuildingDemand,
  days: number,
  lineCount: number,
): { readonly day: number; readonly timeS: number; readonly line: 0 | 1 | 2 } {
  const dayA = new Float64Array(building.intervalsPerDay * lineCount);
  let most = Number.NEGATIVE_INFINITY;
  let peak = { day: 0, timeS: 18 * HOUR_S, line: 0 as 0 | 1 | 2 };
  for (let day = 0; day < days; day++) {
    building.fill(day, dayA);
    for (let at = 0; at < dayA.length; at++)
      if ((dayA[at] as number) > most) {
        most = dayA[at] as number;
        const timeS = (Math.floor(at / lineCount) * 86_400) / building.intervalsPerDay;
        peak = { day, timeS, line: (at % lineCount) as 0 | 1 | 2 };
      }
  }
  return peak;
}

/**
 * Every fault, with the fallback and without, on the day of the building's peak and the one after.
 *
 * All cars are there from two hours before the peak and want as much as they can take; the fault begins an hour
 * before it and lasts twelve hours, a manager's restart five minutes.
 */
export function faultTrials(input: {
  readonly plan: SitePlan;
  readonly habits: readonly CarHabit[];
  readonly building: BuildingDemand;
  readonly days: number;
  readonly fallbacksA: readonly (number | null)[];
  readonly kinds?: readonly TrialKind[];
}): readonly Trial[] {
  const { plan, habits, building, days, fallbacksA, kinds = TRIALS } = input;
  const peak = peakOf(building, days, plan.lineCount);
  // The day before is run first, so that cables are as warm as they would be.
  const firstDay = Math.max(0, peak.day - 1);
  const peakS = (peak.day - firstDay) * 86_400 + peak.timeS;
  const fromS = Math.max(0, peakS - HOUR_S);
  const hungry = habits.map((habit) => ({
    ...habit,
    chargesPerWeek: 7,
    arrivesS: Math.max(0, peak.timeS - 2 * HOUR_S),
    arrivesSpreadS: 0,
    leavesS: (peak.timeS + 12 * HOUR_S) % 86_400,
    leavesSpreadS: 0,
    medianKwh: habit.mostKwh,
    energySpread: 0,
    randomDelayS: 0,
  }));
  const cases = kinds.flatMap((kind) => fallbacksA.map((fallbackA) => ({ kind, fallbackA })));
  const plans = cases.map(({ kind, fallbackA }): SitePlan => {
    const effect = effectOf(kind, peak.line);
    const lastsS = kind === "manager-restarted" ? RESTART_S : 12 * HOUR_S;
    const fault = effect === null ? [] : [{ ...effect, fromS, untilS: fromS + lastsS }];
    return { ...plan, control: { ...plan.control, fallbackA }, faults: [...plan.faults, ...fault] };
  });
  const outcomes = simulateAll({
    plans,
    habits: hungry,
    building: { ...building, fill: (day, intoA) => building.fill(firstDay + day, intoA) },
    days: peak.day - firstDay + 2,
    seed: 0,
  });
  return cases.map((item, index) => ({ ...item, outcome: outcomes[index] as SiteOutcome }));
}
