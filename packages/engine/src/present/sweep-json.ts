import { type Setting, settingRefusal } from "../simulation/index.ts";
import type { SweptSite } from "../through-time/index.ts";
import { buildingJson, outcomeJson, supplyJson } from "./simulation-json.ts";

/**
 * A sweep as plain data: every setting with its outcome, the recommendation and the fallbacks tried.
 *
 * @param askedCount Settings that were asked for; more than were run when the person stopped it.
 */
export const sweepJson = (
  { swept, terms, recommendation, fallbacks, fallbackA, designedA, mostTimeOutS, building, site }: SweptSite,
  askedCount = swept.length,
): object => ({
  askedCount,
  building: buildingJson(building),
  ungoverned: site.ungoverned,
  settings: swept.map((one) => ({
    ...one.setting,
    refused: settingRefusal(one, terms),
    ...withoutSessions(outcomeJson(one.outcome)),
  })),
  withoutCars: withoutSessions(outcomeJson(terms.withoutCars)),
  recommendation: {
    setting: recommendation.setting === null ? null : settingJson(recommendation.setting),
    refused: recommendation.refused,
    fallbackA,
    designedA,
    mostTimeOutS,
  },
  fallbacks: fallbacks.map(({ kind, fallbackA: tried, refusal, outcome }) => ({
    kind,
    fallbackA: tried,
    refused: refusal,
    ...supplyJson(outcome),
  })),
});

/** What to set; which fallback is told apart, after it was tried. */
const settingJson = ({ limitA, marginA, readEveryS }: Setting): object => ({
  setA: limitA - marginA,
  limitA,
  marginA,
  readEveryS,
});

const withoutSessions = (outcome: object): object => {
  const { sessions, excursions, ...rest } = outcome as { sessions: readonly unknown[]; excursions: unknown };
  return { ...rest, sessionCount: sessions.length };
};
