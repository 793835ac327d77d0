import { describe, expect, it } from "vitest";
import { TurnedDaysFinder } from "./turned-days.ts";
import { readWrittenDay } from "./written-day.ts";

const found = (...days: readonly string[]) => {
  const finder = new TurnedDaysFinder("day/month/year");
  const into = { packed: -1, length: 0 };
  for (const [at, day] of days.entries()) {
    readWrittenDay(day, into);
    finder.take(into.packed, at + 1);
  }
  const turned = finder.end();
  return turned === null ? null : [turned.from.line, turned.to.line, turned.isAll];
};

describe("days written the other way round", () => {
  it("are found where they jump by a month and would be the next day", () => {
    expect(found("31/01/2026", "02/01/2026", "02/02/2026", "02/03/2026")).toEqual([1, 2, true]);
    expect(found("02/11/2026", "02/12/2026", "13/02/2026", "14/02/2026")).toEqual([1, 2, false]);
  });
  it("are found where one stands alone, at either end of it, and backwards", () => {
    expect(found("27/02/2026", "28/02/2026", "03/01/2026", "15/03/2026")).toEqual([2, 3, false]);
    expect(found("20/02/2026", "03/05/2026", "06/03/2026", "07/03/2026")).toEqual([2, 3, false]);
    expect(found("14/02/2026", "13/02/2026", "02/12/2026", "02/11/2026")).toEqual([2, 3, false]);
  });
  it("are not found in a file with gaps, of a month to the day or of any length", () => {
    expect(found("31/01/2026", "01/02/2026", "01/03/2026", "02/03/2026")).toBeNull();
    expect(found("30/01/2026", "01/02/2026", "02/02/2026", "02/03/2026", "03/03/2026")).toBeNull();
    expect(found("05/01/2026", "12/01/2026", "19/01/2026", "02/02/2026")).toBeNull();
    expect(found("28/02/2026", "02/03/2026", "03/03/2026", "09/03/2026")).toBeNull();
  });
  it("are not found in days that run on, over the ends of months and years", () => {
    expect(found("30/11/2026", "01/12/2026", "02/12/2026")).toBeNull();
    expect(found("31/12/2026", "01/01/2027", "02/01/2027", "03/01/2027")).toBeNull();
    expect(found("01/02/2026")).toBeNull();
    expect(found()).toBeNull();
  });
  it("are found among Sundays, which never run on, either way through the file", () => {
    // The 4th of January, 1 February, 1 March, 5 April and 3 May were turned; the others have no other order.
    const sundays = ["01/04/2026", "18/01/2026", "02/01/2026", "15/02/2026", "03/01/2026", "15/03/2026"];
    expect(found(...sundays)).toEqual([1, 2, true]);
    expect(found(...sundays.toReversed())).toEqual([2, 3, true]);
  });
  it("are not found in weeks that run one way, nor where recordings were joined out of order", () => {
    const weeks = ["04/01/2026", "11/01/2026", "01/02/2026", "08/02/2026", "05/04/2026"];
    expect(found(...weeks)).toBeNull();
    expect(found(...weeks.toReversed())).toBeNull();
    expect(found("05/06/2026", "12/06/2026", "07/01/2026", "14/01/2026", "21/01/2026")).toBeNull();
    // Weeks, the newest first, each from Monday on.
    const week = (day: number) => [0, 1, 2].map((more) => `${String(day + more).padStart(2, "0")}/01/2026`);
    expect(found(...[19, 12, 5].flatMap(week))).toBeNull();
  });
  it("are not looked for where the year stands first or the month is named", () => {
    expect(found("2026-01-02", "2026-02-02", "2026-03-02")).toBeNull();
    expect(found("2 Jan 2026", "2 Feb 2026")).toBeNull();
  });
});
