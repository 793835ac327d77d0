import { missingOf, type SiteOutcome } from "../simulation/index.ts";
import { hours, kwh, percent } from "./told-figures.ts";
import type { ToldSentence } from "./told-sentence.ts";

/** Share of sessions that must end full for the job to serve its cars at all. Own judgement ([house-methods]). */
const LEAST_FULL = 0.5;

/** What came of the cars. */
export function carSentences(outcome: SiteOutcome): readonly ToldSentence[] {
  const { sessions, fullShare, missingKwh, deliveredKwh, days, cutShort } = outcome;
  const cut: readonly ToldSentence[] =
    cutShort === 0
      ? []
      : [
          {
            tone: "none",
            text: `${cutShort === 1 ? "One session was" : `${cutShort} sessions were`} under way when the last day ended; how it would have gone on is not known, and it is not counted.`,
          },
        ];
  if (fullShare === null)
    return [
      {
        tone: "unknown",
        text: "No car came and left again in these days; simulate more of them, or another seed.",
      },
      ...cut,
    ];
  const waited = sessions.filter(({ waitedS }) => waitedS > 0);
  const full = Math.round(fullShare * sessions.length);
  const worst = sessions.reduce((a, b) => (missingOf(b) > missingOf(a) ? b : a));
  return [
    {
      tone: fullShare === 1 ? "pass" : fullShare < LEAST_FULL ? "fail" : "none",
      text: `Full when they left in ${full} of ${sessions.length} sessions (${percent(fullShare, "down")}). ${kwh(deliveredKwh)} delivered, ${kwh(deliveredKwh / sessions.length)} a session, ${kwh(deliveredKwh / days)} a day.`,
    },
    ...(missingKwh > 0
      ? [
          {
            tone: "none" as const,
            text: `${kwh(missingKwh)} missing in all; most in one session ${kwh(missingOf(worst))} of ${kwh(worst.wantedKwh)} (day ${dayNumber(worst.startS)}).`,
          },
        ]
      : []),
    ...(waited.length > 0
      ? [
          {
            tone: "none" as const,
            text: `${waited.length} of ${sessions.length} cars found their charge point taken and waited until the other left; ${waited.filter(({ isFull }) => !isFull).length} of those were not full when they left. A car that is full is taken as staying: change over when one is full, or fit another charge point.`,
          },
        ]
      : []),
    ...cut,
    {
      tone: "none",
      text: `While a car asked for energy: charging ${hours(outcome.chargingH)}, turned down ${hours(outcome.throttledH)}, paused ${hours(outcome.pausedH)}; charging began ${outcome.starts} times. Near a full battery a car takes less by itself, which lengthens the hours; the wait before each start counts as paused.`,
    },
  ];
}

const dayNumber = (timeS: number): number => Math.floor(timeS / 86_400) + 1;
