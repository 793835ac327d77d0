import { type SimulationView, simulationView } from "../present/simulation-view.ts";
import { planLatency, type SitePlan, simulate, type TimedFault } from "../simulation/index.ts";
import { doubtsOf, type PlannedSite, type SimulatedSite } from "../through-time/index.ts";
import type { Quantity } from "../worked/index.ts";
import { buildingWith, nightly } from "./small-site.ts";

/** 10 A, and 50 A for half an hour of the evening. */
export const usual = buildingWith(10, { fromH: 18.5, untilH: 19, currentA: 50 });
const LIMIT = { kind: "step", symbol: "Iset", label: "limit", unit: "A", value: 60 } as unknown as Quantity;
/** Spaces that do not break, as ordinary ones. */
export const plain = (text: string): string => text.replace(/[\u00a0\u202f]/g, " ");
/** The car takes all it can for ever. */
export const ignoring: TimedFault = {
  kind: "car-ignores-offer",
  point: 0,
  fromS: 0,
  untilS: Number.POSITIVE_INFINITY,
};

/** The small site as planned from a job. */
export const siteOf = (plan: SitePlan, ungoverned: readonly string[] = []): PlannedSite => ({
  plan,
  habits: [nightly],
  lines: ["L1"],
  rests: [],
  presumed: ["equal-sharing"],
  fuseRatingA: 60,
  ungoverned,
  isManagerImagined: false,
  limit: LIMIT,
  highestLimitA: 60,
  misplaced: [],
});

/** A plan run for a day and shown, its run also standing as the one trial. */
export function viewOf(
  plan: SitePlan,
  building = usual,
  ungoverned: readonly string[] = [],
  more: Partial<SimulatedSite> = {},
): SimulationView {
  const outcome = simulate({ plan, habits: [nightly], building, days: 1, seed: 1 });
  const simulated: Omit<SimulatedSite, "doubts"> = {
    site: siteOf(plan, ungoverned),
    terms: {
      building: { ...building, kind: "recorded", days: 7, intervalS: 60, from: "2026-11-01", lacks: [] },
      days: 1,
      seed: 1,
      triesFaults: true,
      designedFallbackA: null,
    },
    outcome,
    latency: planLatency(plan),
    blind: null,
    stability: null,
    states: [[]],
    usualS: 15,
    longestS: 60,
    trials: [{ kind: "nothing", fallbackA: null, outcome }],
    hidden: null,
    ...more,
  };
  const { terms, site } = simulated;
  return simulationView({
    ...simulated,
    doubts: doubtsOf({ building: terms.building, outcome: simulated.outcome, site }),
  });
}
