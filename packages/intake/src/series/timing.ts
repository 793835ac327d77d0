/**
 * What the labels of a recording show, before any clock is known: its days, its step, which way it runs and
 * whether labels name starts or ends.
 *
 * @module
 */
import type { Notes } from "../notes.ts";
import type { DateOrder, Statements } from "../statements.ts";
import type { Layout } from "../table/layout.ts";
import type { RowStore } from "../table/row-store.ts";
import { clockOf, isoDay } from "../time/clock.ts";
import { NO_OFFSET } from "../time/time-of-day.ts";
import { type DayOnLine, type TurnedDays, TurnedDaysFinder } from "../time/turned-days.ts";
import { epochDay, writtenAs } from "../time/written-day.ts";

export interface Timing {
  readonly stepS: number;
  /** True where the file runs from the newest reading to the oldest. */
  readonly isReversed: boolean;
  /** Added to a label to make it the start of its interval. [ms], 0 or minus one step */
  readonly toStartMs: number;
  /** True where 00:00 stands at the end of its own date, not at its beginning. */
  readonly closesDay: boolean;
  /** True where every time carries its offset from UTC. */
  readonly hasOffsets: boolean;
}

const DAY_S = 86_400;
/** Different steps that are counted before a file is said to have none. */
const MAX_STEPS = 2000;

/** How the days of a file are taken to be written. */
interface DaysAsWritten {
  readonly order: DateOrder;
  /** True where a person said so, not the file. */
  readonly isStated: boolean;
  /** A date as the file writes them. */
  readonly like: string;
}

/** Turns the packed days of a store into days since 1970, in place. False when one does not exist or is turned. */
export function settleDays(store: RowStore, written: DaysAsWritten, notes: Notes): boolean {
  const { order, like } = written;
  const finder = new TurnedDaysFinder(order);
  let [lastPacked, lastDay, isSound] = [-1, 0, true];
  store.eachRow(false, (piece, row) => {
    const packed = piece.day[row] as number;
    if (packed !== lastPacked) {
      lastPacked = packed;
      lastDay = epochDay(packed, order);
      finder.take(packed, piece.line[row] as number);
      if (Number.isNaN(lastDay)) {
        isSound = false;
        lastDay = 0;
        notes.refuse({
          code: "DATE_UNREADABLE",
          line: piece.line[row] as number,
          found: writtenAs(packed, like),
          message: `There is no such day, read as ${order}. Correct the date, or state another order.`,
        });
      }
    }
    piece.day[row] = lastDay;
  });
  if (!isSound) return false;
  const turned = finder.end();
  if (turned !== null) refuseTurned(turned, written, notes);
  return turned === null;
}

function refuseTurned({ from, to, isAll }: TurnedDays, written: DaysAsWritten, notes: Notes): void {
  const { order, isStated, like } = written;
  const asRead = (day: DayOnLine): string => isoDay(epochDay(day.packed, order));
  const isOther = isStated && isAll;
  notes.refuse({
    code: isOther ? "STATEMENT_CONTRADICTED" : "DATE_ORDER_MIXED",
    line: to.line,
    found: `${writtenAs(to.packed, like)} after ${writtenAs(from.packed, like)} on line ${from.line}`,
    message: `Read as ${order} that is ${asRead(to)} after ${asRead(from)}, and no day runs on; with day and month the other way round it is the next day. ${
      isOther
        ? "State the other order, or write every date as 2026-11-25."
        : "A spreadsheet turns dates so that it opens and saves. Export the file anew and import it as it comes, or write every date as 2026-11-25."
    }`,
  });
}

/** What labels show, gathered in one pass. */
interface LabelSigns {
  readonly stepCounts: ReadonlyMap<number, number>;
  readonly risingCount: number;
  readonly fallingCount: number;
  readonly withOffset: { count: number; line: number };
  readonly without: { count: number; line: number };
  /** Line of a label 24:00; 0 where there is none. */
  readonly line24: number;
  readonly first: { labelS: number; line: number };
  readonly last: { labelS: number; line: number };
}

