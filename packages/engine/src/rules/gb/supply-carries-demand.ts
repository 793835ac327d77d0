import type { LineDemand } from "../../demand/index.ts";
import { compare, type Judgement, rule, shownOf, type Subject, UNITED_KINGDOM } from "../rule.ts";
import type { Study } from "../study.ts";

type Message = "building" | "buildingAbove" | "all" | "allAbove" | "managed" | "managedAbove" | "unknown";

/** The main fuse carries what will be asked of it on every line, unmanaged or managed. */
export const supplyCarriesDemand = rule<Message>({
  id: "supply-carries-demand",
  title: "The supply carries the demand",
  stage: "decide",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    building: "{line}: the building alone may draw {demand}; the supply carries {limit}.",
    buildingAbove:
      "{line}: the building alone may draw {demand}, more than the {limit} the supply carries. No load manager can help with that: reduce the building's own demand, or apply for a larger supply.",
    all: "{line}: building and charge points together {demand}; the supply carries {limit} without a load manager.",
    allAbove: "{line}: building and charge points together {demand}, more than the {limit} the supply carries. Manage the load, or choose a lower rate.",
    managed: "{line}: held to {demand} by the load manager; the supply carries {limit}.",
    managedAbove: "{line}: even managed {demand}, more than the {limit} the supply carries.",
    unknown: "{line}: record what is missing to work out the demand.",
  },
  judge: (study) => study.demand.flatMap((line) => [judgeBuilding(study, line), judgeWhole(study, line)]),
});

const subjectOf = ({ line }: LineDemand): Subject => ({ id: `line-${line}`, label: line, path: "demand.recordings" });

function judgeBuilding({ supplyLimit, tree }: Study, line: LineDemand): Judgement<Message> {
  const demand = line.existing.used.high;
  return compare({
    subject: subjectOf(line),
    check: { left: demand, relation: "<=", right: supplyLimit },
    holds: "building",
    broken: "buildingAbove",
    unknown: "unknown",
    data: { line: line.line, demand: shownOf(demand, 1, "up"), limit: shownOf(supplyLimit, 1, "down") },
    turnsOn: tree.cutOut.overcurrent.ratingA,
  });
}

function judgeWhole({ supplyLimit, circuits }: Study, line: LineDemand): Judgement<Message> {
  const demand = line.managed ?? line.unmanaged;
  const isManaged = line.managed !== null;
  const point = circuits[0]?.point;
  return compare({
    subject: subjectOf(line),
    check: { left: demand, relation: "<=", right: supplyLimit },
    holds: isManaged ? "managed" : "all",
    broken: isManaged ? "managedAbove" : "allAbove",
    unknown: "unknown",
    data: { line: line.line, demand: shownOf(demand, 1, "up"), limit: shownOf(supplyLimit, 1, "down") },
    ...(point && !isManaged && { turnsOn: point.ratedA }),
  });
}
