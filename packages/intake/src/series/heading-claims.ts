/**
 * What a heading says besides a unit: that its numbers are not what the building takes in, or not in whole units.
 *
 * A word such as kWh alone does not make imported energy: it stands in "p/kWh", "Pulses (1000 per kWh)", "kWh x10"
 * and "Export kWh" too. The words are common practice of exports in English, of no published source.
 *
 * @module
 */
import { tidy } from "../table/tidy-heading.ts";

const SIGNED = /\b(net|import\w*)\b/i;

/** Quantities that are not what is taken in, in the words of a message. */
const OTHERS: readonly [what: string, pattern: RegExp][] = [
  ["pulses", /\b(im)?pulses?\b/i],
  ["money or a rate by energy", /\b(costs?|prices?|pence|gbp|eur|usd)\b|[£€$¢]|(\/|\bper)\s*[kM]?Wh\b/i],
  ["carbon", /\b(carbon|co2e?)\b/i],
  ["energy generated", /\b(generat\w*|(?<!incl\w*\.?\s+)(solar|pv)|production|produced)\b/i],
  [
    "energy sent out",
    /\b(export(ed|s)?|sent out|feed[ -]?in|to grid|injected|reverse|out|outgoing|delivered to grid)\b|(^|\s)(-\s?A|E-|A-)(?=\W|$)/i,
  ],
  ["what is expected and not recorded", /\b(forecast|target|budget|predicted|last year|previous year)\b/i],
  ["gas", /\bgas\b/i],
  ["reactive or apparent power", /\b(reactive|apparent|kvarh?|var|kvah?|lead|lag)\b/i],
  ["the least of each interval", /\bminimum\b|\blowest\b|^min\b|[([]min[)\]]/i],
];

/** What a heading is of, where that is not what the building takes in; null for any other heading. */
export function otherQuantityIn(heading: string): string | null {
  const words = tidy(heading);
  const found = OTHERS.find(([, pattern]) => pattern.test(words))?.[0] ?? null;
  return found === "energy sent out" && SIGNED.test(words) ? null : found;
}

/** Signs that numbers are multiples or parts of the unit beside them. */
const SCALED: readonly RegExp[] = [
  /(^|[\s)\]\d])[x×*]\s*\d/i,
  /[×*]\s*\d|\d\s*[x×*]\s*[kM]?Wh?\b/i,
  // Not of a length of time: kWh/30min is energy of an interval.
  /\/\s*\d[\d.]*(?![\d.]|\s*-?(m|mins?|minutes?|s|secs?|seconds?|h|hrs?|hours?)\b)/i,
  /\d[.,]\d+\s*[kM]?Wh?\b/i,
  /\b(tenths?|tens|hundred\w*|thousand\w*)\b/i,
];
/** A whole number before a unit is that of the interval where the columns are intervals. */
const COUNTED = /(^|[([])\s*\d+\s*([kM]?Wh?|A|amps?)\b/i;
const RATE =
  /wh\s*(\/|\bper\b)\s*(h|hrs?|hours?|d|days?|weeks?|months?|y|years?|annum|m2|m²|km|miles?)(?![a-z])/i;
const COUNTING_POWER = /^(?=.*\b(cumul|accum)\w*)(?!.*wh\b)/i;

/** Why the unit in a heading is not that of its numbers; null where nothing says so. */
export function notInUnits(heading: string, isWide: boolean): string | null {
  const words = tidy(heading);
  if (RATE.test(words))
    return "energy by time is power, and kWh/h is kW; where something else is meant, work out the energy first";
  if (COUNTING_POWER.test(words)) return "power and current do not add up to what is cumulative";
  return SCALED.some((pattern) => pattern.test(words)) || (!isWide && COUNTED.test(words))
    ? "its numbers may be multiples of a unit. State the unit only if they are in it; else multiply them first"
    : null;
}

/** True where a heading says that each value is the greatest of its interval. Of energy it says when it is dear. */
export const isMaximum = (heading: string): boolean =>
  /\b(max(imum)?|highest|md)\b|(?<!off[ -]?)\bpeak\b/i.test(tidy(heading));
