import { missingOf, type SiteOutcome } from "../simulation/index.ts";
import type { BuildingSource, SimulatedSite } from "../through-time/index.ts";
import { simulationView } from "./simulation-view.ts";
import type { ToldSentence } from "./told-sentence.ts";
import { trialRow } from "./trial-rows.ts";

/** A simulated site as plain data; numbers unrounded, currents in A, times in s unless the name says otherwise. */
export function simulationJson(simulated: SimulatedSite): object {
  const { site, terms, outcome, latency, blind, stability, states, trials, hidden } = simulated;
  const view = simulationView(simulated);
  return {
    seed: terms.seed,
    daysAsked: terms.days,
    building: { ...buildingJson(terms.building), absentH: outcome.absentH },
    ungoverned: site.ungoverned,
    lines: site.lines,
    ...outcomeJson(outcome),
    hidden,
    verdicts: {
      cars: view.cars.map(verdictOf),
      supply: view.supply.map(verdictOf),
      timing: view.timing.map(verdictOf),
    },
    states,
    latency,
    blind,
    stability,
    trials: trials.map((trial) => ({
      kind: trial.kind,
      fallbackA: trial.fallbackA,
      verdict: VERDICTS[trialRow(trial, simulated).tone],
      ...supplyJson(trial.outcome),
    })),
  };
}

const VERDICTS = { pass: "pass", fail: "fail", unknown: "cannot-tell", none: null } as const;

/** A sentence with what it decides; null where it only tells. */
const verdictOf = ({ tone, text }: ToldSentence): object => ({ verdict: VERDICTS[tone], says: plain(text) });
const plain = (text: string): string => text.replaceAll(/[\u00a0\u202f]/g, " ");

/** Where the building's current comes from; `days` is null where it is drawn and never repeats. */
export const buildingJson = ({
  kind,
  from,
  intervalS,
  days,
  contains,
  lacks,
  adds,
  generators,
  isSharedEqually,
}: BuildingSource): object => ({
  kind,
  from,
  intervalS,
  days: Number.isFinite(days) ? days : null,
  contains: contains ?? [],
  lacks,
  adds: adds ?? [],
  generators: generators ?? [],
  isSharedEqually: isSharedEqually ?? false,
});

/** What a trial is about: its cars want more than they can take, so nothing of their energy means anything. */
export const supplyJson = ({ lines, bodies, excursions }: SiteOutcome): object => ({
  lines,
  bodies,
  excursions,
});

/** An outcome without its days, one by one. */
export const outcomeJson = ({ dayRecords: _, sessions, ...outcome }: SiteOutcome): object => ({
  ...outcome,
  sessions: sessions.map((session) => ({ ...session, missingKwh: missingOf(session) })),
});
