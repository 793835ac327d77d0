import { type LineDemand, lineDemand } from "../demand/index.ts";
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
  fitsAboveThreshold:
    "{demand} on {line} is within the supply's {limit}; no rate of {least} or more keeps it to the {threshold} that may be notified afterwards.",
  noneNotified:
    "No rate of {least} or more keeps {line} to the {threshold} that may be notified afterwards, and the full rate fits: a lower one gains nothing.",
  fullRateFits: "The full rate needs no better: a lower one gains nothing.",
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

/** A rate for every charge point, and the demand it makes on the worst line. */
interface Rate {
  readonly offer: Quantity;
  /** Room for each charge point on the line that has least of it, and that line. */
  readonly room: Quantity;
  readonly tightest: LineDemand;
  readonly demand: Quantity;
  readonly line: LineDemand;
}

/**
 * The highest rate, in whole amperes, after which the operator need only be notified; failing that the
 * highest that fits unmanaged. None where the full rate does as well.
 */
function lowerRate(study: Study): Option {
  const threshold = study.figures("notifyThresholdA");
  const ceiling = smallest(
    { symbol: "Is", label: "most that is within the supply and notified", unit: "A", clause: "lower-rate" },
    [study.supplyLimit, threshold],
  );
  const fitting = rateUnder(study, study.supplyLimit);
  const notified = isDwelling(study) ? rateUnder(study, ceiling) : fitting;
  const least = study.figures("minOffer");
  const canOffer = ({ offer }: Rate) => decide({ left: offer, relation: ">=", right: least }).state;
  const isFull = ({ offer }: Rate) =>
    decide({ left: offer, relation: ">=", right: largestPoint(study) }).state === "holds";
  const option = ({ offer, demand, line }: Rate): Option =>
    plain(study, "lower-rate", offer, demand, line.line, line.existing.used.high);
  const none = (
    { demand, line, room, tightest }: Rate,
    route: OperatorRoute,
    reason: Option["reason"],
  ): Option => ({
    ...base("lower-rate", demand, line.line),
    chargePointA: null,
    route,
    reason,
    data: {
      room: shown(Math.max(0, numberOf(room)), "A", 0, "down"),
      least: shownOf(least, 0),
      threshold: shownOf(threshold, 0),
      line: tightest.line,
      building: shownOf(tightest.existing.used.high, 1, "up"),
      limit: shownOf(study.supplyLimit, 1, "down"),
    },
  });

  if (canOffer(fitting) === "unknown") return option(fitting);
  if (canOffer(fitting) === "broken")
    return none(fitting, "not-possible", numberOf(fitting.room) < 0 ? "buildingExceeds" : "noRoom");
  if (canOffer(notified) === "holds")
    return isFull(notified) ? none(notified, "not-needed", "fullRateFits") : option(notified);
  if (isFull(fitting)) return none(notified, "not-possible", "noneNotified");
  const { data, ...fits } = option(fitting);
  const more = { least: shownOf(least, 0), threshold: shownOf(threshold, 0) };
  return { ...fits, reason: "fitsAboveThreshold", data: { ...data, ...more } };
}

/** The highest rate, in whole amperes and no higher than the points are rated, that keeps every line to a limit. */
function rateUnder(study: Study, limit: Quantity): Rate {
  const count = ({ line }: LineDemand) =>
    study.circuits.filter(({ point }) => study.tree.linesAt(point.id).includes(line)).length;
  const Iex = ({ existing }: LineDemand): Quantity => ({ ...existing.used.high, symbol: "Iex" });
  const { line: tightest, quantity: room } = tightestLine(
    study.demand.filter((line) => count(line) > 0),
    (line) =>
      step({
        symbol: "Ir",
        label: `room for each charge point on ${line.line}`,
        unit: "A",
        clause: "lower-rate",
        formula: `floor((Is - Iex) / ${count(line)})`,
        inputs: { Is: { ...limit, symbol: "Is" }, Iex: Iex(line) },
        compute: ({ Is, Iex }) => Math.floor((Is - Iex) / count(line) + 1e-9),
      }),
  );
  const offer = smallest({ symbol: "I", label: "rate that fits", unit: "A", clause: "lower-rate" }, [
    room,
    largestPoint(study),
  ]);
  const { line, quantity: demand } = worstLine(study.demand, (of) =>
    step({
      symbol: "MD",
      label: `maximum demand on ${of.line} at the lower rate`,
      unit: "A",
      clause: "lower-rate",
      formula: `Iex + ${count(of)} * max(I, 0)`,
      inputs: { Iex: Iex(of), I: offer },
      compute: ({ Iex, I }) => Iex + count(of) * Math.max(I, 0),
    }),
  );
  return { offer, room, tightest, demand, line };
}

/** The line with the least of a quantity; the first whose quantity is unknown when any is. */
function tightestLine(
  lines: readonly LineDemand[],
  of: (line: LineDemand) => Quantity,
): { readonly line: LineDemand; readonly quantity: Quantity } {
  const all = lines.map((line) => ({ line, quantity: of(line) }));
  return (
    all.find(({ quantity }) => !isKnown(quantity)) ??
    all.reduce((least, item) => (numberOf(item.quantity) < numberOf(least.quantity) ? item : least))
  );
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

/**
 * Notify afterwards only for a dwelling, under the threshold: by itself, or, managed, unmanaged too unless the
 * operator counts what is managed.
 */
function routeFor(study: Study, demand: Quantity, isManaged: boolean): OperatorRoute {
  const { acceptsLimiter } = study.job.supply.operator;
  const isWithin = (quantity: Quantity): boolean =>
    decide({ left: quantity, relation: "<=", right: study.figures("notifyThresholdA") }).state === "holds";
  const counts =
    !isManaged ||
    isWithin(present(study).quantity) ||
    (acceptsLimiter.state === "known" && acceptsLimiter.value);
  return isDwelling(study) && isWithin(demand) && counts ? "notify-after" : "apply-first";
}

const isDwelling = ({ job: { site } }: Study): boolean =>
  site.premises.state === "known" && site.premises.value === "dwelling";

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
