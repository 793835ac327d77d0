import { refusalOf } from "../simulation/index.ts";
import type { SweptSite } from "../through-time/index.ts";
import { outcomeJson } from "./simulation-json.ts";

/** A sweep as plain data: every setting with its outcome, the recommendation and the fallbacks tried. */
export const sweepJson = ({ swept, terms, recommendation, fallbacks, fallbackA }: SweptSite): object => ({
  settings: swept.map(({ setting, outcome }) => ({
    ...setting,
    refused: refusalOf(outcome, terms),
    ...withoutSessions(outcomeJson(outcome)),
  })),
  recommendation: {
    setting: recommendation.setting,
    refused: recommendation.refused,
    fallbackA,
  },
  fallbacks: fallbacks.map(({ fallbackA: tried, refusal, outcome }) => ({
    fallbackA: tried,
    refused: refusal,
    ...withoutSessions(outcomeJson(outcome)),
  })),
});

const withoutSessions = (outcome: object): object => {
  const { sessions, excursions, ...rest } = outcome as { sessions: readonly unknown[]; excursions: unknown };
  return { ...rest, sessionCount: sessions.length };
};
