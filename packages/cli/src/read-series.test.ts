import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Recording, readSeries } from "./read-series.ts";

const recording: Recording = {
  kind: "interval-series",
  id: "log",
  line: "L1",
  file: "log.csv",
  columns: { delimiter: ";", date: "Date", dateOrder: "day/month/year", time: "Time", current: "I" },
  unit: "A",
  intervalS: 3600,
  labels: "start",
  from: "2026-03-01",
  until: "2026-03-01",
  doesNotInclude: [],
};

const read = (rows: readonly string[], change: object = {}) =>
  readSeries(["Date;Time;I", ...rows].join("\n"), { ...recording, ...change });
const values = (rows: readonly string[], change: object = {}) => {
  const result = read(rows, change);
  if (!result.ok) throw new Error(result.message);
  return [...result.series.currentA];
};
const absent = (count: number) => Array.from({ length: count }, () => Number.NaN);

describe("readSeries", () => {
  it("puts every row in its interval and leaves the others absent", () => {
    expect(values(["01/03/2026;00:00:00;4.5", "01/03/2026;02:00;6"])).toEqual([
      4.5,
      Number.NaN,
      6,
      ...absent(21),
    ]);
  });
  it("keeps rows in any order, and ignores days that do not count", () => {
    expect(
      values(["02/03/2026;00:00;9", "01/03/2026;01:00;2", "01/03/2026;00:00;1", "28/02/2026;23:00;9"]),
    ).toEqual([1, 2, ...absent(22)]);
  });
  it("takes an empty value or a question mark as absent, never as zero", () => {
    expect(values(["01/03/2026;00:00;", "01/03/2026;01:00;?", "01/03/2026;02:00;0"])).toEqual([
      Number.NaN,
      Number.NaN,
      0,
      ...absent(21),
    ]);
  });
  it("reads a row labelled by the end of its interval", () => {
    expect(values(["01/03/2026;01:00;7", "02/03/2026;00:00;8"], { labels: "end" })).toEqual([
      7,
      ...absent(22),
      8,
    ]);
  });
  it("reads year-month-day, commas, quotes, line ends and byte-order marks of any kind", () => {
    const columns = {
      delimiter: ",",
      date: "Date",
      dateOrder: "year-month-day",
      time: "Time",
      current: "I, mean",
    };
    const text = '\ufeffDate,Time,"I, mean"\r\n2026-03-01,00:00,"4.5"\r\n';
    expect(readSeries(text, { ...recording, columns } as never)).toMatchObject({ ok: true });
  });
  it("reads date and time from one column, as an imported recording has them", () => {
    const columns = {
      ...{ delimiter: ",", date: "start UTC", dateOrder: "year-month-day", time: "start UTC" },
      current: "L1 A per 3600 s",
    };
    const text =
      "start UTC,L1 A per 3600 s,L1 quality\n2026-03-01T00:00:00Z,4.5,recorded\n2026-03-01T01:00:00Z,,absent\n";
    const read = readSeries(text, { ...recording, columns } as never);
    expect(read.ok && [...read.series.currentA.subarray(0, 2)]).toEqual([4.5, Number.NaN]);
  });
  it("holds a day on which clocks change as twenty-four hours, as the logger wrote them", () => {
    const day = { from: "2026-03-29", until: "2026-03-29" };
    expect(values(["29/03/2026;00:00;1", "29/03/2026;02:00;3"], day)).toEqual([
      1,
      Number.NaN,
      3,
      ...absent(21),
    ]);
  });

  const refusals: [what: string, rows: string[], change: object, message: RegExp][] = [
    [
      "a day that does not exist",
      ["31/02/2026;00:00;1"],
      {},
      /^line 2: "31\/02\/2026 00:00" is no date and time/,
    ],
    ["the other order of dates", ["2026-03-01;00:00;1"], {}, /written day\/month\/year/],
    ["an hour that does not exist", ["01/03/2026;24:00;1"], {}, /^line 2/],
    [
      "an interval twice",
      ["01/03/2026;00:00;1", "01/03/2026;00:00;2"],
      {},
      /^line 3: this interval stands twice/,
    ],
    ["a wrong value behind blank lines", ["", "", "01/03/2026;00:00;x"], {}, /^line 4/],
    ["a time between intervals", ["01/03/2026;00:30;1"], {}, /not on the grid of 3600 s/],
    ["a value that is no number", ["01/03/2026;00:00;1,5"], {}, /"1,5" is no current in amperes/],
    ["a negative current", ["01/03/2026;00:00;-1"], {}, /"-1" is no current/],
    ["an endless current", ["01/03/2026;00:00;Infinity"], {}, /no current/],
    [
      "more than a job may hold",
      [],
      { intervalS: 1, until: "2028-03-01" },
      /intervals of 1 s, and the recordings of a job may hold 50000000 together/,
    ],
    ["days the wrong way round", [], { from: "2026-03-09" }, /do not hold a whole number of intervals/],
    ["an interval that does not fit a day", [], { intervalS: 7000 }, /whole number of intervals of 7000 s/],
    [
      "a column that is not there",
      [],
      { columns: { ...recording.columns, current: "amps" } },
      /^line 1: there is no column "amps"; the columns are Date, Time, I/,
    ],
  ];
  it.each(refusals)("refuses %s with its line", (_what, rows, change, message) => {
    expect(read(rows, change)).toMatchObject({ ok: false, message: expect.stringMatching(message) });
  });
  it("refuses a file without a row", () => {
    expect(readSeries("", recording)).toMatchObject({
      ok: false,
      message: 'line 1: there is no column "Date", "Time", "I"; the columns are ',
    });
  });
  it("refuses quotes that never close", () => {
    expect(read(['01/03/2026;00:00;"1'])).toMatchObject({ ok: false });
  });
  it("gives a series or a message for any text", () => {
    const piece = fc.constantFrom("01/03/2026", ";", "\n", "00:00", '"', "7", "Date;Time;I", "\r", "é", "-");
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 40 }), (pieces) => {
        const result = readSeries(pieces.join(""), recording);
        expect(result.ok ? result.series.currentA.length : result.message).not.toBe("");
      }),
    );
  });
});
