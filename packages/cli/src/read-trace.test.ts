import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { isTrace, readTrace } from "./read-trace.ts";

const read = (...rows: readonly string[]) => readTrace(rows.join("\n"));
const good = (...rows: readonly string[]) => {
  const result = read(...rows);
  if (!result.ok) throw new Error(result.message);
  return result;
};
const refusal = (...rows: readonly string[]): string => {
  const result = read(...rows);
  return result.ok ? "read" : result.message;
};

describe("isTrace", () => {
  it.each([
    ["time s,L1 A", true],
    ["Time;L1 A", true],
    ['L1 A,"time (s)"', true],
    ["time ms,L1 A", true],
    ["step,L1 A", false],
    ["timer,L1 A", false],
    ['{"format":"underfuse-readings","time":1}', false],
    ["", false],
  ])("%s: %s", (text, is) => expect(isTrace(`${text}\n1,2`)).toBe(is));
});

describe("readTrace", () => {
  it("reads seconds from the start, currents by line, the car and events", () => {
    const { trace, remarks } = good(
      "time s,L1 A,L2 A,car L1 A,event",
      "5,10,1,0,",
      "6.5,20.5,2,16,load on",
      "7,30,,6,",
    );
    expect([...trace.timesS]).toEqual([0, 1.5, 2]);
    expect([...(trace.supplyA.L1 ?? [])]).toEqual([10, 20.5, 30]);
    expect([...(trace.supplyA.L2 ?? [])]).toEqual([1, 2, Number.NaN]);
    expect([...(trace.carA?.L1 ?? [])]).toEqual([0, 16, 6]);
    expect(trace.events).toEqual([{ atS: 1.5, what: "load-on" }]);
    expect(remarks).toEqual(["1 cell of current is empty: taken as not recorded, never as zero."]);
  });
  it("reads dates and times, with a zone or without, and other delimiters", () => {
    const { trace } = good(
      "time;L1 A",
      "2026-11-25T10:00:59.5;1",
      "2026-11-25 10:01:00;2",
      "2026-11-26T00:00;3",
    );
    expect([...trace.timesS]).toEqual([0, 0.5, 50340.5]);
    const zoned = good("time\tL1 A", "2026-10-25T01:59:59+01:00\t1", "2026-10-25T01:00:00Z\t2").trace;
    expect([...zoned.timesS]).toEqual([0, 1]);
    expect(trace.carA).toBeNull();
  });
  it("takes a row with an event alone as no value", () => {
    const { trace, remarks } = good(
      "time s,L1 A,event",
      "0,1,",
      "0.4,,bus-lost",
      "1,2,",
      "1,,restored",
      "2,3,",
    );
    expect([...trace.timesS]).toEqual([0, 1, 2]);
    expect(trace.events).toEqual([
      { atS: 0.4, what: "bus-lost" },
      { atS: 1, what: "restored" },
    ]);
    expect(remarks).toEqual([]);
  });

  it.each<[what: string, rows: readonly string[], says: RegExp]>([
    [
      "a clock that goes back once",
      ["0,1", "1,2", "0.5,9", "2,3"],
      /^1 row at which the clock goes backwards, first at line 4: left out\.$/,
    ],
    [
      "a time that stands twice",
      ["0,1", "1,2", "1,9", "2,3"],
      /^1 row with the time of the row before, first at line 4/,
    ],
    [
      "a value that is no number",
      ["0,1", "1,OL", "2,3"],
      /^1 value that is not a number, first at line 3, column 2, "L1 A" \("OL"\)/,
    ],
    ["a value no line carries", ["0,1", "1,1e9", "2,3"], /^1 value beyond 100000 A, first at line 3/],
    [
      "a time that cannot be read",
      ["0,1", "soon,2", "2,3"],
      /^1 row without a time that can be read, first at line 3 \("soon"\)/,
    ],
    [
      "a gap",
      ["0,1", "1,2", "2,3", "30,4", "31,5"],
      /^1 gap, the longest 28 s after line 4 \(usually 1 s\): nothing was filled in\.$/,
    ],
  ])("says what it did about %s", (_what, rows, says) => {
    const { trace, remarks } = good("time s,L1 A", ...rows);
    expect(remarks).toEqual([expect.stringMatching(says)]);
    expect([...trace.timesS]).toEqual([...trace.timesS].sort((a, b) => a - b));
  });
  it("leaves out three rows, and refuses four", () => {
    const rows = ["9,1", "10,1", "1,1", "2,1", "3,1", "11,1"];
    expect(good("time s,L1 A", ...rows).remarks).toEqual([expect.stringMatching(/^3 rows at which/)]);
    expect(refusal("time s,L1 A", ...rows, "4,1")).toMatch(/^it has 4 rows/);
  });
  it("leaves out a column that is none of a trace, and says so", () => {
    const { remarks } = good("time s,L1 A,temperature C", "0,1,20", "1,2,20");
    expect(remarks).toEqual([
      expect.stringMatching(/^Column 3, "temperature C", is not one of a trace: left out\./),
    ]);
  });

  it.each<[what: string, rows: readonly string[], says: RegExp]>([
    [
      "a current without a unit",
      ["time s,L1", "0,1"],
      /^line 1, column 2, "L1": it has no unit; head it "L1 A"/,
    ],
    [
      "a car's without a unit",
      ["time s,L1 A,car L1", "0,1,1"],
      /column 3, "car L1": it has no unit; head it "car L1 A"/,
    ],
    ["another unit", ["time s,L1 mA", "0,1"], /column 2, "L1 mA": a trace is of currents in amperes/],
    ["time in another unit", ["time ms,L1 A", "0,1"], /column 1, "time ms": time is written in seconds/],
    [
      "seconds under a heading without unit",
      ["time,L1 A", "0,1"],
      /line 2, column of time: "0" is a number without a unit/,
    ],
    [
      "a heading that is nearly one",
      ["time s,L1 A,carL1 A", "0,1,1"],
      /column 3, "carL1 A": it is not known/,
    ],
    ["a heading twice", ["time s,L1 A,l1 (A)", "0,1,1"], /columns 2 and 3 are both/],
    ["two times", ["time s,time,L1 A", "0,1,1"], /two columns of time/],
    ["no supply", ["time s,car L1 A", "0,1"], /no current of the supply/],
    ["no rows", ["time s,L1 A"], /no row of currents/],
    ["an unknown event", ["time s,L1 A,event", "0,1,buss lost"], /line 2, column 3: "buss lost" is no event/],
    ["an event without a time", ["time s,L1 A,event", "0,1,", ",1,load-on"], /line 3: "load-on" has no time/],
    [
      "an event the clock cannot place",
      ["time s,L1 A,event", "0,1,", "5,1,", "3,1,load-on"],
      /line 4: the clock goes backwards at "load-on"/,
    ],
    [
      "a decimal comma",
      ["time s,L1 A", "0,1", "1,12,5"],
      /line 3 has more cells than there are headings; was a decimal comma/,
    ],
    [
      "a decimal comma beside semicolons",
      ["time s;L1 A", "0;1", ..."12345".split("").map((t) => `${t};12,5`)],
      /5 values that are not a number.*Write numbers such as 12.5/,
    ],
    [
      "a clock put back for good",
      ["time s,L1 A", "9,1", "1,1", "2,1", "3,1", "4,1"],
      /4 rows at which the clock goes backwards, first at line 3: more than a few/,
    ],
    [
      "times without decimals",
      ["time s,L1 A", ..."0000111122223333".split("").map((t) => `${t},1`)],
      /12 rows with the time of the row before.*as many decimals/,
    ],
    [
      "times no row of which can be read",
      ["time s,L1 A", "soon,1"],
      /1 rows without a time that can be read/,
    ],
    [
      "zones here and there",
      ["time,L1 A", "2026-01-01T00:00:00Z,1", "2026-01-01T00:00:01,1"],
      /line 3: some times carry a zone/,
    ],
    ["quotes that do not close", ["time s,L1 A", '0,"1'], /it is no table/],
    ["a day that does not exist", ["time,L1 A", "2026-02-30T00:00:00,1"], /1 rows without a time/],
  ])("refuses %s", (_what, rows, says) => expect(refusal(...rows)).toMatch(says));

  it("reads a hundred and fifty thousand rows, and leaves none out", () => {
    const rows = Array.from({ length: 150_000 }, (_, i) => `${i},${i % 60},6`);
    const { trace, remarks } = good("time s,L1 A,car L1 A", ...rows);
    expect(trace.timesS.length).toBe(150_000);
    expect(trace.supplyA.L1?.at(-1)).toBe(149_999 % 60);
    expect(remarks).toEqual([]);
  });

  it("never throws and never reads a trace out of order, whatever stands in the file", () => {
    const cell = fc.oneof(
      fc.string({ maxLength: 6 }),
      fc.integer({ min: -3, max: 40 }).map(String),
      fc.constantFrom(
        "",
        "load-on",
        "bus lost",
        "2026-11-25T10:00:00",
        "NaN",
        "1e400",
        "-0",
        '"',
        "\0",
        "∞",
        "0x10",
      ),
    );
    const row = fc.array(cell, { maxLength: 5 }).map((cells) => cells.join(","));
    const heading = fc.constantFrom(
      "time s,L1 A,car L1 A,event",
      "time,L1 A,event",
      "time s,L1 A",
      "time",
      "",
    );
    fc.assert(
      fc.property(heading, fc.array(row, { maxLength: 30 }), (first, rows) => {
        const result = readTrace([first, ...rows].join("\n"));
        if (!result.ok) {
          expect(result.message).not.toBe("");
          return;
        }
        const { timesS, supplyA, events } = result.trace;
        for (let i = 1; i < timesS.length; i++)
          expect(timesS[i] as number).toBeGreaterThan(timesS[i - 1] as number);
        for (const values of Object.values(supplyA)) expect(values).toHaveLength(timesS.length);
        for (let i = 1; i < events.length; i++)
          expect(events[i]?.atS as number).toBeGreaterThanOrEqual(events[i - 1]?.atS as number);
      }),
      { numRuns: 500 },
    );
    fc.assert(fc.property(fc.string({ maxLength: 300 }), (text) => void readTrace(text)));
  });
});
