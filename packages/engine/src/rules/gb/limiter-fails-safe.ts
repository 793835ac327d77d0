import { given, type LocatedFact } from "../../job/index.ts";
import { FAILURES } from "../../job/schema/limiter.ts";
import { fallbackTotal } from "../../limiter/index.ts";
import { type Quantity, step, total } from "../../worked/index.ts";
import { cannotTell, compare, type Judgement, notApplicable, rule, shownOf, UNITED_KINGDOM } from "../rule.ts";
import type { Study } from "../study.ts";
import { limiterSubject } from "./limiter-subject.ts";

type Message = "none" | "setting" | "settingHigh" | "settingUnknown" | "safe" | "unsafe" | "unknown" | "notProved";

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
    settingUnknown: "Set the fallback to no more than {allowed} for all charge points on {line} together, read it back and record it.",
    safe: "After {failure} the charge points take {total} on {line}; {allowed} is left.",
    unsafe: "After {failure} the charge points take {total} on {line}, but only {allowed} is left. Correct the fallback before leaving it in use.",
    unknown: "Record the current offered after {failure}.",
    notProved: "Not proved yet: {failures}. Cause each safely, wait for the time-out, and record the current offered.",
  },
  judge: (study) => {
    const { limiter } = study.job;
    if (limiter === null) return [notApplicable(limiterSubject("fallbackA"), "none")];
    const worst = tightestLine(study);
    const proved = limiter.failures.map((item) =>
      judgeOffer(worst, item.offeredA, limiterSubject(`failures[${item.failure}].offeredA`), {
        holds: "safe",
        broken: "unsafe",
        unknown: "unknown",
        failure: item.failure.replaceAll("-", " "),
      }),
    );
    const notTried = FAILURES.filter((failure) => !limiter.failures.some((item) => item.failure === failure));
    const setting = judgeOffer(worst, limiter.fallbackA, limiterSubject("fallbackA"), {
      holds: "setting",
      broken: "settingHigh",
      unknown: "settingUnknown",
      failure: "",
    });
    if (notTried.length === 0) return [setting, ...proved];
    const failures = notTried.map((failure) => failure.replaceAll("-", " ")).join(", ");
    const lacks = notTried.map((failure) => ({
      path: `limiter.failures[${failure}].offeredA`,
      label: `current offered after: ${failure.replaceAll("-", " ")}`,
      what: "fact" as const,
    }));
    return [setting, ...proved, cannotTell(limiterSubject("failures"), "notProved", lacks, { data: { failures } })];
  },
});

/** The line with the least room when everything governed falls back. */
function tightestLine(study: Study) {
  const rooms = study.demand.map((line) => {
    const governed = study.circuits.filter(
      ({ point }) => study.job.limiter?.chargePoints.includes(point.id) && study.tree.linesAt(point.id).includes(line.line),
    );
    const free = total(
      { symbol: "Ifree", label: "charge points the load manager does not govern", unit: "A", clause: "charge-point-demand" },
      study.circuits
        .filter((circuit) => !governed.includes(circuit) && study.tree.linesAt(circuit.point.id).includes(line.line))
        .map(({ point }) => given(point.ratedA, "I")),
    );
    const rest = step({
      symbol: "Irest",
      label: `the most everything else may draw on ${line.line}`,
      unit: "A",
      clause: "limiter-fallback",
      formula: "Iex + Ifree",
      inputs: { Iex: { ...line.existing.used.high, symbol: "Iex" }, Ifree: free },
      compute: ({ Iex, Ifree }) => Iex + Ifree,
    });
    return { line: line.line, count: governed.length, allowed: fallbackTotal(study.highestLimit, rest, study.figures) };
  });
  const valueOf = (quantity: Quantity) => (quantity.kind === "unknown" ? Number.NEGATIVE_INFINITY : quantity.value);
  const governedRooms = rooms.filter((room) => room.count > 0);
  return (governedRooms.length > 0 ? governedRooms : rooms).reduce((tightest, room) =>
    valueOf(room.allowed) < valueOf(tightest.allowed) ? room : tightest,
  );
}

function judgeOffer(
  worst: ReturnType<typeof tightestLine>,
  offered: LocatedFact<number>,
  subject: ReturnType<typeof limiterSubject>,
  say: { holds: Message; broken: Message; unknown: Message; failure: string },
): Judgement<Message> {
  const all = total(
    { symbol: "Ioff", label: `offered to ${worst.count} charge points on ${worst.line} together`, unit: "A", clause: "limiter-fallback" },
    Array.from({ length: worst.count }, () => given(offered, "I")),
  );
  return compare({
    subject,
    check: { left: all, relation: "<=", right: worst.allowed },
    holds: say.holds,
    broken: say.broken,
    unknown: say.unknown,
    data: {
      total: shownOf(all, 1, "up"),
      allowed: shownOf(worst.allowed, 1, "down"),
      line: worst.line,
      failure: say.failure,
    },
    turnsOn: offered,
  });
}
