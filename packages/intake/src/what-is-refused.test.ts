import { describe, expect, it } from "vitest";
import { imported } from "./testing/imported.ts";
import { long, plain, rows, table } from "./testing/three-days.ts";
import { truth, wideByPeriods, wideByUtc } from "./testing/written-shapes.ts";

/** A year of half-hours, with both clock changes. */
const year = truth("2023-01-01T00:00:00Z", 365);
const LONDON = "Europe/London";

/** February as rows a reading, its days written as each is. */
const february = (write: (day: string) => string): string =>
  table(
    "date,time,kWh",
    ...Array.from({ length: 20 }, (_, day) =>
      rows
        .slice(0, 48)
        .map(({ time, value }) => `${write(String(day + 1).padStart(2, "0"))},${time},${value}`),
    ).flat(),
  );

describe("what is wrong is refused with its place", () => {
  const refusals: [what: string, text: string, code: string, line: number][] = [
    ["an empty file", "", "NOTHING_RECORDED", 0],
    ["blank lines", "\n\n \n", "NOTHING_RECORDED", 0],
    ["prose", "Dear sir,\nthe meter is broken.\n", "NOTHING_RECORDED", 2],
    ["one column", "a\nb\n2026-01-01\n", "NOT_A_TABLE", 1],
    ["a photograph", `\u0089PNG\r\n\u001a\n\0\0\0,1`, "NOT_TEXT", 3],
    ["an endless line", `date,time,kWh\n${"x".repeat(1_100_000)}`, "LINE_TOO_LONG", 2],
    ["quotes that never close", `${plain}\n"2026-01-16,00:00,1\n2026-01-16,00:30,1`, "QUOTES_WRONG", 146],
    ["a quote inside a cell", long(({ day, time, value }) => `${day},${time},${value}"`), "QUOTES_WRONG", 2],
    [
      "two orders of dates",
      table("date,time,kWh", "31/01/2026,00:00,1", "01/31/2026,00:30,1"),
      "DATE_ORDER_MIXED",
      3,
    ],
    [
      "two ways of dates",
      table("date,time,kWh", "31/01/2026,00:00,1", "2026-01-31,00:30,1"),
      "DATE_ORDER_MIXED",
      3,
    ],
    [
      "a day that does not exist",
      plain.replace("2026-01-15,00:00", "2026-02-30,00:00"),
      "DATE_UNREADABLE",
      98,
    ],
    ["a row that is no reading", `${plain}\nend of report,,`, "DATE_UNREADABLE", 146],
    ["half past twenty-four", plain.replace("13,02:30", "13,24:30"), "TIME_UNREADABLE", 7],
    ["half a second", plain.replace("13,02:30", "13,02:30:00.5"), "TIME_UNREADABLE", 7],
    ["a time between intervals", plain.replace("13,02:30", "13,02:31"), "TIME_OFF_GRID", 7],
    ["an interval twice with different values", `${plain}\n2026-01-13,00:00,9`, "TIME_TWICE", 146],
    [
      "a comma within a number among columns parted by commas",
      long(
        ({ day, time, value }) => `${day},${time},${String(value).replace(".", ",")}`,
        "date,time,kWh",
      ).replace(/^2026-01-13,00:00,.*$/m, "2026-01-13,00:00,1"),
      "CELL_COUNT",
      3,
    ],
    [
      "points and commas before the fraction",
      long(({ day, time, value }, index) => `${day};${time};${index === 9 ? "0,5" : value}`, "date;time;kWh"),
      "DECIMALS_MIXED",
      11,
    ],
    ["a value in words", plain.replace(/(13,02:30),.*/, "$1,broken"), "VALUE_UNREADABLE", 7],
    ["a row cut short", plain.replace(/(2026-01-13),02:30,.*/, "$1"), "CELL_COUNT", 7],
    [
      "49 columns of intervals",
      table(
        `date,${Array.from({ length: 49 }, (_, index) => `HH${index + 1}`).join(",")}`,
        `2026-01-13,${"1,".repeat(48)}1`,
      ),
      "CELL_COUNT",
      1,
    ],
    [
      "a missing column of intervals",
      table(
        `date,${Array.from({ length: 48 }, (_, index) => `HH${index + (index > 9 ? 2 : 1)}`).join(",")}`,
        `2026-01-13,${"1,".repeat(47)}1`,
      ),
      "CELL_COUNT",
      1,
    ],
    [
      "columns of uneven times",
      table(
        `date,${Array.from({ length: 30 }, (_, index) => `${10 + Math.floor(index / 3)}:${["00", "30", "45"][index % 3]}`).join(",")}`,
        `2026-01-13,${"1,".repeat(29)}1`,
      ),
      "CELL_COUNT",
      1,
    ],
    [
      "a date a thousand years off",
      long(({ day, time, value }, index) => `${index === 7 ? "3026-01-13" : day},${time}:00,${value}`),
      "SPAN_TOO_LONG",
      9,
    ],
    ["times with and without an offset", plain.replace("13,02:30", "13,02:30Z"), "TIME_UNREADABLE", 7],
    [
      "energy and reactive energy in one column",
      long(
        ({ day, time, value }, index) => `${day},${time},${value},${index % 2 ? "kWh" : "kVArh"}`,
        "date,time,consumption,unit",
      ),
      "UNIT_NOT_READ",
      3,
    ],
    ["nothing but absent values", long(({ day, time }) => `${day},${time},`), "NOTHING_RECORDED", 0],
  ].map(([what, text, code, line]) => [what, text, code, line] as [string, string, string, number]);
  it.each(refusals)("%s", (_what, text, code, line) => {
    const stated = code === "SPAN_TOO_LONG" ? { stepS: 60, labels: "start" as const } : {};
    const result = imported(text, stated, 1 << 14);
    expect(result).toMatchObject({ state: "refused" });
    if (result.state !== "refused") return;
    expect(result.problems.map((problem) => [problem.code, problem.line])).toContainEqual([code, line]);
    for (const { message, found } of result.problems) {
      expect(message).toMatch(/^[A-Z].*\.$/s);
      expect(found.length).toBeLessThan(200);
    }
  });
  it.each([
    '{\n  "format": 1,\n  "a": [\n    "2026-01-13"\n  ]\n}\n',
    '\n[{"a": "1"}]',
    "[\n  [1, 2]\n]",
    "{}",
  ])("JSON, with one problem: %j", (text) => {
    const result = imported(text);
    expect(result).toMatchObject({
      problems: [{ code: "NOT_A_TABLE", message: expect.stringContaining("JSON") }],
    });
    expect(result.state === "refused" && result.problems.length).toBe(1);
  });
  it("no table under a title in brackets", () => {
    expect(imported(`[Readings],,\n${plain}`)).toMatchObject({ state: "series" });
  });
  it("days that a spreadsheet turned round, in rows a reading and in rows a day", () => {
    const spoilt = (day: string): string => (Number(day) <= 12 ? `02/${day}/2026` : `${day}/02/2026`);
    const appended = (day: string): string => (Number(day) <= 10 ? `${day}/02/2026` : `02/${day}/2026`);
    const wide = table(
      `date,${Array.from({ length: 48 }, (_, index) => `HH${index + 1}`).join(",")}`,
      ...Array.from(
        { length: 20 },
        (_, day) => `${spoilt(String(day + 1).padStart(2, "0"))}${",1".repeat(48)}`,
      ),
    );
    for (const [text, line] of [
      [february(spoilt), 50],
      [february(appended), 50],
      [wide, 3],
    ] as const)
      for (const stated of [{}, { unit: "kWh", clock: "local" }] as const)
        expect(imported(text, stated)).toMatchObject({
          state: "refused",
          problems: [{ code: "DATE_ORDER_MIXED", line }],
        });
  });
  it("an order of dates that was stated and in which no day runs on", () => {
    const first = table(
      "date,time,kWh",
      ...rows
        .slice(0, 144)
        .map(({ time, value }, at) => `0${1 + Math.floor(at / 48)}/02/2026,${time},${value}`),
    );
    expect(imported(first, { dateOrder: "month/day/year" })).toMatchObject({
      state: "refused",
      problems: [
        { code: "STATEMENT_CONTRADICTED", line: 50, found: "02/02/2026 after 01/02/2026 on line 2" },
      ],
    });
  });
  it("no file for a gap of a month to the day", () => {
    const days = ["30/01/2026", "31/01/2026", "01/02/2026", "01/03/2026", "02/03/2026"];
    const text = table(
      "date,time,kWh",
      ...days.flatMap((day) => rows.slice(0, 48).map(({ time, value }) => `${day},${time},${value}`)),
    );
    expect(imported(text)).toMatchObject({ state: "series" });
  });
  it("a 49th half-hour on a day that has 48", () => {
    const wide = wideByPeriods(year, LONDON).replace(/^(2023-06-01,(?:[^,]*,){48}),/m, "$10.5,");
    expect(imported(wide)).toMatchObject({
      state: "refused",
      problems: [{ code: "TIME_NOT_THERE", line: 153 }],
    });
  });
  it("a reading in the hour that the clock leaves out, where local time was stated", () => {
    const text = wideByUtc(year);
    expect(imported(text, { clock: "local" })).toMatchObject({
      state: "refused",
      problems: [{ code: "TIME_NOT_THERE", line: 86, found: "01:00 on 2023-03-26" }, { line: 86 }],
    });
  });
  it("a value in the 49th column of a day that has 48, alone as well", () => {
    const wide = wideByPeriods(truth("2023-06-01T00:00:00Z", 3), "UTC").replace(
      /^(2023-06-02,(?:[^,]*,){48})/m,
      "$10.5",
    );
    expect(imported(wide, { clock: "utc" })).toMatchObject({
      state: "refused",
      problems: [{ code: "TIME_NOT_THERE", line: 3, found: "a value beyond the last interval of the day" }],
    });
  });
  it("columns of a day numbered from 2", () => {
    const [heading = "", ...days] = wideByPeriods(truth("2023-06-01T00:00:00Z", 3), "UTC").split("\n");
    const headings = heading.replaceAll(/HH(\d+)/g, (_, number) => `HH${Number(number) + 1}`);
    expect(imported([headings, ...days].join("\n"))).toMatchObject({
      state: "refused",
      problems: [{ code: "CELL_COUNT", message: expect.stringContaining("from 1") }],
    });
  });
  it.each([false, true])(
    "midnights at the end of their date and at the beginning, newest first: %s",
    (isReversed) => {
      const [heading, ...days] = plain.split("\n");
      // The second midnight stands with the date it ends.
      const mixed = days.map((row) => row.replace("2026-01-14,00:00", "2026-01-13,00:00"));
      mixed.shift();
      expect(imported([heading, ...(isReversed ? mixed.reverse() : mixed)].join("\n"))).toMatchObject({
        state: "refused",
        problems: [{ code: "TIME_TWICE", found: expect.stringContaining("midnight at the end of its date") }],
      });
    },
  );
  it("a register that falls, with its line", () => {
    const text = long(({ day, time }, index) => `${day},${time},${index === 60 ? 3 : 100 + index}`);
    expect(imported(text, { readings: "register" })).toMatchObject({
      state: "refused",
      problems: [{ code: "REGISTER_FALLS", line: 62, found: "3 after 159" }],
    });
  });
  it("what was stated and is not so", () => {
    for (const [stated, code] of [
      [{ value: ["volts"] }, "COLUMN_ABSENT"],
      [{ delimiter: ";" }, "NOT_A_TABLE"],
      [{ dateOrder: "day/month/year" }, "STATEMENT_CONTRADICTED"],
      [{ zone: "Europe/Nowhere" }, "ZONE_UNKNOWN"],
      [{ decimal: "," }, "STATEMENT_CONTRADICTED"],
      [{ unit: "W", readings: "register" }, "STATEMENT_CONTRADICTED"],
    ] as const)
      expect(imported(plain, stated)).toMatchObject({ state: "refused", problems: [{ code }] });
  });
});
