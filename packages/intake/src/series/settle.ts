/**
 * Turns rows as written into a series: concludes what can be concluded, asks for the rest, and places every
 * reading in UTC.
 *
 * @module
 */
import type { ImportResult } from "../import-result.ts";
import type { Notes } from "../notes.ts";
import type { Clock, Statements } from "../statements.ts";
import type { Layout } from "../table/layout.ts";
import type { RowReader } from "../table/row-reader.ts";
import type { RowStore } from "../table/row-store.ts";
import {
  type ChangeDay,
  changeDays,
  concludeClock,
  type OtherDays,
  otherDays,
  signOf,
} from "../time/clock.ts";
import { type ZoneOffsets, zoneOffsets } from "../time/zone.ts";
import { concludeDecimal } from "./decimal-mark.ts";
import { finish } from "./finish.ts";
import { type Placing, startInDayMs } from "./instants.ts";
import { orderByMidnights } from "./order-by-midnights.ts";
import { place } from "./place.ts";
import { spanOf } from "./span.ts";
import { concludeTiming, settleDays } from "./timing.ts";
import { isSmall } from "./unit.ts";
import { concludeMeter, concludeUnit } from "./value-conclusions.ts";

const DAY_MS = 86_400_000;
/** Where a site is taken to be when nobody says: this project begins with Great Britain. */
const HOME_ZONE = "Europe/London";

export function settle(
  layout: Layout | null,
  reader: RowReader | null,
  stated: Statements,
  notes: Notes,
): ImportResult {
  if (layout === null || reader === null || notes.problems.length > 0) return notes.outcome();
  const { store } = reader;
  if (store.rowCount === 0) {
    notes.refuse({
      code: "NOTHING_RECORDED",
      line: 0,
      found: "no row with a date",
      message: "Check that this is the recording.",
    });
    return notes.outcome();
  }
  concludeMeter(reader, stated, notes);
  const unit = concludeUnit(layout, reader, stated, notes);
  concludeDecimal(reader.marks, isSmall(unit), stated.decimal, notes);
  const { dates } = reader;
  const isTimed = layout.wide === null && layout.periodAt < 0;
  const order = dates.conclude(
    stated.dateOrder,
    () => (isTimed ? orderByMidnights(store, dates.sample) : null),
    notes,
  );
  // Without the order of dates nothing about time can be told yet.
  if (order === null) return notes.outcome();
  const isStated = stated.dateOrder !== undefined;
  if (!settleDays(store, { order, isStated, like: dates.sample }, notes)) return notes.outcome();
  const isRegister = stated.readings === "register";
  const timing = concludeTiming(store, layout, stated, isRegister, notes);
  if (timing === null || notes.problems.length > 0) return notes.outcome();
  const shape = { timing, isWide: layout.wide !== null, isNumbered: layout.periodAt >= 0 };
  const zoned = concludeZone(store, shape, stated, notes);
  if (zoned === null || unit === null || notes.questions.length > 0) return notes.outcome();
  const placing: Placing = { ...shape, ...zoned, powerOfTen: unit.powerOfTen };
  const placed = place(store, placing, notes);
  if (placed === null || notes.problems.length > 0) return notes.outcome();
  return finish(
    {
      placed,
      unit,
      stepS: timing.stepS,
      lines: layout.lines,
      negatives: reader.negatives,
      totals: reader.totals,
      readings: null,
      headings: layout.valuesAt.map((at) => layout.headings[at] ?? ""),
    },
    stated,
    notes,
  );
}

type Shape = Pick<Placing, "timing" | "isWide" | "isNumbered">;

/** The clock of the labels and the zone's offsets; null where they must be asked for. */
function concludeZone(
  store: RowStore,
  shape: Shape,
  stated: Statements,
  notes: Notes,
): { readonly clock: Clock; readonly offsets: ZoneOffsets; readonly zone: string } | null {
  const zone = stated.zone ?? HOME_ZONE;
  const span = spanOf(store, shape.timing.stepS, notes);
  if (span === null) return null;
  const offsets = zoneOffsets(zone, span);
  if (offsets === null) {
    notes.refuse({
      code: "ZONE_UNKNOWN",
      line: 0,
      found: zone,
      message: "Neither this program nor this device knows the time zone. Write it as Europe/London.",
    });
    return null;
  }
  if (shape.timing.hasOffsets) {
    notes.conclude("clock", "universal time", "every time carries its offset from it");
    return { clock: "utc", offsets, zone };
  }
  if (stated.clock !== "utc")
    notes.conclude(
      "zone",
      `time zone ${zone}`,
      stated.zone === undefined ? "nobody said otherwise" : "stated",
      stated.zone === undefined ? "assumed" : "stated",
    );
  const days = changeDays(offsets, shape.timing.stepS);
  const others = otherDays(shape.timing.stepS);
  countChangeDays(store, shape, days, others);
  const signs = [...days.values()].flatMap((day) => signOf(day, others, shape.timing.stepS) ?? []);
  const clock = concludeClock(
    signs,
    {
      zone,
      standardOffsetS: offsets.standardOffsetS,
      isUtcThroughout: offsets.firstOffsetS === 0 && offsets.changes.length === 0,
      hasChanges: offsets.changes.some(({ atMs }) => atMs > span.fromMs && atMs < span.untilMs),
    },
    stated,
    notes,
  );
  return clock === null ? null : { clock, offsets, zone };
}

/** Counts the readings of the days on which clocks change, and the zeros of the others, by their place in the day. */
function countChangeDays(
  store: RowStore,
  shape: Shape,
  days: ReadonlyMap<number, ChangeDay>,
  others: OtherDays,
): void {
  if (days.size === 0) return;
  const stepMs = shape.timing.stepS * 1000;
  const width = shape.isWide ? store.width : 1;
  const isCounted = shape.isWide || shape.isNumbered;
  store.eachRow(false, (piece, row) => {
    const rowDay = piece.day[row] as number;
    for (let column = 0; column < width; column++) {
      const value = piece.values[row * store.width + column] as number;
      if (Number.isNaN(value)) continue;
      const withinMs = startInDayMs(shape, piece.second[row] as number, column);
      // A counted interval stays with its day however late it is; a labelled one belongs to the day it starts in.
      const day = isCounted ? rowDay : rowDay + Math.floor(withinMs / DAY_MS);
      const change = days.get(day);
      if (change === undefined) others.readingCount++;
      if (change === undefined && value !== 0) continue;
      const slot = Math.floor((withinMs - (day - rowDay) * DAY_MS) / stepMs);
      if (change === undefined) {
        if (slot >= 0 && slot < others.zeros.length) others.zeros[slot] = (others.zeros[slot] as number) + 1;
        continue;
      }
      if (slot < 0 || slot >= change.counts.length) continue;
      change.counts[slot] = Math.min(255, (change.counts[slot] as number) + 1);
      if (value === 0) change.zeros[slot] = 1;
    }
  });
}
