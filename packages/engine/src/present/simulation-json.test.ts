import { expect, it } from "vitest";
import { type SitePlan, simulate, type Trial } from "../simulation/index.ts";
import { buildingWith, nightly, smallSite } from "../testing/small-site.ts";
import type { SimulatedSite } from "../through-time/index.ts";
import { simulationJson } from "./simulation-json.ts";

const building = buildingWith(10, { fromH: 18.5, untilH: 19, currentA: 50 });
const run = (plan: SitePlan) => simulate({ plan, habits: [nightly], building, days: 1, seed: 1 });
const sound = run(smallSite);
const ignoring = run({
  ...smallSite,
  faults: [{ kind: "car-ignores-offer", point: 0, fromS: 0, untilS: Number.POSITIVE_INFINITY }],
});

it("gives each trial its own verdict, though the words put alike ones together", () => {
  const trials: readonly Trial[] = [
    { kind: "meter-lost", fallbackA: 6, outcome: sound },
    { kind: "meter-lost", fallbackA: null, outcome: sound },
    { kind: "car-ignores-offer", fallbackA: 6, outcome: ignoring },
    { kind: "bus-lost", fallbackA: 6, outcome: sound },
  ];
  const simulated = {
    site: {
      plan: smallSite,
      lines: ["L1"],
      rests: [],
      presumed: [],
      ungoverned: [],
      misplaced: [],
      limit: { kind: "step" },
    },
    terms: {
      building: { ...building, kind: "recorded", days: 1, intervalS: 60, from: "2026-11-01", lacks: [] },
    },
    outcome: sound,
    latency: null,
    blind: null,
    stability: null,
    states: [[]],
    usualS: 15,
    longestS: 60,
    trials,
    hidden: null,
    doubts: [],
  } as unknown as SimulatedSite;
  const data = simulationJson(simulated) as { readonly trials: readonly { readonly verdict: string }[] };
  expect(data.trials.map(({ verdict }) => verdict)).toEqual(["pass", "pass", "fail", "pass"]);
  // Their cars want more than they can take: energy and sessions would mean nothing.
  expect(Object.keys(data.trials[0] ?? {})).toEqual([
    "kind",
    "fallbackA",
    "verdict",
    "lines",
    "bodies",
    "excursions",
  ]);
});
