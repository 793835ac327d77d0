/**
 * Time zones as the list of their clock changes.
 *
 * Europe's common rule is written out here, because a telephone's own tables may be old or absent: clocks
 * go forward at 01:00 UTC on the last Sunday of March and back at 01:00 UTC on the last Sunday of October,
 * all together, since 1997. Other zones, and earlier years, are asked of the platform.
 *
 * @module
 */

/** Offsets of a zone over a span of time. */
export interface ZoneOffsets {
  /** Changes of the clock, oldest first. */
  readonly changes: readonly ClockChange[];
  /** Offset before the first change. [s], east positive */
  readonly firstOffsetS: number;
  /** Least offset in the span: that of standard time. [s] */
  readonly standardOffsetS: number;
}

interface ClockChange {
  readonly atMs: number;
  readonly beforeS: number;
  readonly afterS: number;
}

/** Standard offset of zones that keep Europe's common rule. [h] */
const COMMON_RULE: Readonly<Record<string, number>> = {
  "Europe/London": 0,
  "Europe/Dublin": 0,
  "Europe/Lisbon": 0,
  "Europe/Amsterdam": 1,
  "Europe/Berlin": 1,
  "Europe/Brussels": 1,
  "Europe/Copenhagen": 1,
  "Europe/Madrid": 1,
  "Europe/Oslo": 1,
  "Europe/Paris": 1,
  "Europe/Prague": 1,
  "Europe/Rome": 1,
  "Europe/Stockholm": 1,
  "Europe/Vienna": 1,
  "Europe/Warsaw": 1,
  "Europe/Zurich": 1,
  "Europe/Athens": 2,
  "Europe/Helsinki": 2,
};
export const COMMON_RULE_ZONES = Object.keys(COMMON_RULE);
const COMMON_RULE_FROM_MS = Date.UTC(1997, 0, 1);

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;

/** The instant of Europe's clock change in a month: 01:00 UTC on its last Sunday. [ms] */
export function lastSundayChangeMs(year: number, month: 3 | 10): number {
  const last = new Date(Date.UTC(year, month, 0));
  return last.getTime() - last.getUTCDay() * DAY_MS + HOUR_MS;
}

/**
 * Clock changes of a zone from a day before `fromMs` to a day after `untilMs`.
 *
 * @returns Null when neither the common rule nor the platform knows the zone.
 */
export function zoneOffsets(
  zone: string,
  span: { readonly fromMs: number; readonly untilMs: number },
): ZoneOffsets | null {
  const [fromMs, untilMs] = [span.fromMs - DAY_MS, span.untilMs + DAY_MS];
  const standardH = Object.hasOwn(COMMON_RULE, zone) ? COMMON_RULE[zone] : undefined;
  if (standardH !== undefined && fromMs >= COMMON_RULE_FROM_MS)
    return byCommonRule(standardH * 3600, fromMs, untilMs);
  return byPlatform(zone, fromMs, untilMs);
}

function byCommonRule(standardS: number, fromMs: number, untilMs: number): ZoneOffsets {
  const summerS = standardS + 3600;
  const all: ClockChange[] = [];
  const lastYear = new Date(untilMs).getUTCFullYear();
  for (let year = new Date(fromMs).getUTCFullYear(); year <= lastYear; year++) {
    all.push({ atMs: lastSundayChangeMs(year, 3), beforeS: standardS, afterS: summerS });
    all.push({ atMs: lastSundayChangeMs(year, 10), beforeS: summerS, afterS: standardS });
  }
  const changes = all.filter(({ atMs }) => atMs > fromMs && atMs < untilMs);
  const firstOffsetS = all.findLast(({ atMs }) => atMs <= fromMs)?.afterS ?? standardS;
  return { changes, firstOffsetS, standardOffsetS: standardS };
}

function byPlatform(zone: string, fromMs: number, untilMs: number): ZoneOffsets | null {
  let offsetOf: (atMs: number) => number;
  try {
    offsetOf = platformOffset(zone);
  } catch {
    return null;
  }
  const changes: ClockChange[] = [];
  const firstOffsetS = offsetOf(fromMs);
  let beforeS = firstOffsetS;
  // No zone has changed its clocks twice within two days.
  for (let atMs = fromMs; atMs < untilMs; atMs += 2 * DAY_MS) {
    let [low, high] = [atMs, Math.min(atMs + 2 * DAY_MS, untilMs)];
    const afterS = offsetOf(high);
    if (afterS === beforeS) continue;
    while (high - low > 1000) {
      const middle = low + Math.floor((high - low) / 2000) * 1000;
      if (offsetOf(middle) === beforeS) low = middle;
      else high = middle;
    }
    changes.push({ atMs: high, beforeS, afterS });
    beforeS = afterS;
  }
  const yearEarlier = offsetOf(fromMs - 182 * DAY_MS);
  const standardOffsetS = Math.min(firstOffsetS, yearEarlier, ...changes.map(({ afterS }) => afterS));
  return { changes, firstOffsetS, standardOffsetS };
}

/** @throws RangeError when the platform does not know the zone. */
function platformOffset(zone: string): (atMs: number) => number {
  const format = new Intl.DateTimeFormat("en-GB", {
    timeZone: zone,
    hourCycle: "h23",
    year: "numeric",
    month: "numeric",
    day: "numeric",
    hour: "numeric",
    minute: "numeric",
    second: "numeric",
  });
  return (atMs) => {
    const wholeMs = Math.floor(atMs / 1000) * 1000;
    const part = Object.fromEntries(
      format.formatToParts(wholeMs).map(({ type, value }) => [type, Number(value)]),
    ) as Record<"year" | "month" | "day" | "hour" | "minute" | "second", number>;
    const wallMs = Date.UTC(part.year, part.month - 1, part.day, part.hour, part.minute, part.second);
    return (wallMs - wholeMs) / 1000;
  };
}

/** Offset at an instant. [s], east positive */
export function offsetAtS(offsets: ZoneOffsets, atMs: number): number {
  const last = offsets.changes.findLast((change) => change.atMs <= atMs);
  return last === undefined ? offsets.firstOffsetS : last.afterS;
}

/**
 * Instants at which clocks in a zone show a time: none in the hour that spring leaves out, two in the hour
 * that autumn repeats, earlier first.
 *
 * @param wallMs The time shown, as if it were UTC. [ms]
 */
export function instantsOf(offsets: ZoneOffsets, wallMs: number): readonly number[] {
  const candidates = new Set([
    offsets.firstOffsetS,
    ...offsets.changes.flatMap(({ atMs, beforeS, afterS }) =>
      Math.abs(atMs - wallMs) < 2 * DAY_MS ? [beforeS, afterS] : [],
    ),
    offsetAtS(offsets, wallMs),
  ]);
  return [...candidates]
    .map((offsetS) => wallMs - offsetS * 1000)
    .filter((atMs) => wallMs - offsetAtS(offsets, atMs) * 1000 === atMs)
    .toSorted((a, b) => a - b);
}
