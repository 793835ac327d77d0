import type { IntervalSeries } from "@underfuse/engine";
import { instantsOf, offsetAtS, type ZoneOffsets, zoneOffsets } from "../time/zone.ts";

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
 * Cuts series that begin together into the days of a place, every interval at its own time by the clock.
 *
 * Of the hour that comes twice when clocks go back the higher of the two is taken, interval by interval. The hour that is left out when they go
 * forward carries on the interval before it: nobody could record it, so it is not absent.
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
  const { places, again } = placesOf(offsets, midnights, { startMs, stepMs });
  const [firstMs] = midnights as [number];
  return {
    from: new Date(firstMs + offsetMs(offsets, firstMs)).toISOString().slice(0, 10),
    days,
    series: series.map(({ intervalS, currentA }) => {
      const cut = new Float64Array(days * perDay);
      for (let at = 0; at < cut.length; at++)
        cut[at] = higher(currentA[places[at] as number], currentA[again[at] as number]);
      return { intervalS, currentA: cut };
    }),
  };
}

/** The higher of two values, or the one that is present. */
function higher(one = Number.NaN, other = Number.NaN): number {
  return other > one || Number.isNaN(one) ? other : one;
}

/** For each interval of each day by the clock, its place in the series, and the one where it comes again; else -1. */
function placesOf(
  offsets: ZoneOffsets,
  midnights: readonly number[],
  { startMs, stepMs }: { readonly startMs: number; readonly stepMs: number },
): { readonly places: Int32Array; readonly again: Int32Array } {
  const perDay = DAY_MS / stepMs;
  const places = new Int32Array((midnights.length - 1) * perDay);
  const again = new Int32Array(places.length).fill(-1);
  const placeOf = (atMs: number) => Math.round((atMs - startMs) / stepMs);
  let placed = 0;
  for (let at = 0; at < places.length; at++) {
    const day = Math.floor(at / perDay);
    const fromMs = midnights[day] as number;
    const withinMs = (at % perDay) * stepMs;
    const isChanged = (midnights[day + 1] as number) - fromMs !== DAY_MS;
    const [atMs, againMs] = isChanged
      ? instantsOf(offsets, fromMs + offsetMs(offsets, fromMs) + withinMs)
      : [fromMs + withinMs];
    if (atMs !== undefined) placed = placeOf(atMs);
    places[at] = placed;
    if (againMs !== undefined) again[at] = placeOf(againMs);
  }
  return { places, again };
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

const offsetMs = (offsets: ZoneOffsets, atMs: number): number => offsetAtS(offsets, atMs) * 1000;
