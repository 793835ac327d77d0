/**
 * Data for the committed plots: scenarios of our own, the same at every run.
 *
 * @module
 */
import type {
  AfterDiversityDemand,
  EnergyPerSession,
  FuseMarginYear,
  HistogramOfPeaks,
  SweepTable,
  TimeCurrentChart,
  WeekOfCurrent,
} from "../present/plots/index.ts";

/** A number from 0 to 1 that looks random and is the same for the same place. */
const jitter = (place: number): number => {
  const wave = Math.sin(place * 12.9898) * 43_758.5453;
  return wave - Math.floor(wave);
};
const series = (count: number, value: (index: number) => number): Float64Array =>
  Float64Array.from({ length: count }, (_, index) => value(index));

const PERIODS = 1008;
const DAYS = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"].map((label, day) => ({
  period: day * 144,
  label,
}));

function weekLine(name: string, seed: number, isMissing: (period: number) => boolean) {
  const gap = (period: number, value: number): number => (isMissing(period) ? Number.NaN : value);
  const hourOf = (period: number): number => (period % 144) / 6;
  const evening = (period: number): number =>
    22 * Math.exp(-(((hourOf(period) - 18.5) / 2) ** 2)) + 8 * Math.exp(-(((hourOf(period) - 7.5) / 1) ** 2));
  const car = (period: number): number =>
    hourOf(period) > 19 || hourOf(period) < 3 ? Math.min(32, Math.max(0, 52 - evening(period) - 5)) : 0;
  const building = (period: number): number => 4 + evening(period) + 4 * jitter(period + seed);
  return {
    name,
    supplyMeanA: series(PERIODS, (p) => gap(p, building(p) + car(p))),
    supplyMaxA: series(PERIODS, (p) => gap(p, building(p) + car(p) + 14 * jitter(p * 3 + seed) ** 4)),
    carMeanA: series(PERIODS, (p) => gap(p, car(p))),
    carMaxA: series(PERIODS, (p) => gap(p, car(p) === 0 ? 0 : Math.min(32, car(p) + 3 * jitter(p + 7)))),
  };
}

export const WEEK: WeekOfCurrent = {
  id: "week",
  title: "A week of current, three lines",
  periodS: 600,
  lines: [
    weekLine("L1", 1, () => false),
    weekLine("L2", 200, (period) => period > 430 && period < 470),
    weekLine("L3", 3000, () => false),
  ],
  days: DAYS,
  limitA: 60,
  fuseA: 80,
  moment: { period: 404, line: "L2", label: "shower and oven at once" },
};

export const WEEK_OF_EXPORT: WeekOfCurrent = {
  ...WEEK,
  id: "week-of-export",
  title: "A week of current, one line with panels on the roof",
  lines: [
    {
      ...weekLine("L1", 5, () => false),
      supplyMeanA: series(
        PERIODS,
        (p) => 6 + 3 * jitter(p) - 18 * Math.max(0, Math.sin(((p % 144) / 72 - 0.5) * Math.PI)),
      ),
      supplyMaxA: series(
        PERIODS,
        (p) => 9 + 9 * jitter(p) - 17 * Math.max(0, Math.sin(((p % 144) / 72 - 0.5) * Math.PI)),
      ),
    },
  ],
  moment: null,
};

export const PEAKS: HistogramOfPeaks = {
  id: "peaks",
  title: "Highest current of each day",
  peaksA: series(365, (day) => 30 + 20 * jitter(day) + 25 * jitter(day * 7) ** 5 + 12 * jitter(day * 5) ** 8),
  peakOf: "day",
  limitA: 60,
  fuseA: 80,
};

export const YEAR: FuseMarginYear = {
  id: "year",
  title: "Margin of the main fuse through a year",
  fastFraction: series(365, (day) =>
    day > 200 && day < 206 ? Number.NaN : 0.05 + 0.7 * jitter(day) ** 6 * (1 + 0.3 * Math.cos(day / 58)),
  ),
  slowFraction: series(365, (day) => (day > 200 && day < 206 ? Number.NaN : 0.01 + 0.12 * jitter(day) ** 6)),
  firstDayIso: "2026-01-01",
};

export const YEAR_BEYOND: FuseMarginYear = {
  ...YEAR,
  id: "year-beyond",
  title: "A year in which the fuse would have melted",
  fastFraction: series(365, (day) => 0.004 + 30 * jitter(day) ** 12),
  slowFraction: series(365, (day) => 0.001 + 3 * jitter(day) ** 12),
  firstDayIso: null,
};

/** Gates of a gG fuse of 80 A, recalled, not yet checked: the drawing needs a shape, not the figures. */
const GATES_80: TimeCurrentChart["band"] = {
  fast: [
    [100, 7200],
    [215, 10],
    [610, 0.1],
    [1250, 0.01],
  ],
  slow: [
    [128, 7200],
    [425, 5],
    [1100, 0.1],
    [2200, 0.01],
  ],
};

export const CHART: TimeCurrentChart = {
  id: "chart",
  title: "Excursions against the main fuse of 80 A",
  band: GATES_80,
  limitA: 60,
  fuseA: 80,
  excursions: [
    ...Array.from({ length: 400 }, (_, index) => ({
      currentA: 61 + 60 * jitter(index) ** 3,
      durationS: 1 + 30 * jitter(index * 3) ** 2,
    })),
    { currentA: 140, durationS: 900 },
    { currentA: 260, durationS: 12 },
    { currentA: 300, durationS: 200 },
  ],
};

export const SESSIONS: EnergyPerSession = {
  id: "sessions",
  title: "Energy of each session",
  wantedKwh: series(28, (index) => 6 + 30 * jitter(index)),
  deliveredKwh: series(28, (index) => (6 + 30 * jitter(index)) * Math.min(1, 0.55 + jitter(index * 5))),
  names: null,
};

export const MANY_SESSIONS: EnergyPerSession = {
  id: "many-sessions",
  title: "Share delivered, a year of sessions",
  wantedKwh: series(412, (index) => 6 + 30 * jitter(index)),
  deliveredKwh: series(412, (index) => (6 + 30 * jitter(index)) * Math.min(1, 0.55 + jitter(index * 5))),
  names: null,
};

export const DIVERSITY: AfterDiversityDemand = {
  id: "diversity",
  title: "Demand of homes with cars, after diversity",
  bandOf: "90 % of drawn groups",
  points: [1, 2, 3, 5, 8, 10, 15, 20, 30, 50, 80, 100].map((customerCount) => ({
    customerCount,
    demandKw: 1.6 + 7 / customerCount ** 0.7,
    lowKw: 1.6 + 4.2 / customerCount ** 0.8,
    highKw: 1.6 + 10.4 / customerCount ** 0.65,
  })),
};

export const SWEEP: SweepTable = {
  id: "sweep",
  title: "Seconds above the fuse rating, by limit and poll",
  rowsName: "limit",
  rows: ["50 A", "60 A", "70 A", "80 A"],
  columnsName: "poll",
  columns: ["1 s", "2 s", "5 s", "10 s", "30 s"],
  cells: [0, 1, 2, 3].map((row) =>
    series(5, (column) => (row === 3 && column === 4 ? Number.NaN : row * row * (column + 1) * 1.7)),
  ),
  outcome: { name: "time above the fuse rating", unit: "s", decimals: 0, bound: 40 },
};
