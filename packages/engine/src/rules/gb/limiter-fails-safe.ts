import { ungoverned } from "../../demand/index.ts";
import { FAILURES, given, type LocatedFact } from "../../job/index.ts";
import { fallbackTotal } from "../../limiter/index.ts";
import type { Line } from "../../quantities/index.ts";
import { isKnown, numberOf, type Quantity, step, total } from "../../worked/index.ts";
import {
  cannotTell,
  compare,
  type Judgement,
  notApplicable,
  rule,
  type Subject,
  shownOf,
  UNITED_KINGDOM,
} from "../rule.ts";
import type { Study } from "../study.ts";
import { limiterSubject } from "./limiter-subject.ts";

type Message =
  | "none"
  | "setting"
  | "settingHigh"
  | "settingUnknown"
  | "roomUnknown"
  | "safe"
  | "unsafe"
  | "unknown"
  | "notProved";

/** When the reading, the bus or the power is lost, the supply is still not overloaded. */
export const limiterFailsSafe = rule<Message>({
  id: "limiter-fails-safe",
  title: "The load manager fails safe",
  stage: "prove",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    none: "No load manager is planned.",
    setting: "Fallback set to {total} on {line} in all; with the building at its most, {allowed} is left.",
    settingHigh:
      "Fallback set to {total} on {line} in all, but with the building at its most only {allowed} is left under the limit. Set it to {allowed} or less in all; below 6 A set 0.",
    settingUnknown:
      "Set the fallback to no more than {allowed} for all charge points on {line} together, read it back and record it.",
    roomUnknown:
      "What the charge points on {line} may take when the reading is lost follows from the demand and the main fuse. Record what is missing.",
    safe: "After {failure} the charge points take {total} on {line}; {allowed} is left.",
    unsafe:
      "After {failure} the charge points take {total} on {line}, but only {allowed} is left. Correct the fallback before leaving it in use.",
    unknown: "Record the current offered after {failure}.",
    notProved:
      "Not proved yet: {failures}. Cause each safely, wait for the time-out, and record the current offered.",
  },
  judge: (study) => {
    const { limiter } = study.job;
    if (limiter === null) return [notApplicable(limiterSubject("fallbackA"), "none")];
    const rooms = roomByLine(study);
    const proved = limiter.failures.map((item) =>
      judgeOffer(rooms, item.offeredA, failureSubject(item.failure), {
        holds: "safe",
        broken: "unsafe",
        unknown: "unknown",
        failure: item.failure.replaceAll("-", " "),
      }),
    );
    const notTried = FAILURES.filter((failure) => !limiter.failures.some((item) => item.failure === failure));
    const setting = judgeOffer(rooms, limiter.fallbackA, limiterSubject("fallbackA"), {
      holds: "setting",
      broken: "settingHigh",
      unknown: "settingUnknown",
      failure: "",
    });
    if (notTried.length === 0) return [setting, ...proved];
    const untried = { ...limiterSubject("failures"), id: "limiter-untried" };
    const failures = notTried.map((failure) => failure.replaceAll("-", " ")).join(", ");
    const lacks = notTried.map((failure) => ({
      path: `limiter.failures[${failure}].offeredA`,
      label: `current offered after: ${failure.replaceAll("-", " ")}`,
      what: "fact" as const,
    }));
    return [setting, ...proved, cannotTell(untried, "notProved", lacks, { data: { failures } })];
  },
});

/** Told apart by the failure's name. */
const failureSubject = (failure: string): Subject => ({
  ...limiterSubject(`failures[${failure}].offeredA`),
  id: failure,
});

interface Room {
  readonly line: Line;
  /** Governed charge points on the line. */
  readonly count: number;
  readonly allowed: Quantity;
}

/** What every governed line leaves for its charge points when everything else is at its most. */
function roomByLine({ tree, circuits, job, demand, highestLimit, figures }: Study): readonly Room[] {
  const governs = job.limiter?.chargePoints ?? [];
  return demand.flatMap((line): readonly Room[] => {
    const points = circuits
      .map(({ point }) => point)
      .filter(({ id }) => tree.linesAt(id).includes(line.line));
    const count = points.filter(({ id }) => governs.includes(id)).length;
    if (count === 0) return [];
    const rest = step({
      symbol: "Irest",
      label: `the most everything else may draw on ${line.line}`,
      unit: "A",
      clause: "limiter-fallback",
      formula: "Iex + Ifree",
      inputs: { Iex: line.existing.used.high, Ifree: ungoverned(points, governs) },
      compute: ({ Iex, Ifree }) => Iex + Ifree,
    });
    return [{ line: line.line, count, allowed: fallbackTotal(highestLimit, rest, figures) }];
  });
}

/**
 * Judges one offered current on the line on which it leaves the least to spare. Where that is enough, a line whose
 * demand is not known could still be the worst.
 */
function judgeOffer(
  rooms: readonly Room[],
  offered: LocatedFact<number>,
  subject: Subject,
  say: { holds: Message; broken: Message; unknown: Message; failure: string },
): Judgement<Message> {
  const each = given(offered, "I");
  const spare = ({ allowed, count }: Room): number =>
    numberOf(allowed) - count * (isKnown(each) ? each.value : 0);
  const [first, ...others] = rooms.filter(({ allowed }) => isKnown(allowed));
  const tightest =
    first && others.reduce((least, room) => (spare(room) < spare(least) ? room : least), first);
  const isEnough = tightest === undefined || spare(tightest) >= 0;
  const worst = (isEnough ? rooms.find(({ allowed }) => !isKnown(allowed)) : undefined) ?? tightest;
  if (worst === undefined) return notApplicable(subject, "none");
  const all = total(
    {
      symbol: "Ioff",
      label: `offered to the governed charge points on ${worst.line} together`,
      unit: "A",
      clause: "limiter-fallback",
    },
    Array.from({ length: worst.count }, () => each),
  );
  return compare({
    subject,
    check: { left: all, relation: "<=", right: worst.allowed },
    holds: say.holds,
    broken: say.broken,
    unknown: isKnown(worst.allowed) ? say.unknown : "roomUnknown",
    data: {
      total: shownOf(all, 1, "up"),
      allowed: shownOf(worst.allowed, 1, "down"),
      line: worst.line,
      failure: say.failure,
    },
    turnsOn: offered,
  });
}