function labelSigns(store: RowStore): LabelSigns {
  const stepCounts = new Map<number, number>();
  let [previousS, risingCount, fallingCount, line24] = [Number.NaN, 0, 0, 0];
  const withOffset = { count: 0, line: 0 };
  const without = { count: 0, line: 0 };
  const first = { labelS: Number.POSITIVE_INFINITY, line: 0 };
  const last = { labelS: Number.NEGATIVE_INFINITY, line: 0 };
  store.eachRow(false, (piece, row) => {
    const second = piece.second[row] as number;
    const line = piece.line[row] as number;
    const offset = piece.offsetMin[row] as number;
    const side = offset === NO_OFFSET ? without : withOffset;
    if (side.count++ === 0) side.line = line;
    if (second === DAY_S && line24 === 0) line24 = line;
    const labelS = (piece.day[row] as number) * DAY_S + second;
    if (labelS < first.labelS) {
      first.labelS = labelS;
      first.line = line;
    }
    if (labelS > last.labelS) {
      last.labelS = labelS;
      last.line = line;
    }
    // The offset takes the jumps of a clock change out of the steps.
    const atS = offset === NO_OFFSET ? labelS : labelS - offset * 60;
    const step = Math.abs(atS - previousS);
    if (step > 0) {
      if (atS > previousS) risingCount++;
      else fallingCount++;
      if (stepCounts.size < MAX_STEPS || stepCounts.has(step))
        stepCounts.set(step, (stepCounts.get(step) ?? 0) + 1);
    }
    previousS = atS;
  });
  return { stepCounts, risingCount, fallingCount, withOffset, without, line24, first, last };
}

/** Pairs of neighbouring rows in which midnight stands with the date it ends, and with the one it begins. */
function midnights(
  store: RowStore,
  stepS: number,
): { readonly closing: number; readonly opening: number; readonly line: number } {
  let [day, second, closing, opening, line] = [Number.NaN, Number.NaN, 0, 0, 0];
  store.eachRow(false, (piece, row) => {
    const nextDay = piece.day[row] as number;
    const nextSecond = piece.second[row] as number;
    if (Math.min(second, nextSecond) === 0 && Math.max(second, nextSecond) === DAY_S - stepS) {
      if (day === nextDay) {
        closing++;
        line ||= piece.line[row] as number;
      } else if (Math.abs(nextDay - day) === 1) opening++;
    }
    day = nextDay;
    second = nextSecond;
  });
  return { closing, opening, line };
}

/** Concludes the timing of a store whose days are settled; null where the notes refuse it. */
export function concludeTiming(
  store: RowStore,
  layout: Layout,
  stated: Statements,
  isRegister: boolean,
  notes: Notes,
): Timing | null {
  const signs = labelSigns(store);
  const { withOffset, without } = signs;
  if (withOffset.count > 0 && without.count > 0) {
    notes.refuse({
      code: "TIME_UNREADABLE",
      line: Math.max(withOffset.line, without.line),
      found: `a time ${withOffset.line > without.line ? "with" : "without"} an offset from UTC`,
      message: `Line ${Math.min(withOffset.line, without.line)} has a time ${withOffset.line > without.line ? "without" : "with"} one. Write all times alike.`,
    });
    return null;
  }
  const hasOffsets = withOffset.count > 0;
  const isReversed = signs.fallingCount > signs.risingCount;
  if (signs.fallingCount > 0 && signs.risingCount > 0 && Math.min(signs.fallingCount, signs.risingCount) > 2)
    notes.remark("order", "The rows do not run in order of time. They were put in order.");
  const { wide } = layout;
  if (wide !== null) {
    const isEnd = wideLabelsEnd(layout, stated, notes);
    const toStartMs = (wide.firstLabelS - (isEnd ? wide.stepS : 0)) * 1000;
    notes.conclude("stepS", `intervals of ${wide.stepS} s`, "the columns of a day");
    return { stepS: wide.stepS, isReversed, toStartMs, closesDay: false, hasOffsets };
  }
  const stepS = concludeStep(store, layout, signs, stated, notes);
  if (stepS === null) return null;
  if (layout.periodAt >= 0) {
    notes.conclude("labels", "numbers of intervals, from 1", "the column of the number");
    return { stepS, isReversed, toStartMs: 0, closesDay: false, hasOffsets };
  }
  const { closing, opening, line } = midnights(store, stepS);
  if (closing > 0 && opening > 0 && !isRegister) {
    notes.refuse({
      code: "TIME_TWICE",
      line,
      found: "midnight at the end of its date, and elsewhere at the beginning of one",
      message: "Write the midnight that ends a day as 24:00, or as 00:00 of the day after, throughout.",
    });
    return null;
  }
  const closesDay = closing > 0;
  if (isRegister) {
    notes.conclude("labels", "moments at which a register was read", "stated", "stated");
    return { stepS, isReversed, toStartMs: 0, closesDay, hasOffsets };
  }
  const isEnd = labelsEnd({ signs, stepS, closingLine: closesDay ? line : 0, layout, stated, notes });
  return { stepS, isReversed, toStartMs: isEnd ? -stepS * 1000 : 0, closesDay, hasOffsets };
}

