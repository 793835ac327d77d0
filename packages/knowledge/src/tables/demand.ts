import type { Allowance, AllowanceTable, DemandTables } from "@underfuse/engine";
import { APPLIANCES } from "./appliances.ts";

const share = (value: number): Allowance => ({ kind: "share", share: value });
const ranked = (...shares: [number, ...number[]]): Allowance => ({ kind: "ranked", shares });
const FULL = share(1);

const table = (column: string, allowances: AllowanceTable["allowances"]): AllowanceTable => ({
  citation: {
    source: "demand-allowances",
    at: `table 6.2, ${column}`,
    standing: "seen",
    remark: "Guidance that changes with editions; a designer's judgement may depart from it.",
  },
  allowances,
});

/** Instantaneous heaters: the two largest in full, a quarter of the rest. */
const INSTANTANEOUS = ranked(1, 1, 0.25);

export const DEMAND: DemandTables = {
  appliances: APPLIANCES,
  allowances: {
    dwelling: table("individual household", {
      lighting: share(0.66),
      "heating-and-power": { kind: "first-then-share", firstA: 10, share: 0.5 },
      cooker: { kind: "appliance", firstA: 10, share: 0.3, addedA: 0 },
      "cooker-with-socket": { kind: "appliance", firstA: 10, share: 0.3, addedA: 5 },
      motor: FULL,
      "instantaneous-water-heater": INSTANTANEOUS,
      "thermostatic-water-heater": FULL,
      "storage-or-floor-heating": FULL,
      "standard-circuit": ranked(1, 0.4),
      "other-socket-or-fixed": ranked(1, 0.4),
      "heat-pump": FULL,
    }),
    "shop-or-office": table("small shop, store, office", {
      lighting: share(0.9),
      "heating-and-power": ranked(1, 0.75),
      cooker: ranked(1, 0.8, 0.6),
      "cooker-with-socket": ranked(1, 0.8, 0.6),
      motor: ranked(1, 0.8, 0.6),
      "instantaneous-water-heater": INSTANTANEOUS,
      "thermostatic-water-heater": FULL,
      "storage-or-floor-heating": FULL,
      "standard-circuit": ranked(1, 0.5),
      "other-socket-or-fixed": ranked(1, 0.75),
      "heat-pump": FULL,
    }),
    "guest-house": table("small hotel, boarding house", {
      lighting: share(0.75),
      "heating-and-power": ranked(1, 0.8, 0.6),
      cooker: ranked(1, 0.8, 0.6),
      "cooker-with-socket": ranked(1, 0.8, 0.6),
      motor: ranked(1, 0.5),
      "instantaneous-water-heater": INSTANTANEOUS,
      "thermostatic-water-heater": FULL,
      "storage-or-floor-heating": FULL,
      "standard-circuit": ranked(1, 0.5),
      "other-socket-or-fixed": ranked(1, 0.75, 0.4),
      "heat-pump": FULL,
    }),
  },
  peakRatios: {
    citation: {
      source: "household-minute",
      at: "highest minute of a day over its highest mean: least, greatest and quartiles of 15 days of December",
      standing: "seen",
      remark: "One house; it has no electric shower, so such loads must be added in full.",
    },
    rows: [
      [1, 1, 1, 1, 1, 1],
      [5, 1.02, 1.51, 1.09, 1.14, 1.25],
      [10, 1.04, 1.72, 1.13, 1.24, 1.33],
      [15, 1.08, 1.84, 1.19, 1.32, 1.44],
      [30, 1.32, 2.28, 1.44, 1.47, 1.67],
      [60, 1.58, 2.39, 1.65, 1.76, 1.99],
    ],
  },
};
