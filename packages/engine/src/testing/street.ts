import type { Portfolio } from "../portfolio/index.ts";

/** A portfolio for tests: a small street with everything in it, on a few winter days. */
export const street = (
  change: Partial<Portfolio> = {},
  cars: Partial<Portfolio["cars"]> = {},
): Portfolio => ({
  format: "underfuse-portfolio",
  formatVersion: 1,
  title: "A street of tests",
  homes: 12,
  electricShowerShare: 0.67,
  heatPumpShare: 0.3,
  homeLimitA: 60,
  feeder: { lines: 3, voltageV: 230, limitA: 40 },
  days: { first: 360, count: 6 },
  draws: 3,
  ...change,
  cars: {
    share: 0.6,
    rateA: 32,
    plugInsPerWeek: 5,
    energyMedianKwh: 12,
    energySpread: 0.6,
    arrivalHour: 18,
    arrivalSpreadH: 2,
    pluggedInH: 12,
    tariff: { startHour: 0.5, lengthH: 5, followedShare: 0.5 },
    randomDelayS: 600,
    managedAtHome: false,
    ...cars,
  },
});
