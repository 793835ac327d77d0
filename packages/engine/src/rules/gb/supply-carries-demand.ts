import type { Band, LineDemand } from "../../demand/index.ts";
import { type Check, decide, type Missing } from "../../worked/index.ts";
import { cannotTell, compare, type Judgement, rule, type Subject, shownOf, UNITED_KINGDOM } from "../rule.ts";
import type { Study } from "../study.ts";

type Message =
  | "building"
  | "buildingAbove"
  | "buildingStraddles"
  | "all"
  | "allAbove"
  | "allStraddles"
  | "managed"
  | "managedAbove"
  | "managedStraddles"
  | "unknown";

/** The main fuse carries what will be asked of it on every line, unmanaged or managed. */
export const supplyCarriesDemand = rule<Message>({
  id: "supply-carries-demand",
  title: "The supply carries the demand",
  stage: "decide",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    building: "{line}: the building alone may draw up to {high}; the supply carries {limit}.",
    buildingAbove:
      "{line}: the building alone draws {low} or more, above the {limit} the supply carries. No load manager can help with that: reduce the building's own demand, or apply for a larger supply.",
    buildingStraddles:
      "{line}: the building alone may draw between {low} and {high}; the supply carries {limit}. No load manager can hold the building down. Record what it draws for two weeks, minute by minute, with everything in use.",
    all: "{line}: building and charge points together up to {high}; the supply carries {limit} without a load manager.",
    allAbove:
      "{line}: building and charge points together {low} or more, above the {limit} the supply carries. Manage the load, or choose a lower rate.",
    allStraddles:
      "{line}: building and charge points together between {low} and {high}; the supply carries {limit}. Manage the load, or record what the building draws.",
    managed: "{line}: held to {high} by the load manager; the supply carries {limit}.",
    managedAbove: "{line}: even managed {low} or more, above the {limit} the supply carries.",
    managedStraddles:
      "{line}: managed between {low} and {high}; the supply carries {limit}. What the load manager does not govern may be too much by itself.",
    unknown: "{line}: record what is missing to work out the demand.",
  },
  judge: (study) =>
    study.demand.flatMap((line) => [
      judgeBand(study, line, line.existing.used, `building-${line.line}`, "building"),
      line.managed === null
        ? judgeBand(study, line, line.unmanaged, line.line, "all")
        : judgeBand(study, line, line.managed, line.line, "managed"),
    ]),
});

/** Within the limit at its highest: pass. Above it at its lowest: fail. In between it cannot be told. */
function judgeBand(
  { supplyLimit, tree }: Study,
  { line, existing }: LineDemand,
  { low, high }: Band,
  id: string,
  what: "building" | "all" | "managed",
): Judgement<Message> {
  const subject: Subject = { id, label: line, path: "demand.recordings" };
  const highCheck: Check = { left: high, relation: "<=", right: supplyLimit };
  const lowCheck: Check = { left: low, relation: "<=", right: supplyLimit };
  const data = {
    line,
    low: shownOf(low, 1, "down"),
    high: shownOf(high, 1, "up"),
    limit: shownOf(supplyLimit, 1, "down"),
  };
  const straddles = decide(highCheck).state === "broken" && decide(lowCheck).state === "holds";
  if (straddles) {
    return cannotTell(subject, `${what}Straddles`, [betterRecording(line, existing.used.kind)], {
      data,
      check: highCheck,
      workings: [low],
    });
  }
  const isBroken = decide(lowCheck).state === "broken";
  return compare({
    subject,
    check: isBroken ? lowCheck : highCheck,
    holds: what,
    broken: `${what}Above`,
    unknown: "unknown",
    data,
    turnsOn: tree.cutOut.overcurrent.ratingA,
  });
}

const betterRecording = (line: string, has: string): Missing => ({
  path: "demand.recordings",
  label:
    has === "circuit-list"
      ? `a recording of ${line} over two weeks, minute by minute`
      : `a recording of ${line}, minute by minute, with every load in use`,
  what: "fact",
});
