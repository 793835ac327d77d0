/**
 * What the synthetic demand is drawn from: published figures of appliances, and habits of this project's own.
 *
 * The published rows give each appliance's ownership, uses a year, length, power and power factor. When in the
 * day, the week and the year it is used is not among them: the hours, swings and spreads below are this
 * project's own, chosen by hand and held by tests to published totals only.
 *
 * @module
 */
import type { ApplianceFigures, ApplianceTable, HoursOfDay } from "@underfuse/engine";

const row = (
  ownedShare: number,
  usesPerYear: number,
  useMin: number,
  runningW: number,
  standbyW: number,
  powerFactor: number,
): ApplianceFigures => ({ ownedShare, usesPerYear, useMin, runningW, standbyW, powerFactor });

/** The same hours on every day of the week. */
const daily = (...hours: number[]): HoursOfDay => ({ weekday: hours, weekend: hours, weekendUse: 1 });

const FIGURES: ApplianceTable["figures"]["rows"] = {
  "chest-freezer": row(0.163, 6115.8, 14, 190, 0, 0.8),
  "fridge-freezer": row(0.651, 6115.8, 22, 190, 0, 0.8),
  refrigerator: row(0.43, 6115.8, 18, 110, 0, 0.8),
  "upright-freezer": row(0.291, 6115.8, 20, 155, 0, 0.8),
  "hi-fi": row(0.9, 109.4, 60, 100, 9, 1),
  iron: row(0.9, 35.5, 30, 1000, 0, 1),
  vacuum: row(0.937, 110.4, 20, 2000, 0, 1),
  computer: row(0.708, 449.2, 300, 141, 5, 0.9),
  television: row(0.977, 1464.3, 73, 124, 3, 0.9),
  hob: row(0.463, 417.9, 16, 2400, 1, 1),
  oven: row(0.616, 219.8, 27, 2125, 3, 1),
  microwave: row(0.859, 94.6, 30, 1250, 2, 1),
  kettle: row(0.975, 1519.8, 3, 2000, 1, 1),
  "small-cooking": row(1, 292.3, 3, 1000, 2, 1),
  dishwasher: row(0.335, 241.5, 60, 1131, 0, 0.8),
  "tumble-dryer": row(0.416, 122.1, 60, 2500, 1, 0.8),
  "washing-machine": row(0.781, 195.9, 138, 406, 1, 0.8),
  "washer-dryer": row(0.153, 195.9, 198, 792, 1, 0.8),
  "cylinder-heater": row(0.17, 2685, 20, 3000, 0, 1),
  "instantaneous-heater": row(0.01, 7208.6, 5, 3000, 0, 1),
  "electric-shower": row(0.67, 290.4, 3, 9000, 0, 1),
  "storage-heaters": row(0.028, 227.2, 360, 10200, 0, 1),
  "other-heating": row(0.026, 365.7, 240, 2000, 0, 1),
};

const HABITS: ApplianceTable["habits"]["rows"] = {
  "chest-freezer": { hours: "evenly", winterSwing: 0, followsPeople: false },
  "fridge-freezer": { hours: "evenly", winterSwing: 0, followsPeople: false },
  refrigerator: { hours: "evenly", winterSwing: 0, followsPeople: false },
  "upright-freezer": { hours: "evenly", winterSwing: 0, followsPeople: false },
  "hi-fi": { hours: "leisure", winterSwing: 0, followsPeople: true },
  iron: { hours: "chores", winterSwing: 0, followsPeople: true },
  vacuum: { hours: "chores", winterSwing: 0, followsPeople: true },
  computer: { hours: "leisure", winterSwing: 0.1, followsPeople: true },
  television: { hours: "leisure", winterSwing: 0.15, followsPeople: true },
  hob: { hours: "meals", winterSwing: 0.1, followsPeople: true },
  oven: { hours: "meals", winterSwing: 0.15, followsPeople: true },
  microwave: { hours: "meals", winterSwing: 0, followsPeople: true },
  kettle: { hours: "drinks", winterSwing: 0.1, followsPeople: true },
  "small-cooking": { hours: "meals", winterSwing: 0, followsPeople: true },
  dishwasher: {
    hours: "chores",
    winterSwing: 0,
    followsPeople: true,
    heatedFirst: { min: 25, powerW: 2000 },
  },
  "tumble-dryer": { hours: "chores", winterSwing: 0.4, followsPeople: true },
  "washing-machine": {
    hours: "chores",
    winterSwing: 0,
    followsPeople: true,
    heatedFirst: { min: 20, powerW: 2000 },
  },
  "washer-dryer": {
    hours: "chores",
    winterSwing: 0.2,
    followsPeople: true,
    heatedFirst: { min: 20, powerW: 2000 },
  },
  "cylinder-heater": { hours: "water", winterSwing: 0.15, followsPeople: true },
  "instantaneous-heater": { hours: "drinks", winterSwing: 0.1, followsPeople: true },
  "electric-shower": { hours: "washing", winterSwing: 0.05, followsPeople: true },
  "storage-heaters": { hours: "night", winterSwing: 0.6, followsPeople: false, isAtMostOnce: true },
  "other-heating": { hours: "warmth", winterSwing: 0.9, followsPeople: false },
};

