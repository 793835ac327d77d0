import { missingOf, type SiteOutcome } from "../simulation/index.ts";
import type { SimulatedSite } from "../through-time/index.ts";

/** A simulated site as plain data; numbers unrounded, currents in A, times in s unless the name says otherwise. */
export const simulationJson = ({
  site,
  terms,
  outcome,
  latency,
  blind,
  stability,
  states,
  trials,
}: SimulatedSite): object => ({
  seed: terms.seed,
  building: {
    kind: terms.building.kind,
    from: terms.building.from,
    intervalS: terms.building.intervalS,
    absentH: outcome.absentH,
  },
  lines: site.lines,
  ...outcomeJson(outcome),
  states,
  latency,
  blind,
  stability,
  trials: trials.map(({ kind, fallbackA, outcome: tried }) => ({ kind, fallbackA, ...outcomeJson(tried) })),
});

/** An outcome without its days, one by one. */
export const outcomeJson = ({ dayRecords: _, sessions, ...outcome }: SiteOutcome): object => ({
  ...outcome,
  sessions: sessions.map((session) => ({ ...session, missingKwh: missingOf(session) })),
});