function concludeStep(
  store: RowStore,
  layout: Layout,
  { stepCounts }: LabelSigns,
  stated: Statements,
  notes: Notes,
): number | null {
  if (stated.stepS !== undefined) {
    notes.conclude("stepS", `intervals of ${stated.stepS} s`, "stated", "stated");
    return stated.stepS;
  }
  if (layout.periodAt >= 0) {
    let most = 0;
    store.eachRow(false, (piece, row) => {
      most = Math.max(most, piece.second[row] as number);
    });
    const stepS = [3600, 1800, 900, 600, 300].find(
      (step) => most <= (25 * 3600) / step && most > (18 * 3600) / step,
    );
    if (stepS !== undefined) {
      notes.conclude("stepS", `intervals of ${stepS} s`, `they are numbered up to ${most}`);
      return stepS;
    }
  }
  const [commonest] = [...stepCounts].toSorted(([a, x], [b, y]) => y - x || a - b);
  if (layout.periodAt < 0 && commonest !== undefined && commonest[0] <= 3600) {
    const [stepS, count] = commonest;
    notes.conclude(
      "stepS",
      `intervals of ${stepS} s`,
      `${count} of ${store.rowCount - 1} rows follow the row before by so much`,
    );
    return stepS;
  }
  notes.ask({
    id: "stepS",
    asks: "How long is an interval, in seconds?",
    because: store.rowCount < 2 ? "there is one reading only" : "the times of the readings do not tell",
    answers: [],
  });
  return null;
}

function wideLabelsEnd({ wide, headings }: Layout, stated: Statements, notes: Notes): boolean {
  if (wide === null || wide.named === "numbers") {
    notes.conclude("labels", "numbers of intervals, in the order of the day", "the headings");
    return false;
  }
  const [first, last] = [headings[wide.at[0] as number], headings[wide.at.at(-1) as number]];
  const isEnd = stated.labels === undefined ? wide.firstLabelS > 0 : stated.labels === "end";
  const because =
    stated.labels === undefined ? `the columns of a day run from ${first} to ${last}` : "stated";
  notes.conclude("labels", LABEL_WORDS[isEnd ? "end" : "start"], because, stated.labels ? "stated" : "seen");
  return isEnd;
}

const LABEL_WORDS = {
  start: "times name the start of the interval",
  end: "times name the end of the interval",
} as const;

function labelsEnd(told: {
  readonly signs: LabelSigns;
  readonly stepS: number;
  readonly closingLine: number;
  readonly layout: Layout;
  readonly stated: Statements;
  readonly notes: Notes;
}): boolean {
  const { signs, stepS, closingLine, layout, stated, notes } = told;
  const { line24, first, last } = signs;
  const conclude = (labels: "start" | "end", because: string, basis: "seen" | "stated" = "seen"): boolean => {
    if (stated.labels !== undefined && stated.labels !== labels)
      notes.refuse({
        code: "STATEMENT_CONTRADICTED",
        line: line24 || closingLine,
        found: because,
        message: `It was stated that times name the ${stated.labels} of the interval. State what the file shows, or nothing.`,
      });
    notes.conclude("labels", LABEL_WORDS[labels], because, basis);
    return labels === "end";
  };
  if (line24 > 0) return conclude("end", `line ${line24} is labelled 24:00`);
  if (closingLine > 0)
    return conclude("end", `on line ${closingLine} 00:00 stands with the date that it ends`);
  if (stated.labels !== undefined) return conclude(stated.labels, "stated", "stated");
  if (layout.labelsInHeading !== null)
    return conclude(
      layout.labelsInHeading,
      `the heading "${layout.headings[layout.timeAt >= 0 ? layout.timeAt : layout.dateAt]}"`,
    );
  const [firstS, lastS] = [modulo(first.labelS, DAY_S), modulo(last.labelS, DAY_S)];
  const span = `the first time is ${clockOf(firstS)} on ${isoDay(Math.floor(first.labelS / DAY_S))} (line ${first.line}), the last ${clockOf(lastS)} (line ${last.line})`;
  if (firstS === 0 && lastS === DAY_S - stepS) return conclude("start", span);
  if (firstS === stepS && lastS === 0) return conclude("end", span);
  notes.ask({
    id: "labels",
    asks: "Does a time name the start or the end of its interval?",
    because: `${span}: neither is the edge of a whole day`,
    answers: [
      { answer: "start", means: `00:30 is the interval from 00:30 on` },
      { answer: "end", means: `00:30 is the interval up to 00:30` },
    ],
  });
  return false;
}

const modulo = (value: number, by: number): number => ((value % by) + by) % by;
