import type { Clock } from "../statements.ts";
import type { RowPiece } from "../table/row-store.ts";
import { instantsOf, type ZoneOffsets } from "../time/zone.ts";
import type { Timing } from "./timing.ts";

const DAY_MS = 86_400_000;

/** How labelled time becomes UTC. */
export interface Placing {
  readonly timing: Timing;
  /** `utc` too where every time carries its offset. */
  readonly clock: Clock;
  readonly offsets: ZoneOffsets;
  readonly zone: string;
  /** True for a wide table: the values of a row follow one another in time. */
  readonly isWide: boolean;
  /** True where seconds of the store are numbers of intervals. */
  readonly isNumbered: boolean;
  /** Power of ten that turns a number of the file into the unit of the series. */
  readonly powerOfTen: number;
}

/** The place of a reading whose time does not exist, or exists twice. */
const NOWHERE = Number.NaN;

/** Start of a reading after the midnight of its day, as labelled. [ms] */
export function startInDayMs(
  { timing, isWide, isNumbered }: Pick<Placing, "timing" | "isWide" | "isNumbered">,
  second: number,
  column: number,
): number {
  const stepMs = timing.stepS * 1000;
  if (isWide) return column * stepMs + timing.toStartMs;
  if (isNumbered) return (second - 1) * stepMs;
  return (timing.closesDay && second === 0 ? DAY_MS : second * 1000) + timing.toStartMs;
}

/** Start of each reading in UTC, walked in order of time. */
export class Instants {
  /** Start as labelled, of the reading last asked for. [ms] */
  naiveMs = 0;
  why: "skipped" | "beyond" | "two places" = "skipped";
  /** True where only the end of the interval is a time that clocks showed. */
  isByEnd = false;
  readonly #placing: Placing;
  readonly #stepMs: number;
  /** Days near a clock change, local: elsewhere one offset holds all day. */
  readonly #nearChange = new Set<number>();
  #previousMs = Number.NaN;
  #day = Number.NaN;
  #dayOffsetMs = 0;
  #nextMidnightMs = 0;

  constructor(placing: Placing) {
    this.#placing = placing;
    this.#stepMs = placing.timing.stepS * 1000;
    for (const { atMs, beforeS } of placing.offsets.changes) {
      const day = Math.floor((atMs + beforeS * 1000) / DAY_MS);
      for (const near of [day - 1, day, day + 1]) this.#nearChange.add(near);
    }
  }

  restart(): void {
    this.#previousMs = Number.NaN;
  }

  /** @returns UTC start of a reading [ms]; NaN where it has none, and `why` says why. */
  of(piece: RowPiece, row: number, column: number): number {
    const { timing, clock, isWide, isNumbered, offsets } = this.#placing;
    const day = piece.day[row] as number;
    const withinMs = startInDayMs(this.#placing, piece.second[row] as number, column);
    const naiveMs = day * DAY_MS + withinMs;
    this.naiveMs = naiveMs;
    this.why = "beyond";
    this.isByEnd = false;
    if (timing.hasOffsets) return naiveMs - (piece.offsetMin[row] as number) * 60_000;
    if (clock === "periods") {
      if (day !== this.#day) this.#enterDay(day);
      const atMs = this.#dayOffsetMs + withinMs;
      return atMs >= this.#nextMidnightMs ? NOWHERE : atMs;
    }
    // A column beyond the 24 hours of a day has a place only where intervals are counted.
    if (withinMs >= DAY_MS && (isWide || isNumbered)) return NOWHERE;
    if (clock === "utc") return naiveMs;
    if (clock === "standard") return naiveMs - offsets.standardOffsetS * 1000;
    const naiveDay = Math.floor(naiveMs / DAY_MS);
    if (this.#nearChange.has(naiveDay)) return this.#walk(naiveMs);
    if (naiveDay !== this.#day) {
      this.#day = naiveDay;
      this.#dayOffsetMs = (instantsOf(offsets, naiveDay * DAY_MS)[0] as number) - naiveDay * DAY_MS;
    }
    this.#previousMs = naiveMs + this.#dayOffsetMs;
    return this.#previousMs;
  }

  /** Near a clock change: the instant that follows the one before, or the only one there is. */
  #walk(naiveMs: number): number {
    const { timing, offsets } = this.#placing;
    const starts = instantsOf(offsets, naiveMs);
    // An end labelled by the clock after the change names an instant of its own.
    const ends =
      timing.toStartMs === 0
        ? []
        : instantsOf(offsets, naiveMs - timing.toStartMs).map((atMs) => atMs + timing.toStartMs);
    const candidates = [...new Set([...starts, ...ends])];
    const following = this.#previousMs + this.#stepMs;
    const [only = NOWHERE] = candidates;
    const atMs = candidates.includes(following) ? following : candidates.length === 1 ? only : NOWHERE;
    this.why = candidates.length > 1 ? "two places" : "skipped";
    this.isByEnd = starts.length === 0;
    // What has no place does not lead to the next one either.
    this.#previousMs = atMs;
    return atMs;
  }

  #enterDay(day: number): void {
    const { offsets } = this.#placing;
    this.#day = day;
    this.#dayOffsetMs = instantsOf(offsets, day * DAY_MS)[0] ?? day * DAY_MS;
    this.#nextMidnightMs = instantsOf(offsets, (day + 1) * DAY_MS)[0] ?? (day + 1) * DAY_MS;
  }
}
