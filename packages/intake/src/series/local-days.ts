import type { IntervalSeries } from "@underfuse/engine";
import { instantsOf, type ZoneOffsets, zoneOffsets } from "../time/zone.ts";

const DAY_MS = 86_400_000;

/** Whole days of a place, each of 24 hours from its own midnight. */
export interface LocalDays {
  /** First day, year-month-day. */
  readonly from: string;
  readonly days: number;
  /** One for each series given, cut alike; NaN where nothing is present. */
  readonly series: readonly IntervalSeries[];
}

/**
 * Cuts series that begin together into the days of a place.
 *
 * On the day that clocks go back the last hour is left out; on the day they go forward the last hour is absent.
 * Every other hour stands at its own time by the clock.
 *
 * @param input.startMs Start of the series, UTC. [ms since 1970]
 * @returns Null where they hold no whole day, or the zone is not known.
 */
export function localDays(input: {
  readonly startMs: number;
  readonly series: readonly IntervalSeries[];
  readonly zone: string;
}): LocalDays | null {
  const { startMs, series, zone } = input;
  const [first] = series;
  if (first === undefined) return null;
  const stepMs = first.intervalS * 1000;
  const untilMs = startMs + first.currentA.length * stepMs;
  const offsets = zoneOffsets(zone, { fromMs: startMs, untilMs });
  if (offsets === null) return null;
  const midnights = midnightsIn(offsets, startMs, untilMs);
  const days = midnights.length - 1;
  if (days < 1) return null;
  const perDay = DAY_MS / stepMs;
  return {
    from: new Date((midnights[0] as number) + offsetOf(offsets, midnights[0] as number))
      .toISOString()
      .slice(0, 10),
    days,
    series: series.map(({ intervalS, currentA }) => ({
      intervalS,
      currentA: Float64Array.from({ length: days * perDay }, (_, at) => {
        const atMs = (midnights[Math.floor(at / perDay)] as number) + (at % perDay) * stepMs;
        const isNextDay = atMs >= (midnights[Math.floor(at / perDay) + 1] as number);
        return isNextDay ? Number.NaN : (currentA[Math.round((atMs - startMs) / stepMs)] as number);
      }),
    })),
  };
}

/** Instants of local midnight within a span, its end included. */
function midnightsIn(offsets: ZoneOffsets, startMs: number, untilMs: number): readonly number[] {
  const found: number[] = [];
  for (
    let wallMs = Math.floor(startMs / DAY_MS) * DAY_MS - DAY_MS;
    wallMs <= untilMs + DAY_MS;
    wallMs += DAY_MS
  ) {
    const [atMs] = instantsOf(offsets, wallMs);
    if (atMs !== undefined && atMs >= startMs && atMs <= untilMs) found.push(atMs);
  }
  return found;
}

const offsetOf = (offsets: ZoneOffsets, atMs: number): number =>
  (offsets.changes.findLast((change) => change.atMs <= atMs)?.afterS ?? offsets.firstOffsetS) * 1000;