export const APPLIANCES: ApplianceTable = {
  figures: {
    citation: {
      source: "domestic-appliances",
      at: "appliance table: ownership, base cycles, mean cycle length and power, standby power, power factor",
      standing: "second-hand",
      remark: "Read in a public port of the model. A household of 2008; lighting is not among the rows.",
    },
    rows: FIGURES,
  },
  habits: {
    citation: { source: "house-methods", at: "synthetic demand", standing: "own" },
    rows: HABITS,
    lighting: {
      ...row(1, 1095, 120, 60, 0, 0.9),
      hours: "light",
      winterSwing: 0.6,
      followsPeople: true,
    },
    hours: {
      drinks: {
        weekday: [1, 0.5, 0.5, 0.5, 0.5, 1, 4, 8, 9, 7, 6, 6, 7, 6, 5, 6, 7, 8, 8, 7, 7, 6, 4, 2],
        weekend: [1, 0.5, 0.5, 0.5, 0.5, 0.5, 1, 3, 7, 9, 9, 8, 8, 7, 6, 6, 7, 8, 8, 7, 7, 6, 4, 2],
        weekendUse: 1.1,
      },
      meals: {
        weekday: [0.2, 0.1, 0.1, 0.1, 0.1, 0.5, 2, 4, 3, 2, 2, 4, 6, 4, 2, 3, 7, 12, 12, 7, 3, 1.5, 1, 0.5],
        weekend: [0.2, 0.1, 0.1, 0.1, 0.1, 0.2, 1, 2, 4, 5, 5, 6, 9, 8, 4, 4, 7, 10, 10, 7, 3, 1.5, 1, 0.5],
        weekendUse: 1.15,
      },
      washing: {
        weekday: [0.5, 0.3, 0.2, 0.2, 0.5, 3, 10, 14, 9, 5, 3, 2, 2, 1.5, 1.5, 2, 3, 4, 5, 5, 5, 5, 4, 2],
        weekend: [0.5, 0.3, 0.2, 0.2, 0.3, 1, 3, 7, 11, 12, 9, 6, 4, 3, 2, 2, 3, 4, 5, 5, 5, 5, 4, 2],
        weekendUse: 1,
      },
      chores: {
        weekday: [0.5, 0.3, 0.2, 0.2, 0.2, 0.5, 2, 4, 6, 8, 8, 7, 6, 5, 5, 5, 6, 7, 8, 8, 7, 5, 3, 1],
        weekend: [0.5, 0.3, 0.2, 0.2, 0.2, 0.3, 1, 2, 6, 10, 12, 11, 9, 8, 7, 7, 6, 6, 5, 5, 4, 3, 2, 1],
        weekendUse: 1.3,
      },
      leisure: {
        weekday: [1, 0.5, 0.3, 0.2, 0.2, 0.3, 1, 2, 2, 2, 2, 2, 3, 3, 3, 4, 5, 7, 9, 10, 10, 9, 6, 3],
        weekend: [1.5, 0.8, 0.4, 0.2, 0.2, 0.2, 0.5, 1, 3, 4, 4, 4, 5, 5, 5, 5, 6, 7, 9, 10, 10, 9, 6, 3],
        weekendUse: 1.15,
      },
      light: daily(1, 0.5, 0.3, 0.3, 0.5, 1.5, 4, 5, 3, 1, 1, 1, 1, 1, 1.5, 3, 6, 9, 10, 10, 10, 9, 6, 3),
      water: daily(2, 1, 1, 1, 3, 6, 9, 9, 6, 4, 3, 3, 3, 3, 3, 3, 5, 7, 8, 7, 6, 5, 4, 3),
      warmth: daily(2, 2, 2, 2, 3, 6, 8, 8, 6, 5, 5, 5, 5, 5, 5, 6, 8, 9, 9, 9, 8, 7, 5, 3),
      night: daily(1, ...Array<number>(23).fill(0)),
    },
    heatPump: {
      energyPerKelvinDayWh: 1700,
      inputW: 2500,
      powerFactor: 0.95,
      hours: "warmth",
      baseC: 15.5,
      meanC: 10.5,
      swingC: 6.5,
      spreadK: 3,
    },
    households: {
      peopleShares: [0.3, 0.34, 0.16, 0.14, 0.06],
      useByPeople: [0.66, 0.98, 1.18, 1.36, 1.5],
      spread: 0.3,
      dailySpread: 0.25,
      clockSpreadMin: 45,
    },
  },
};
