import { missingOf, type SiteOutcome } from "../simulation/index.ts";
import type { BuildingSource, SimulatedSite } from "../through-time/index.ts";

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
  daysAsked: terms.days,
  building: { ...buildingJson(terms.building), absentH: outcome.absentH },
  ungoverned: site.ungoverned,
  lines: site.lines,
  ...outcomeJson(outcome),
  states,
  latency,
  blind,
  stability,
  trials: trials.map(({ kind, fallbackA, outcome: tried }) => ({ kind, fallbackA, ...outcomeJson(tried) })),
});

/** Where the building's current comes from; `days` is null where it is drawn and never repeats. */
export const buildingJson = ({
  kind,
  from,
  intervalS,
  days,
  contains,
  lacks,
  adds,
  isSharedEqually,
}: BuildingSource): object => ({
  kind,
  from,
  intervalS,
  days: Number.isFinite(days) ? days : null,
  contains: contains ?? [],
  lacks,
  adds: adds ?? [],
  isSharedEqually: isSharedEqually ?? false,
});

/** An outcome without its days, one by one. */
export const outcomeJson = ({ dayRecords: _, sessions, ...outcome }: SiteOutcome): object => ({
  ...outcome,
  sessions: sessions.map((session) => ({ ...session, missingKwh: missingOf(session) })),
});
