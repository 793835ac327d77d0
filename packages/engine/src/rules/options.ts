import { lineDemand } from "../demand/index.ts";
import { given } from "../job/index.ts";
import { fallbackTotal } from "../limiter/index.ts";
import { decide, isKnown, numberOf, type Quantity, smallest, step } from "../worked/index.ts";
import { type Datum, shown, shownOf } from "./rule.ts";
import type { Study } from "./study.ts";
import { managedOrAll, worstLine } from "./worst-line.ts";

export const OPTION_KINDS = ["full-rate", "lower-rate", "managed", "larger-supply"] as const;
export type OptionKind = (typeof OPTION_KINDS)[number];

export type OperatorRoute = "notify-after" | "apply-first" | "not-possible" | "not-needed" | "cannot-tell";

/** One way of doing the job, side by side with the others. */
export interface Option {
  readonly kind: OptionKind;
  /** Current per line each charge point may take; null while it cannot be told. [A] */
  readonly chargePointA: Quantity | null;
  /** Demand on the worst line. [A] */
  readonly demand: Quantity;
  readonly line: string;
  /** Limit and fallback, of the managed option. [A] */
  readonly limit: Quantity | null;
  readonly fallback: Quantity | null;
  readonly route: OperatorRoute;
  /** Why, as a message name with its data. */
  readonly reason: keyof typeof OPTION_REASONS;
  readonly data: Readonly<Record<string, Datum>>;
}

/** Reasons in words. */
export const OPTION_REASONS = {
  unknown: "Cannot be told until the demand or the fuse is known.",
  fits: "{demand} on {line} is within the supply's {limit}.",
  exceeds: "{demand} on {line} is more than the supply's {limit}.",
  buildingExceeds:
    "The building alone may draw {building} on {line}, more than the supply's {limit}; this does not cure that.",
  noRoom: "Only {room} is left on {line}; a car cannot be offered less than {least}.",
  held: "The load manager holds {line} at {limitSet}; with no reading it falls back to {fallback} in all.",
  pauses:
    "The load manager holds {line} at {limitSet}; with no reading it pauses, because the building may need all of it.",
  larger:
    "The full rate asks for {demand} on {line}, so {needed}. The operator decides whether and at what cost.",
  notNeeded: "The present supply carries the full rate.",
} as const;

/** Main fuses an operator may offer, ascending; a single-phase supply goes no further than the first three. [A] */
const FUSE_STEPS_A = { 1: [60, 80, 100], 3: [60, 80, 100, 160, 200, 250, 315, 400] } as const;

/** The options compared: full rate, lower rate, managed, larger supply. */
export function optionsOf(study: Study): readonly Option[] {
  return [fullRate(study), lowerRate(study), managed(study), largerSupply(study)];
}

const present = (study: Study) => worstLine(study.demand, (line) => line.unmanaged.high);

function fullRate(study: Study): Option {
  const { line, quantity } = present(study);
  return plain(study, "full-rate", largestPoint(study), quantity, line.line, line.existing.used.high);
}

/** The highest rate, in whole amperes, at which everything fits unmanaged. */
function lowerRate(study: Study): Option {
  const count = (line: string) =>
    study.circuits.filter(({ point }) => study.tree.linesAt(point.id).includes(line as "L1")).length;
  const rooms = study.demand
    .filter((line) => count(line.line) > 0)
    .map((line) => ({
      line,
      room: step({
        symbol: "Ir",
        label: `room for each charge point on ${line.line}`,
        unit: "A",
        clause: "lower-rate",
        formula: `floor((Is - Iex) / ${count(line.line)})`,
        inputs: { Is: study.supplyLimit, Iex: { ...line.existing.used.high, symbol: "Iex" } },
        compute: ({ Is, Iex }) => Math.floor((Is - Iex) / count(line.line) + 1e-9),
      }),
    }));
  const worst =
    rooms.find(({ room }) => !isKnown(room)) ??
    rooms.reduce((a, b) => (numberOf(b.room) < numberOf(a.room) ? b : a));
  const { line } = worst;
  const rated = largestPoint(study);
  const offer = smallest({ symbol: "I", label: "rate that fits", unit: "A", clause: "lower-rate" }, [
    worst.room,
    rated,
  ]);
  const least = study.figures("minOffer");
  const demand = step({
    symbol: "MD",
    label: `maximum demand on ${line.line} at the lower rate`,
    unit: "A",
    clause: "lower-rate",
    formula: `Iex + ${count(line.line)} * max(I, 0)`,
    inputs: { Iex: { ...line.existing.used.high, symbol: "Iex" }, I: offer },
    compute: ({ Iex, I }) => Iex + count(line.line) * Math.max(I, 0),
  });
  if (decide({ left: offer, relation: ">=", right: least }).state === "broken") {
    return {
      ...base("lower-rate", demand, line.line),
      chargePointA: null,
      route: "not-possible",
      reason: numberOf(worst.room) < 0 ? "buildingExceeds" : "noRoom",
      data: {
        room: shown(Math.max(0, numberOf(worst.room)), "A", 0, "down"),
        least: shownOf(least, 0),
        line: line.line,
        building: shownOf(line.existing.used.high, 1, "up"),
        limit: shownOf(study.supplyLimit, 1, "down"),
      },
    };
  }
  return plain(study, "lower-rate", offer, demand, line.line, line.existing.used.high);
}

