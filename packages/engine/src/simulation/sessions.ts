/**
 * When cars come, what they want and when they must be ready, drawn by day from how they are used.
 *
 * @module
 */
import { drawLognormal, drawNormal, type RandomStream } from "../chance/index.ts";
import type { Session } from "./site-plan.ts";

/** How one car is used. Times of day in seconds from midnight. */
export interface CarHabit {
  /** Charges a week; it is plugged in on a day with a seventh of that as its chance. */
  readonly chargesPerWeek: number;
  readonly arrivesS: number;
  readonly arrivesSpreadS: number;
  /** On the day after it came where that is not later than it usually comes. */
  readonly leavesS: number;
  readonly leavesSpreadS: number;
  /** Energy wanted at the charge point: half of the sessions want less than this. [kWh] */
  readonly medianKwh: number;
  /** Standard deviation of the logarithm of the energy. */
  readonly energySpread: number;
  /** No session wants more. [kWh] */
  readonly mostKwh: number;
  /** Charging begins at random up to this long after the car comes. */
  readonly randomDelayS: number;
}

const DAY_S = 86_400;
/** Nobody plugs in for less. */
const SHORTEST_STAY_S = 1800;

/** Sessions that begin on a day; the same for the same seed, car and day, whatever was drawn before. */
export function sessionsOfDay(
  habits: readonly CarHabit[],
  random: RandomStream,
  day: number,
): readonly Session[] {
  return habits.flatMap((habit, car): Session[] => {
    random.start("car-day", { site: car, day });
    const isPluggedIn = random.uniform() < habit.chargesPerWeek / 7;
    const spreadS = (sigmaS: number) => sigmaS * Math.max(-2.5, Math.min(2.5, drawNormal(random)));
    const arrivesS = clampDay(habit.arrivesS + spreadS(habit.arrivesSpreadS));
    const leaves = habit.leavesS + spreadS(habit.leavesSpreadS);
    const wantedKwh = Math.min(
      habit.mostKwh,
      drawLognormal(random, { median: habit.medianKwh, sigma: habit.energySpread }),
    );
    const delayS = habit.randomDelayS * random.uniform();
    if (!isPluggedIn) return [];
    const isSameDay = habit.leavesS > habit.arrivesS;
    const untilS = isSameDay ? Math.max(leaves, arrivesS + SHORTEST_STAY_S) : leaves + DAY_S;
    const startS = day * DAY_S + Math.min(arrivesS + delayS, untilS - SHORTEST_STAY_S);
    return [{ car, startS, untilS: day * DAY_S + untilS, wantedKwh }];
  });
}

const clampDay = (timeS: number): number => Math.max(0, Math.min(DAY_S - 1, timeS));
