import { longestTimeOutS, timesOutBetweenReadings } from "../limiter/index.ts";
import type { SimulatedSite } from "../through-time/index.ts";
import { durationWords, withUnit } from "./format.ts";
import { PART_WORDS } from "./simulation-words.ts";
import { setAmps } from "./told-figures.ts";
import type { ToldSentence } from "./told-sentence.ts";
import { trialRow } from "./trial-rows.ts";

/** What the load manager keeps to, how late it acts, and what becomes of it when a reading is lost. */
export function managerSentences(simulated: SimulatedSite): readonly ToldSentence[] {
  const { latency, blind, stability, usualS, longestS, site, trials } = simulated;
  const { fallbackA } = site.plan.control;
  const lost = trials.filter(
    (trial) =>
      trial.fallbackA === fallbackA && ["bus-lost", "bus-lost-on-rise", "meter-lost"].includes(trial.kind),
  );
  const blindTones = lost.map((trial) => trialRow(trial, simulated).tone);
  const lostS = Math.max(0, ...lost.flatMap(({ outcome }) => outcome.excursions.map(({ carS }) => carS)));
  const parts = (list: readonly { readonly part: keyof typeof PART_WORDS; readonly timeS: number }[]) =>
    list
      .filter(({ timeS }) => timeS > 0)
      .map(({ part, timeS }) => `${PART_WORDS[part]} ${durationWords(timeS)}`)
      .join(" + ");
  const above = aboveHighest(site);
  return [
    {
      tone: above !== "" ? "fail" : site.isManagerImagined ? "unknown" : "none",
      text: `${above}${site.isManagerImagined ? "The job has no load manager; one is imagined. " : ""}Limit ${setAmps(site.plan.control.limitA - site.plan.control.marginA)}, ${site.limit.kind === "fact" ? "as recorded" : "worked out from the supply and the margin the metering chain needs, because none is recorded"}. Up to ${durationWords(usualS)} over it is usual, more than ${durationWords(longestS)} is too long.`,
    },
    ...site.misplaced.map((transformer) => ({
      tone: "fail" as const,
      text: `${transformer} does not see all that the main fuse carries, and this run takes it as moved to where it does. Until it is, nothing told here holds.`,
    })),
    ...(latency === null
      ? [
          {
            tone: "unknown" as const,
            text: unbounded(site),
          },
        ]
      : [
          {
            tone:
              latency.totalS <= usualS && !site.isManagerImagined ? ("pass" as const) : ("unknown" as const),
            text: `After a load step at most ${durationWords(latency.totalS)} over the limit, if the building by itself stays under it: ${parts(latency.parts)}.`,
          },
        ]),
    ...(timesOutBetweenReadings(site.plan.control)
      ? [
          {
            tone: "fail" as const,
            text: `The time-out of ${durationWords(site.plan.control.fallbackAfterS)} is over before the next reading comes (${durationWords(site.plan.control.readEveryS)}): the manager acts blind again and again with nothing wrong. Set a longer time-out or a shorter time between readings.`,
          },
        ]
      : site.plan.control.readEveryS > site.plan.control.fallbackAfterS
        ? [
            {
              tone: "unknown" as const,
              text: `The time-out of ${durationWords(site.plan.control.fallbackAfterS)} is over before the next reading comes (${durationWords(site.plan.control.readEveryS)}). This run takes it that commands are repeated meanwhile; where they are not, the charge points fall back with nothing wrong. Set a longer time-out or a shorter time between readings.`,
            },
          ]
        : []),
    blind === null
      ? {
          tone: "unknown",
          text: "No fallback is recorded, so this run holds the last offer when a reading is lost. Record the setting, and prove it.",
        }
      : {
          tone: blindTones.includes("fail") ? "fail" : blindTones.includes("unknown") ? "unknown" : "none",
          text: `Without a reading the fallback${fallbackA === null ? "" : ` of ${setAmps(fallbackA)}`} is taken within ${durationWords(blind.totalS)}: ${parts(blind.parts)}.${blindTones.includes("fail") ? tooLong(simulated, lostS) : ""}`,
        },
    ...(stability === null
      ? []
      : [
          {
            tone: ({ calm: "pass", rings: "unknown", unstable: "fail" } as const)[stability.state],
            text: `The chain answers ${stability.lateDecisions} decisions late. Gain ${stability.gain}: without overshoot up to ${withUnit(stability.calmUpTo, "", 3, "down")}, stable below ${withUnit(stability.stableBelow, "", 3, "down")}.`,
          },
        ]),
  ];
}

const aboveHighest = ({ plan: { control }, highestLimitA }: SimulatedSite["site"]): string =>
  highestLimitA !== null && control.limitA - control.marginA > highestLimitA
    ? `The limit is above the ${withUnit(highestLimitA, "A", 1, "down")} that the supply and the margin of the metering chain allow: lower it. `
    : "";

/** What to change where a lost reading leaves the supply over its limit for too long. */
/** @param lostS Longest time over the limit with a car drawing, in the trials in which nothing is read. [s] */
function tooLong({ blind, longestS, site }: SimulatedSite, lostS: number): string {
  const { plan, ungoverned } = site;
  // A limit that is too high has its own sentence.
  if (blind === null || aboveHighest(site) !== "") return "";
  if (ungoverned.length > 0)
    return ` Cars at ${ungoverned.join(", ")} follow no offer, and no fallback reaches them.`;
  if (lostS <= longestS) return " The supply is over for no longer than it may be, but see the trials below.";
  // Over for no longer than until the fallback is taken: it is the time-out that is too long, not the fallback too high.
  if (lostS > blind.totalS && plan.control.fallbackA !== 0)
    return " Where the building is at its highest the fallback is too high: lower it.";
  const mostS = longestTimeOutS(blind, plan.control, longestS);
  return ` Until then the last offer stands, and that is too long: ${mostS === null ? "shorten the time between readings and the command's" : `set a time-out of ${durationWords(mostS)} or less`}.`;
}

/** Why the delays bound no time over the limit. */
const unbounded = ({ plan, ungoverned }: SimulatedSite["site"]): string =>
  ungoverned.length > 0
    ? `Cars at ${ungoverned.join(", ")} follow no offer: delays alone bound no time over the limit.`
    : plan.control.law.kind === "integrating"
      ? "The manager integrates: its delays alone bound no time over the limit."
      : "While a fallback is taken with nothing wrong, delays alone bound no time over the limit.";
