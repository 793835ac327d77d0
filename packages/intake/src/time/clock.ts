/**
 * Which clock a recording was labelled by, told from the days on which clocks change.
 *
 * Settlement counts half-hours from local midnight, 46 on the short day and 50 on the long one
 * [elexon-clock-change]. Others leave the numbers of the short day's missing hour out [emi-clock-change], or
 * hold every day at one length by writing zeros in spring and adding two hours up in autumn
 * [uci-load-diagrams]. Portals often keep days of universal time.
 *
 * @module
 */
import type { Notes } from "../notes.ts";
import { CLOCKS, type Clock, type Statements } from "../statements.ts";
import type { ZoneOffsets } from "./zone.ts";

const DAY_S = 86_400;

/** Readings on one day on which the clocks change, by their place in the day as labelled. */
export interface ChangeDay {
  /** Day, counted from 1 January 1970, local. */
  readonly day: number;
  readonly isShort: boolean;
  /** The hour of wall time that is left out or comes twice, as places in the day. */
  readonly fromSlot: number;
  readonly untilSlot: number;
  /** Readings at each place; the places of a day that is an hour too long are there too. */
  readonly counts: Uint8Array;
  readonly zeros: Uint8Array;
}

/** Zeros of all other days, by their place in the day: an hour that is zero on those as well shows no clock. */
export interface OtherDays {
  readonly zeros: Uint32Array;
  /** Readings on them. */
  readingCount: number;
}

/** Other days with nothing counted yet. */
export const otherDays = (stepS: number): OtherDays => ({
  zeros: new Uint32Array(placesOf(stepS)),
  readingCount: 0,
});

/** Places of a day, the longest there is included. */
const placesOf = (stepS: number): number => Math.ceil((DAY_S + 7200) / stepS);

/** An hour is zero as a habit where it is on more than one day in so many. */
const HABIT_DAYS = 14;

/** True where places of the day are zero on other days too, as in a building that shuts down; or no other day is there. */
function isZeroByHabit(others: OtherDays, fromSlot: number, untilSlot: number, stepS: number): boolean {
  const dayCount = (others.readingCount * stepS) / DAY_S;
  let zeroCount = 0;
  for (let slot = fromSlot; slot < untilSlot; slot++) zeroCount += others.zeros[slot] as number;
  return dayCount < 1 || zeroCount * HABIT_DAYS > dayCount * (untilSlot - fromSlot);
}

/** The days of a span on which clocks change, with nothing counted yet. */
export function changeDays(offsets: ZoneOffsets, stepS: number): Map<number, ChangeDay> {
  const days = new Map<number, ChangeDay>();
  for (const { atMs, beforeS, afterS } of offsets.changes) {
    const isShort = afterS > beforeS;
    const wallFromS = atMs / 1000 + Math.min(beforeS, afterS);
    const day = Math.floor(wallFromS / DAY_S);
    const fromSlot = Math.round((wallFromS - day * DAY_S) / stepS);
    const places = placesOf(stepS);
    days.set(day, {
      day,
      isShort,
      fromSlot,
      untilSlot: fromSlot + Math.round(Math.abs(afterS - beforeS) / stepS),
      counts: new Uint8Array(places),
      zeros: new Uint8Array(places),
    });
  }
  return days;
}

type Sign = { readonly shows: "runs on" | "wall" | "counted"; readonly because: string };

