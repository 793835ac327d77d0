import { noMarks, readNumber } from "../text/number-cell.ts";
import { readWrittenTime } from "../time/time-of-day.ts";
import { readWrittenDay } from "../time/written-day.ts";

/** What the cells of a column look like. */
export interface ColumnKind {
  readonly isDate: boolean;
  readonly isDateTime: boolean;
  readonly isTime: boolean;
  readonly hasColon: boolean;
  readonly isNumber: boolean;
  readonly isEmpty: boolean;
  /** Whole numbers from 1 to 300. */
  readonly isCount: boolean;
}

/** What the cells of a column look like, from those that are not empty: true where all but one in five agree. */
export function columnKind(cells: readonly string[], decimal?: "." | ","): ColumnKind {
  const [day, time] = [
    { packed: -1, length: 0 },
    { secondS: -1, offsetMin: 0 },
  ];
  const marks = noMarks(decimal);
  const count = { date: 0, dateTime: 0, time: 0, colon: 0, number: 0, whole: 0, filled: 0 };
  for (const raw of cells) {
    const cell = raw.trim();
    const value = readNumber(cell, 1, marks);
    if (Number.isNaN(value)) continue;
    count.filled++;
    if (value !== null) count.number++;
    if (value !== null && Number.isInteger(value) && value >= 1 && value <= 300) count.whole++;
    readWrittenDay(cell, day);
    if (day.packed >= 0) {
      count.date++;
      if (cell.length > day.length) count.dateTime++;
      continue;
    }
    readWrittenTime(cell, time);
    if (time.secondS < 0) continue;
    count.time++;
    if (cell.includes(":")) count.colon++;
  }
  const most = (part: number): boolean => part > 0 && part >= 0.8 * count.filled;
  return {
    isDate: most(count.date),
    isDateTime: most(count.dateTime),
    isTime: most(count.time),
    hasColon: most(count.colon),
    // A value that is none must not hide its column: it is refused later, with its line.
    isNumber: count.number > 0 && count.number >= 0.5 * count.filled,
    isEmpty: count.filled === 0,
    isCount: most(count.whole),
  };
}
