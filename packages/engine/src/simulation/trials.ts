/**
 * What becomes of the supply when something fails while a car charges and the building is at its highest.
 *
 * @module
 */
import { overByCarsS, type SiteOutcome } from "./outcome.ts";
import type { CarHabit } from "./sessions.ts";
import { type BuildingDemand, simulateAll } from "./simulate.ts";
import type { CarPlan, SitePlan } from "./site-plan.ts";
import { maskOf } from "./site-state.ts";
import type { TimedFaultEffect } from "./timed-fault.ts";

export const TRIALS = [
  "nothing",
  "reading-frozen",
  "bus-lost",
  "bus-lost-on-rise",
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

/** Place of the car that adds most to a line. */
function heaviestOn(plan: SitePlan, line: number): number {
  const weight = (car: CarPlan): number =>
    linesOf(plan, car) & (1 << line) ? Math.min(car.onboardA, plan.points[car.point]?.ratedA ?? 0) : 0;
  return plan.cars.reduce(
    (best, car, index) => (weight(car) > weight(plan.cars[best] as CarPlan) ? index : best),
    0,
  );
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
    case "bus-lost-on-rise":
      return { kind: "bus-lost" };
    case "clock-jump":
      return { kind, jumpS: HOUR_S };
    case "car-ignores-offer":
      return { kind, point: plan.cars[heaviestOn(plan, line)]?.point ?? 0 };
    default:
      return { kind };
  }
}

/** An interval of a building's demand. */
export interface Moment {
  readonly day: number;
  readonly timeS: number;
  readonly line: 0 | 1 | 2;
}

interface LookedAt {
  readonly lineCount: number;
  /** Mask of the lines that are looked at. */
  readonly lines: number;
}

/** The highest interval of a building and where it lies. */
export const peakOf = (building: BuildingDemand, days: number, looked: LookedAt): Moment =>
  momentOf(building, days, looked, (currentA) => currentA);

/**
 * The interval in which the supply would carry most if the car went on with what it could draw before it.
 *
 * @param car What the manager keeps a line under, and the most a car adds to it. [A]
 */
export const riseOf = (
  building: BuildingDemand,
  days: number,
  looked: LookedAt,
  car: { readonly limitA: number; readonly mostA: number },
): Moment =>
  momentOf(
    building,
    days,
    looked,
    (currentA, beforeA) => currentA + Math.min(car.mostA, Math.max(0, car.limitA - beforeA)),
  );

/** The interval that weighs most; NaN weighs nothing. @param weigh By the interval's current and the one before. */
function momentOf(
  building: BuildingDemand,
  days: number,
  { lineCount, lines }: LookedAt,
  weigh: (currentA: number, beforeA: number) => number,
): Moment {
  const dayA = new Float64Array(building.intervalsPerDay * lineCount);
  const before = new Float64Array(lineCount).fill(Number.NaN);
  const first = [0, 1, 2].find((line) => lines & (1 << line)) ?? 0;
  let most = Number.NEGATIVE_INFINITY;
  let moment: Moment = { day: 0, timeS: 18 * HOUR_S, line: first as 0 | 1 | 2 };
  for (let day = 0; day < days; day++) {
    building.fill(day, dayA);
    for (let at = 0; at < dayA.length; at++) {
      const line = at % lineCount;
      const currentA = dayA[at] as number;
      const weight = lines & (1 << line) ? weigh(currentA, before[line] as number) : Number.NaN;
      before[line] = currentA;
      if (!(weight > most)) continue;
      most = weight;
      const timeS = (Math.floor(at / lineCount) * 86_400) / building.intervalsPerDay;
      moment = { day, timeS, line: line as 0 | 1 | 2 };
    }
  }
  return moment;
}

export interface FaultTrials {
  readonly plan: SitePlan;
  readonly habits: readonly CarHabit[];
  readonly building: BuildingDemand;
  readonly days: number;
  readonly fallbacksA: readonly (number | null)[];
  readonly kinds?: readonly TrialKind[];
}

/**
 * Every fault, with the fallback and without, on the day of the building's peak and the one after.
 *
 * The peak is that of the lines that cars draw from. All cars are there from two hours before it, or the one alone
 * that adds most to its line, whichever is worse, and want more than they can take; the fault begins an hour
 * before it and lasts twelve hours, a manager's restart begins a minute before it and lasts five. Of the cars the
 * one that adds most to the line of the peak ignores its offer.
 *
 * The bus breaks a second time at the worst moment for the time-out: as the building rises so that the last offer
 * takes the supply highest. Nothing wrong is run once: no fallback is taken.
 */
