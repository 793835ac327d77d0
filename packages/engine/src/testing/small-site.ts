import type { CarHabit, CarPlan, SitePlan } from "../simulation/index.ts";
import { promptControl } from "./prompt-control.ts";

const promptCar: CarPlan = {
  id: "car",
  point: 0,
  onboardA: 32,
  lineCount: 1,
  response: {
    deadS: 0,
    fallAPerS: Number.POSITIVE_INFINITY,
    riseAPerS: Number.POSITIVE_INFINITY,
    resumeS: 0,
  },
  taperKwh: 0,
};

/** One line, one charge point of 32 A, one car, an 80 A fuse of invented gates, the tails as one body. */
export const smallSite: SitePlan = {
  lineCount: 1,
  stepS: 1,
  voltageV: 230,
  supplyLimitA: 60,
  listExcursionsFromS: 15,
  control: promptControl,
  points: [{ id: "point", lines: [0], ratedA: 32 }],
  cars: [promptCar],
  fuse: {
    band: {
      fast: [
        [75, 3600],
        [150, 10],
        [400, 0.1],
      ],
      slow: [
        [96, 3600],
        [300, 5],
        [800, 0.1],
      ],
    },
    coolingS: 1200,
  },
  bodies: [
    { id: "tails", carries: "supply", ratedA: 87, tauS: 226, ambientC: 30, riseAtRatedK: 40, limitC: 70 },
  ],
  faults: [],
};

/** Every evening at six until half past seven, 7.36 kWh: an hour at 32 A and 230 V. */
export const nightly: CarHabit = {
  chargesPerWeek: 7,
  arrivesS: 18 * 3600,
  arrivesSpreadS: 0,
  leavesS: 7.5 * 3600,
  leavesSpreadS: 0,
  medianKwh: 7.36,
  energySpread: 0,
  mostKwh: 60,
  randomDelayS: 0,
};

/** A building that draws the same all day but for some hours. */
export const buildingWith = (
  restA: number,
  ...hours: readonly { readonly fromH: number; readonly untilH: number; readonly currentA: number }[]
) => ({
  intervalsPerDay: 1440,
  fill: (_day: number, intoA: Float64Array) => {
    intoA.fill(restA);
    for (const { fromH, untilH, currentA } of hours) intoA.fill(currentA, fromH * 60, untilH * 60);
  },
});