function managed(study: Study): Option {
  const { limit, tree } = study;
  const governs = study.circuits.map(({ point }) => point.id);
  const demands = study.demand.map((line) => lineDemand(tree, line.existing, { governs, limit }));
  const { line, quantity } = worstLine(demands, managedOrAll);
  const building = line.existing.used.high;
  const fallback = smallest(
    { symbol: "Ifb", label: "fallback that every line allows", unit: "A", clause: "limiter-fallback" },
    demands.map((item) =>
      fallbackTotal(study.highestLimit, { ...item.existing.used.high, symbol: "Irest" }, study.figures),
    ) as [Quantity, ...Quantity[]],
  );
  const common = {
    ...base("managed", quantity, line.line),
    chargePointA: largestPoint(study),
    limit,
    fallback,
    data: {
      demand: shownOf(quantity, 1, "up"),
      line: line.line,
      limit: shownOf(study.supplyLimit, 1, "down"),
      limitSet: shownOf(limit, 1, "down"),
      fallback: shownOf(fallback, 1, "down"),
      building: shownOf(building, 1, "up"),
    },
  } as const;
  const fits = decide({ left: quantity, relation: "<=", right: study.supplyLimit });
  if (fits.state === "unknown" || !isKnown(fallback))
    return { ...common, route: "cannot-tell", reason: "unknown" };
  if (fits.state === "broken") return { ...common, route: "apply-first", reason: "buildingExceeds" };
  return {
    ...common,
    route: routeFor(study, quantity, true),
    reason: fallback.value > 0 ? "held" : "pauses",
  };
}

function largerSupply(study: Study): Option {
  const { line, quantity } = present(study);
  const common = base("larger-supply", quantity, line.line);
  const fits = decide({ left: quantity, relation: "<=", right: study.supplyLimit });
  if (fits.state === "unknown")
    return { ...common, chargePointA: null, route: "cannot-tell", reason: "unknown", data: {} };
  if (fits.state === "holds") {
    return {
      ...common,
      chargePointA: largestPoint(study),
      route: "not-needed",
      reason: "notNeeded",
      data: {},
    };
  }
  const { phases } = study.job.supply;
  const rating = FUSE_STEPS_A[phases].find((ampere) => ampere >= numberOf(quantity));
  const beyond = phases === 1 ? "a three-phase supply" : "a supply of its own";
  return {
    ...common,
    chargePointA: largestPoint(study),
    route: "apply-first",
    reason: "larger",
    data: {
      demand: shownOf(quantity, 1, "up"),
      needed: rating === undefined ? beyond : shown(rating, "A", 0),
      line: line.line,
    },
  };
}

function plain(
  study: Study,
  kind: OptionKind,
  offer: Quantity,
  demand: Quantity,
  line: string,
  building: Quantity,
): Option {
  const fits = decide({ left: demand, relation: "<=", right: study.supplyLimit });
  const data = {
    demand: shownOf(demand, 1, "up"),
    line,
    limit: shownOf(study.supplyLimit, 1, "down"),
    building: shownOf(building, 1, "up"),
  };
  const common = { ...base(kind, demand, line), chargePointA: offer, data };
  if (fits.state === "unknown") return { ...common, route: "cannot-tell", reason: "unknown" };
  if (fits.state === "holds") return { ...common, route: routeFor(study, demand, false), reason: "fits" };
  return { ...common, route: "apply-first", reason: "exceeds" };
}

/** Notify afterwards only for a dwelling, under the threshold, with the operator counting what is managed. */
function routeFor({ job, figures }: Study, demand: Quantity, isManaged: boolean): OperatorRoute {
  const { premises } = job.site;
  const { acceptsLimiter } = job.supply.operator;
  const within =
    decide({ left: demand, relation: "<=", right: figures("notifyThresholdA") }).state === "holds";
  const counts = !isManaged || (acceptsLimiter.state === "known" && acceptsLimiter.value);
  return premises.state === "known" && premises.value === "dwelling" && within && counts
    ? "notify-after"
    : "apply-first";
}

const base = (kind: OptionKind, demand: Quantity, line: string) => ({
  kind,
  demand,
  line,
  limit: null,
  fallback: null,
});

/** Rated current of the largest charge point. */
function largestPoint({ circuits }: Study): Quantity {
  const rated = circuits.map(({ point }) => given(point.ratedA, "Icp"));
  return (
    rated.find((quantity) => !isKnown(quantity)) ??
    rated.reduce((a, b) => (numberOf(b) > numberOf(a) ? b : a))
  );
}
