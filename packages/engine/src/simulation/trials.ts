/**
 * What becomes of the supply when something fails while a car charges and the building is at its highest.
 *
 * @module
 */
import type { SiteOutcome } from "./outcome.ts";
import type { CarHabit } from "./sessions.ts";
import { type BuildingDemand, simulateAll } from "./simulate.ts";
import type { CarPlan, SitePlan } from "./site-plan.ts";
import { maskOf } from "./site-state.ts";
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
/** Time a manager needs to start again, and how long before the peak it goes off. */
const RESTART_S = 300;
const RESTART_BEFORE_S = 60;
/** More than any car takes between coming and leaving: none is full before the fault tells. [kWh] */
const NEVER_FULL_KWH = 10_000;

/** Lines that a car draws from, as a mask. */
const linesOf = ({ points }: SitePlan, { point, lineCount }: CarPlan): number =>
  maskOf({ lines: points[point]?.lines.slice(0, lineCount) ?? [] });

/** The charge point of the car that adds most to a line. */
function heaviestOn(plan: SitePlan, line: number): number {
  const weight = (car: CarPlan): number => (linesOf(plan, car) & (1 << line) ? car.onboardA : 0);
  return plan.cars.reduce((a, b) => (weight(b) > weight(a) ? b : a), plan.cars[0] as CarPlan).point;
}

function effectOf(kind: TrialKind, line: 0 | 1 | 2, plan: SitePlan): TimedFaultEffect | null {
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
      return { kind, point: heaviestOn(plan, line) };
    default:
      return { kind };
  }
}

/**
 * The highest interval of a building and where it lies.
 *
 * @param lines Mask of the lines that are looked at.
 */
export function peakOf(
  building: BuildingDemand,
  days: number,
  { lineCount, lines }: { readonly lineCount: number; readonly lines: number },
): { readonly day: number; readonly timeS: number; readonly line: 0 | 1 | 2 } {
  const dayA = new Float64Array(building.intervalsPerDay * lineCount);
  let most = Number.NEGATIVE_INFINITY;
  const first = [0, 1, 2].find((line) => lines & (1 << line)) ?? 0;
  let peak = { day: 0, timeS: 18 * HOUR_S, line: first as 0 | 1 | 2 };
  for (let day = 0; day < days; day++) {
    building.fill(day, dayA);
    for (let at = 0; at < dayA.length; at++)
      if (lines & (1 << (at % lineCount)) && (dayA[at] as number) > most) {
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
 * The peak is that of the lines that cars draw from. All cars are there from two hours before it and want more than
 * they can take; the fault begins an hour before it and lasts twelve hours, a manager's restart begins a minute
 * before it and lasts five. Of the cars the one that adds most to the line of the peak ignores its offer.
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
  const lines = plan.cars.reduce((mask, car) => mask | linesOf(plan, car), 0);
  const peak = peakOf(building, days, { lineCount: plan.lineCount, lines });
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
    medianKwh: NEVER_FULL_KWH,
    mostKwh: NEVER_FULL_KWH,
    energySpread: 0,
    randomDelayS: 0,
  }));
  const cases = kinds.flatMap((kind) => fallbacksA.map((fallbackA) => ({ kind, fallbackA })));
  const plans = cases.map(({ kind, fallbackA }): SitePlan => {
    const effect = effectOf(kind, peak.line, plan);
    const isRestart = kind === "manager-restarted";
    const beginsS = isRestart ? Math.max(0, peakS - RESTART_BEFORE_S) : fromS;
    const untilS = beginsS + (isRestart ? RESTART_S : 12 * HOUR_S);
    const fault = effect === null ? [] : [{ ...effect, fromS: beginsS, untilS }];
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