export function faultTrials(input: FaultTrials): readonly Trial[] {
  const { plan, building, days, fallbacksA, kinds = TRIALS } = input;
  const looked = {
    lineCount: plan.lineCount,
    lines: plan.cars.reduce((mask, car) => mask | linesOf(plan, car), 0),
  };
  const { limitA, marginA } = plan.control;
  const mostA = Math.max(0, ...plan.cars.map(({ onboardA }) => onboardA));
  const moments = {
    peak: peakOf(building, days, looked),
    rise: riseOf(building, days, looked, { limitA: limitA - marginA, mostA }),
  };
  const tried = (["peak", "rise"] as const).flatMap((name) => {
    const cases = kinds
      .filter((kind) => (kind === "bus-lost-on-rise") === (name === "rise"))
      .flatMap((kind) =>
        (kind === "nothing" ? fallbacksA.slice(0, 1) : fallbacksA).map((fallbackA) => ({ kind, fallbackA })),
      );
    return cases.length === 0 ? [] : trialsAt(moments[name], cases, input);
  });
  return tried.toSorted((a, b) => kinds.indexOf(a.kind) - kinds.indexOf(b.kind));
}

type TrialCase = Pick<Trial, "kind" | "fallbackA">;

function trialsAt(
  moment: Moment,
  cases: readonly TrialCase[],
  { plan, habits, building }: FaultTrials,
): readonly Trial[] {
  // The day before is run first, so that cables are as warm as they would be.
  const firstDay = Math.max(0, moment.day - 1);
  const momentS = (moment.day - firstDay) * 86_400 + moment.timeS;
  const hungry = habits.map((habit) => ({
    ...habit,
    chargesPerWeek: 7,
    arrivesS: Math.max(0, moment.timeS - 2 * HOUR_S),
    arrivesSpreadS: 0,
    leavesS: (moment.timeS + 12 * HOUR_S) % 86_400,
    leavesSpreadS: 0,
    medianKwh: NEVER_FULL_KWH,
    mostKwh: NEVER_FULL_KWH,
    energySpread: 0,
    randomDelayS: 0,
  }));
  const plans = cases.map(({ kind, fallbackA }): SitePlan => {
    const effect = effectOf(kind, moment.line, plan);
    const fromS = Math.max(0, momentS - leadS(kind));
    const untilS = fromS + (kind === "manager-restarted" ? RESTART_S : 12 * HOUR_S);
    const fault = effect === null ? [] : [{ ...effect, fromS, untilS }];
    return { ...plan, control: { ...plan.control, fallbackA }, faults: [...plan.faults, ...fault] };
  });
  const run = (whose: readonly CarHabit[]): readonly SiteOutcome[] =>
    simulateAll({
      plans,
      habits: whose,
      building: { ...building, fill: (day, intoA) => building.fill(firstDay + day, intoA) },
      days: moment.day - firstDay + 2,
      seed: 0,
    });
  const together = run(hungry);
  // Cars that share take less of a line each than one that is there by itself.
  const alone =
    habits.length < 2
      ? []
      : run(hungry.map((habit, car) => (car === heaviestOn(plan, moment.line) ? habit : absent(habit))));
  return cases.map((item, index) => ({
    ...item,
    outcome: worse(together[index] as SiteOutcome, alone[index]),
  }));
}

const absent = (habit: CarHabit): CarHabit => ({ ...habit, chargesPerWeek: 0 });

/** Of two outcomes the one that keeps the supply over with a car for longer, else the one that carries more. */
function worse(a: SiteOutcome, b: SiteOutcome | undefined): SiteOutcome {
  if (b === undefined) return a;
  const mostOf = ({ lines }: SiteOutcome): number => Math.max(...lines.map(({ mostA }) => mostA));
  return (overByCarsS(b) - overByCarsS(a) || mostOf(b) - mostOf(a)) > 0 ? b : a;
}

/** How long before its moment a fault begins. [s] */
function leadS(kind: TrialKind): number {
  if (kind === "bus-lost-on-rise") return 0;
  return kind === "manager-restarted" ? RESTART_BEFORE_S : HOUR_S;
}