/** What one day shows; null when it shows nothing. */
export function signOf(change: ChangeDay, others: OtherDays, stepS: number): Sign | null {
  const { fromSlot, untilSlot, counts, zeros, isShort } = change;
  const perDay = Math.round(DAY_S / stepS);
  const size = untilSlot - fromSlot;
  const date = isoDay(change.day);
  const full = (from: number, until: number): boolean =>
    slots(counts, from, until).every((count) => count > 0);
  const empty = (from: number, until: number): boolean =>
    slots(counts, from, until).every((count) => count === 0);
  if (!empty(perDay, counts.length) && !isShort)
    return {
      shows: "counted",
      because: `${date} has ${slots(counts, 0, counts.length).filter(Boolean).length} intervals`,
    };
  if (!isShort) {
    const twice = slots(counts, 0, perDay).filter((count) => count === 2).length;
    return twice >= size
      ? { shows: "wall", because: `on ${date} the hour from ${clockOf(fromSlot * stepS)} comes twice` }
      : null;
  }
  const hour = `${clockOf(fromSlot * stepS)} to ${clockOf(untilSlot * stepS)}`;
  const before = full(0, fromSlot - 1);
  const after = full(untilSlot, perDay - size);
  if (!before || !after) return null;
  const isTailFull = full(perDay - size, perDay);
  if (full(fromSlot - 1, untilSlot)) {
    const hourZeros = slots(zeros, fromSlot, untilSlot).every((zero) => zero > 0);
    const dayZeros = slots(zeros, 0, perDay).filter((zero) => zero > 0).length;
    const tailZeros = slots(zeros, perDay - size, perDay).every((zero) => zero > 0);
    const isHabit = (from: number, until: number): boolean => isZeroByHabit(others, from, until, stepS);
    if (isTailFull && hourZeros && dayZeros === size && !isHabit(fromSlot, untilSlot))
      return {
        shows: "wall",
        because: `on ${date} only ${hour} is zero, the hour that the clock leaves out, and on other days it is not`,
      };
    if (hourZeros) return null;
    if (isTailFull && tailZeros && dayZeros === size && isHabit(perDay - size, perDay)) return null;
    if (isTailFull && tailZeros && dayZeros === size)
      return { shows: "counted", because: `${date} ends with an hour of zeros and is otherwise without any` };
    if (isTailFull)
      return {
        shows: "runs on",
        because: `on ${date} ${hour} was recorded, which the clock on the wall leaves out`,
      };
    return empty(perDay - size, perDay)
      ? { shows: "counted", because: `${date} has ${perDay - size} intervals, the last hour empty` }
      : null;
  }
  // Ends of intervals may be labelled by the clock after the change: 00:30, 02:00, 02:30.
  const isAbsent =
    empty(fromSlot, untilSlot) || (empty(fromSlot - 1, untilSlot - 1) && full(untilSlot - 1, untilSlot));
  return isTailFull && isAbsent
    ? { shows: "wall", because: `on ${date} only ${hour} is absent, the hour that the clock leaves out` }
    : null;
}

/** Concludes the clock from the signs of all days of change, or asks. Null where it cannot be told. */
export function concludeClock(
  signs: readonly Sign[],
  told: {
    readonly zone: string;
    readonly standardOffsetS: number;
    /** True when the clocks stood at UTC throughout. */
    readonly isUtcThroughout: boolean;
    readonly hasChanges: boolean;
  },
  stated: Statements,
  notes: Notes,
): Clock | null {
  if (stated.clock !== undefined) {
    notes.conclude("clock", CLOCK_WORDS[stated.clock], "stated", "stated");
    return stated.clock;
  }
  if (told.isUtcThroughout) {
    notes.conclude("clock", "universal time", `clocks in ${told.zone} show it on all of these days`);
    return "utc";
  }
  const shown = new Set(signs.map(({ shows }) => shows));
  const because = signs.map((sign) => sign.because).join("; ");
  const clock = { "runs on": "utc", wall: "local", counted: "periods" } as const;
  const [only] = shown;
  if (shown.size === 1 && only !== undefined && (only !== "runs on" || told.standardOffsetS === 0)) {
    notes.conclude("clock", CLOCK_WORDS[clock[only]], because);
    return clock[only];
  }
  notes.ask({
    id: "clock",
    asks: "Which clock were the times written by?",
    because:
      shown.size > 1
        ? `the days on which clocks change contradict each other: ${because}`
        : only === "runs on"
          ? `${because}; universal time and winter time both fit`
          : told.hasChanges
            ? "the days on which clocks change do not tell"
            : "no day on which clocks change is in the file, and the clocks were not at universal time",
    answers: CLOCKS.filter((name) => name !== "standard" || told.standardOffsetS !== 0).map((answer) => ({
      answer,
      means: CLOCK_WORDS[answer],
    })),
  });
  return null;
}

const CLOCK_WORDS: Readonly<Record<Clock, string>> = {
  utc: "universal time",
  standard: "winter time all the year",
  local: "local time, as the clock on the wall",
  periods: "intervals counted from local midnight",
};

export const isoDay = (day: number): string => new Date(day * DAY_S * 1000).toISOString().slice(0, 10);

export const clockOf = (secondS: number): string =>
  `${String(Math.floor(secondS / 3600)).padStart(2, "0")}:${String(Math.floor(secondS / 60) % 60).padStart(2, "0")}`;

const slots = (counts: Uint8Array, from: number, until: number): readonly number[] => [
  ...counts.subarray(Math.max(0, from), Math.max(0, until)),
];
