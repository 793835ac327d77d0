import { readFileSync } from "node:fs";
import { averaged } from "@underfuse/engine";
import { describe, expect, it } from "vitest";
import { importFrom } from "./importer.ts";
import { QUALITIES } from "./series/quality.ts";
import { coverageOf, intervalSeriesOf, type RecordedSeries } from "./series/recorded-series.ts";
import { concluded, imported, seriesOf } from "./testing/imported.ts";
import {
  longByPeriods,
  longByWall,
  type Truth,
  truth,
  wideByPeriods,
  wideByUtc,
  wideByWall,
} from "./testing/written-shapes.ts";

const LONDON = "Europe/London";
/** A local year from midnight to midnight, with both clock changes: 26 March and 29 October 2023. */
const year = truth("2023-01-01T00:00:00Z", 365);

/** Intervals whose value is not the true one; absent ones as `absent`. */
function differences(series: RecordedSeries, { startMs, stepS, values }: Truth): readonly string[] {
  const [channel] = series.channels;
  const shift = (series.startMs - startMs) / (stepS * 1000);
  return [...(channel?.values ?? [])].flatMap((value, index) => {
    const at = new Date(series.startMs + index * stepS * 1000).toISOString().slice(0, 16);
    if (Number.isNaN(value)) return [`${at} ${QUALITIES[channel?.quality[index] ?? 0]}`];
    return value === values[index + shift] ? [] : [`${at} ${value}`];
  });
}

describe("a year with both clock changes, in every shape", () => {
  const shapes: [what: string, text: string, clock: string][] = [
    ["wide, 50 numbered columns", wideByPeriods(year, LONDON), "intervals counted from local midnight"],
    ["long, numbered intervals", longByPeriods(year, LONDON), "intervals counted from local midnight"],
    ["wide, universal time, ends", wideByUtc(year), "universal time"],
    ["long, wall clock, starts", longByWall(year, LONDON, "start"), "local time, as the clock on the wall"],
    ["long, wall clock, ends", longByWall(year, LONDON, "end"), "local time, as the clock on the wall"],
  ];
  it.each(shapes)("%s: read back whole", (_what, text, clock) => {
    const result = imported(text);
    expect(concluded(result, "clock")).toBe(clock);
    const series = seriesOf(text);
    expect(series).toMatchObject({ startMs: year.startMs, stepS: 1800, unit: "kWh" });
    expect(series.channels[0]?.values.length).toBe(17_520);
    expect(differences(series, year)).toEqual([]);
  });
  it.each(shapes)("%s: the newest row first", (_what, text) => {
    const [heading, ...rows] = text.trim().split("\n");
    const series = seriesOf([heading, ...rows.toReversed()].join("\n"));
    expect(differences(series, year)).toEqual([]);
  });
  it.each(["zero", "absent"] as const)(
    "wide, wall clock, spring hour %s: the autumn hour that stands once is left out, and nothing else",
    (spring) => {
      const text = wideByWall(year, LONDON, { spring, autumn: "sum" });
      const result = imported(text);
      expect(concluded(result, "clock")).toBe("local time, as the clock on the wall");
      expect(differences(seriesOf(text), year)).toEqual([
        "2023-10-29T00:00 left-out",
        "2023-10-29T00:30 left-out",
        "2023-10-29T01:00 absent",
        "2023-10-29T01:30 absent",
      ]);
    },
  );
});

describe("other habits and places", () => {
  it("counts 50 half-hours on 29 October 2023, period 5 from 01:00 GMT and 50 from 23:30 GMT [elexon-clock-change]", () => {
    const cells = Array.from({ length: 50 }, (_, index) => `${(index + 1) / 1000}`);
    const text = `Date,${cells.map((_, index) => `SP${index + 1}`).join(",")}\n29/10/2023,${cells.join(",")}\n`;
    const series = seriesOf(text, { unit: "kWh", readings: "interval" });
    const at = (utc: string) => series.channels[0]?.values[(Date.parse(utc) - series.startMs) / 1_800_000];
    expect(series.channels[0]?.values.length).toBe(50);
    expect([
      at("2023-10-28T23:00Z"), // 00:00 BST
      at("2023-10-29T00:30Z"), // 01:30 BST
      at("2023-10-29T01:00Z"), // 01:00 GMT
      at("2023-10-29T23:30Z"),
    ]).toEqual([0.001, 0.004, 0.005, 0.05]);
  });
  it("New Zealand: numbers 5 and 6 absent on the short day, read by the clock on the wall [emi-clock-change]", () => {
    const site = truth("2007-09-20T12:00:00Z", 20 - 1 / 24);
    const byTimes = wideByWall(site, "Pacific/Auckland", { spring: "absent", autumn: "first" });
    const text = byTimes
      .replace(/^.*/, `Date,${Array.from({ length: 48 }, (_, index) => `TP${index + 1}`).join(",")}`)
      .replaceAll("TP", "P");
    const stated = { zone: "Pacific/Auckland", unit: "kWh" } as const;
    expect(concluded(imported(text, stated), "clock")).toBe("local time, as the clock on the wall");
    expect(differences(seriesOf(text, stated), site)).toEqual([]);
  });
  it("Portugal: 96 values a day, zeros in spring and double in autumn, which is no load [uci-load-diagrams]", () => {
    const site = truth("2012-01-01T00:00:00Z", 366, 900);
    const wide = wideByWall(site, "Europe/Lisbon", { spring: "zero", autumn: "sum" });
    const [heading = "", ...rows] = wide
      .trim()
      .split("\n")
      .map((row) => row.split(","));
    const long = rows.flatMap(([day, ...cells]) =>
      cells.map((cell, index) => `${day};${heading[index + 1]?.slice(0, 5)};${cell.replace(".", ",")}`),
    );
    const text = ["day;time;kWh", ...long].join("\n");
    const result = imported(text, { zone: "Europe/Lisbon" });
    expect(concluded(result, "clock")).toBe("local time, as the clock on the wall");
    expect(concluded(result, "decimal")).toBe("decimal comma");
    if (result.state !== "series") throw new Error(JSON.stringify(result));
    const said = result.remarks.map(({ says }) => says).join("\n");
    expect(said).toMatch(/4 zeroes, first on line 8070, at a time that the day did not have/);
    expect(said).toMatch(
      /4 readings of the hour that clocks repeated at 2012-10-28T01:00:00.000Z stand once.*\d\.\d times the hours beside them/,
    );
    expect(differences(result.series, site).map((line) => line.slice(0, 16))).toEqual([
      "2012-10-28T00:00",
      "2012-10-28T00:15",
      "2012-10-28T00:30",
      "2012-10-28T00:45",
      "2012-10-28T01:00",
      "2012-10-28T01:15",
      "2012-10-28T01:30",
      "2012-10-28T01:45",
    ]);
  });
  it("says by how much the repeated hour stands out: twice, where both its hours were added up", () => {
    const steady = { ...year, values: year.values.map((_, index) => 0.4 + (index % 2) / 10) };
    const result = imported(wideByWall(steady, LONDON, { spring: "zero", autumn: "sum" }));
    expect(result).toMatchObject({
      remarks: [
        { id: "clock-zeros" },
        { id: "clock-repeat", says: expect.stringContaining("stand at 2.0 times") },
      ],
    });
  });
  it("days of universal time hold their half-hours whatever the clocks do: nothing to ask in summer when offsets stand there", () => {
    const summer = truth("2023-06-30T23:00:00Z", 3);
    const rows = summer.values.map((value, index) => {
      const wall = new Date(summer.startMs + index * 1_800_000 + 3_600_000).toISOString().slice(0, 19);
      return `${wall}+01:00,${value}`;
    });
    expect(differences(seriesOf(["start,kWh", ...rows].join("\n")), summer)).toEqual([]);
  });
  it("needs no clock where local time is universal time", () => {
    const winter = truth("2023-01-10T00:00:00Z", 20);
    expect(concluded(imported(longByWall(winter, LONDON, "start")), "clock")).toBe("universal time");
  });
});

describe("a year of minutes of a real house [household-minute]", () => {
  const text = readFileSync(new URL("../../../examples/terraced-house/demand.csv", import.meta.url), "utf8");
  const stated = { labels: "start", clock: "standard", zone: "Europe/Paris" } as const;
  it("its rows are the minutes from first to last, both counted [household-minute]", () => {
    const ends = "Date;Time;I\n16/12/2006;17:24:00;18.4\n26/11/2010;21:02:00;2.8\n";
    const series = seriesOf(ends, { ...stated, stepS: 60, value: ["I"], unit: "A" });
    expect(series.channels[0]?.values.length).toBe(2_075_259);
  });
  it("has 52.2667 Wh unmetered in its first minute, as its description works out [household-minute] note 1", () => {
    const powerW =
      seriesOf(text, { ...stated, value: ["Global_active_power"], unit: "kW" }).channels[0]?.values[0] ?? 0;
    const [first = 0, second = 0, third = 0] = [0, 1, 17];
    const printedRounding = 0.0001;
    expect(Math.abs(powerW / 60 - first - second - third - 52.2667)).toBeLessThan(printedRounding);
  });
  it.each([
    [1, 39.4],
    [5, 37.48],
    [10, 35.04],
    [15, 33.19],
    [30, 29.27],
    [60, 23.36],
  ])(
    "its highest mean over %d min is %d A (worked out apart, from the same open data)",
    (minutes, maximumA) => {
      const series = seriesOf(text, { ...stated, value: ["Global_intensity"], unit: "A" });
      const [channel] = series.channels;
      if (channel === undefined) throw new Error("no channel");
      expect(coverageOf(channel)).toMatchObject({
        intervalCount: 21_996,
        recordedCount: 21_992,
        absentCount: 4,
      });
      const fromMidnight = (Date.parse("2006-12-16T23:00:00Z") - series.startMs) / 60_000;
      const { currentA, intervalS } = intervalSeriesOf(series, channel, {
        voltageV: 240,
        powerFactor: 1,
        lineCount: 1,
      });
      const blocks = averaged({ intervalS, currentA: currentA.slice(fromMidnight) }, minutes).currentA;
      const printedRounding = 0.005;
      expect(Math.abs(Math.max(...blocks.filter((value) => value >= 0)) - maximumA)).toBeLessThanOrEqual(
        printedRounding,
      );
    },
  );
});

const table = (...rows: string[]): string => rows.join("\n");
/** Three days of half-hours from midnight, winter, one row a reading. */
const rows = truth("2026-01-13T00:00:00Z", 3).values.map((value, index) => {
  const at = new Date(Date.UTC(2026, 0, 13) + index * 1_800_000).toISOString();
  return { day: at.slice(0, 10), time: at.slice(11, 16), value };
});
const long = (
  change: (row: (typeof rows)[number], index: number) => string,
  heading = "date,time,kWh",
): string => table(heading, ...rows.map(change));
const plain = long(({ day, time, value }) => `${day},${time},${value}`);

describe("what a file does not tell is asked for", () => {
  const questions: [what: string, text: string, ids: string[], answer: object][] = [
    [
      "the order of dates below the 13th",
      long(({ time, value }, index) => `0${1 + Math.floor(index / 48)}/02/2026,${time},${value}`),
      ["dateOrder"],
      { dateOrder: "day/month/year" },
    ],
    [
      "labels of a file that begins in the day",
      table("date,time,kWh", ...rows.slice(7).map(({ day, time, value }) => `${day},${time},${value}`)),
      ["labels"],
      { labels: "start" },
    ],
    [
      "a unit",
      long(({ day, time, value }) => `${day},${time},${value}`, "date,time,value"),
      ["unit"],
      { unit: "kW" },
    ],
    [
      "commas that may part thousands",
      long(
        ({ day, time, value }) => `${day};${time};${(value + 1).toFixed(3).replace(".", ",")}`,
        "date;time;kWh",
      ),
      ["decimal"],
      { decimal: "," },
    ],
    [
      "which of two columns",
      long(({ day, time, value }) => `${day},${time},${value},${value}`, "date,time,kWh day,kWh night"),
      ["value"],
      { value: ["kWh day"] },
    ],
    [
      "registers",
      long(({ day, time }, index) => `${day},${time},${100 + index}`),
      ["readings"],
      { readings: "register" },
    ],
    [
      "values below zero",
      long(({ day, time, value }, index) => `${day},${time},${index === 5 ? -value : value}`),
      ["negative"],
      { negative: "net" },
    ],
    [
      "which of two meters",
      table(
        "meter id,date,time,kWh",
        ...rows.flatMap(({ day, time, value }) => [
          `a,${day},${time},${value}`,
          `b,${day},${time},${value + 1}`,
        ]),
      ),
      ["meter"],
      { meter: "b" },
    ],
    [
      "the length of one interval",
      table("date,time,kWh", "2026-01-13,00:00,0.2"),
      ["stepS", "labels"].slice(0, 1),
      { stepS: 1800, labels: "start", readings: "interval" },
    ],
    [
      "the clock in summer",
      long(({ day, time, value }) => `${day.replace("-01-", "-07-")},${time},${value}`),
      ["clock"],
      { clock: "utc" },
    ],
    [
      "the clock over autumn alone, written in 48 columns",
      wideByWall(truth("2023-09-30T23:00:00Z", 60 + 1 / 24), LONDON, { spring: "zero", autumn: "sum" }),
      ["clock"],
      { clock: "local" },
    ],
  ];
  it.each(questions)("%s, and nothing else", (_what, text, ids, answer) => {
    const result = imported(text);
    expect(result.state === "questions" && result.questions.map(({ id }) => id)).toEqual(ids);
    expect(imported(text, answer)).toMatchObject({ state: "series" });
  });
  it("all at once, with the answers there are", () => {
    const result = imported(table("Date,Time,x,y", "01/02/2026,17:05,1,2", "01/02/2026,17:06,2,1"));
    expect(result).toMatchObject({
      questions: [
        { id: "value", answers: [{ answer: "x" }, { answer: "y" }] },
        { id: "unit" },
        { id: "dateOrder", answers: [{ answer: "day/month/year" }, { answer: "month/day/year" }] },
      ],
    });
  });
});

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

describe("what is left out or doubtful is said", () => {
  it("drops and counts what stands twice alike", () => {
    const series = seriesOf(table(plain, ...plain.split("\n").slice(4, 7)));
    const [channel] = series.channels;
    expect(channel && coverageOf(channel)).toMatchObject({ recordedCount: 144, duplicateCount: 3 });
  });
  it("leaves gaps absent and never fills them", () => {
    const text = plain
      .split("\n")
      .filter((_, index) => index < 20 || index > 25)
      .join("\n");
    const [channel] = seriesOf(text).channels;
    expect(channel && coverageOf(channel)).toMatchObject({
      intervalCount: 144,
      absentCount: 6,
      recordedCount: 138,
    });
  });
  it("marks long stretches of zeros, and keeps them", () => {
    const result = imported(
      long(({ day, time, value }, index) => `${day},${time},${index >= 10 && index < 18 ? 0 : value}`),
    );
    expect(result).toMatchObject({
      state: "series",
      remarks: [
        {
          id: "zeros",
          says: expect.stringMatching(/^8 intervals in 1 stretch .* 4 h from 2026-01-13T05:00/),
        },
      ],
    });
    expect(
      result.state === "series" && result.series.channels[0] && coverageOf(result.series.channels[0]),
    ).toMatchObject({ questionableCount: 8, recordedCount: 136 });
  });
  it("carries qualities, and marks words that it does not know", () => {
    const text = long(
      ({ day, time, value }, index) => `${day},${time},${value},${["A", "E", "weird"][index % 3]}`,
      "date,time,kWh,read type",
    );
    const result = imported(text);
    expect(
      result.state === "series" && result.series.channels[0] && coverageOf(result.series.channels[0]),
    ).toMatchObject({ recordedCount: 48, estimatedCount: 48, questionableCount: 48 });
    expect(result).toMatchObject({
      remarks: [{ id: "quality", says: expect.stringContaining('"weird", first on line 4') }],
    });
  });
  it("checks printed totals", () => {
    const text = wideByUtc(year).replace(/^(01\/02\/2023.*),[^,]*$/m, "$1,99.5");
    expect(imported(text, { unit: "kWh" })).toMatchObject({
      remarks: [
        { id: "totals", says: expect.stringMatching(/^1 of 365 rows .* first line 33: [\d.]+ against 99.5/) },
      ],
    });
  });
  it("doubts a unit whose values are hard to believe, and keeps it", () => {
    expect(imported(long(({ day, time, value }) => `${day},${time},${value * 1000}`))).toMatchObject({
      state: "series",
      remarks: [{ id: "implausible" }],
    });
  });
  it("puts shuffled rows in order, and says so", () => {
    const [heading = "", ...lines] = plain.split("\n");
    const shuffled = lines.map((_, index) => lines[(index * 55) % 144]);
    const result = imported(table(heading, ...(shuffled as string[])), { stepS: 1800 });
    expect(result).toMatchObject({ state: "series", remarks: [{ id: "order" }] });
    expect(result.state === "series" && result.series).toEqual(seriesOf(plain));
  });
  it("reads three lines side by side", () => {
    const series = seriesOf(
      long(
        ({ day, time, value }) => `${day},${time},${value},${value * 2},${value * 3}`,
        "date,time,L1 A,L2 A,L3 A",
      ),
    );
    expect(series.channels.map(({ line }) => line)).toEqual(["L1", "L2", "L3"]);
    expect(series.channels[2]?.values[0]).toBe((rows[0]?.value ?? 0) * 3);
  });
  it("takes 00:00 with the date that it ends for the end of that day", () => {
    const ends = long(
      ({ day, time }, index) => `${day},${rows[(index + 1) % 144]?.time},${rows[index]?.value ?? time}`,
    );
    const series = seriesOf(ends);
    expect(series).toEqual(seriesOf(plain));
  });
});

describe("importFrom", () => {
  const bytes = new TextEncoder().encode(plain);
  async function* chunks(size: number) {
    for (let at = 0; at < bytes.length; at += size) yield bytes.subarray(at, at + size);
  }
  it("says how far it has come, and gives what one piece gives", async () => {
    const seen: number[] = [];
    const result = await importFrom(chunks(1000), { onProgress: ({ bytesRead }) => seen.push(bytesRead) });
    expect(result).toEqual(imported(plain));
    expect(seen.at(-1)).toBe(bytes.length);
    expect(seen.length).toBe(Math.ceil(bytes.length / 1000));
  });
  it("reads a stream of the platform", async () => {
    expect(await importFrom(new Blob([bytes]).stream())).toEqual(imported(plain));
  });
  it("stops when it is told to", async () => {
    const stop = new AbortController();
    const reading = importFrom(chunks(100), { signal: stop.signal, onProgress: () => stop.abort() });
    await expect(reading).rejects.toMatchObject({ name: "AbortError" });
  });
  it("reads no further once nothing can change", async () => {
    let read = 0;
    await importFrom(
      (async function* () {
        yield new TextEncoder().encode(
          table("date,time,kWh", ...Array.from({ length: 400 }, () => "2026-01-13,00:00,x")),
        );
        for (; read < 100; read++) yield bytes;
      })(),
    );
    expect(read).toBe(0);
  });
});
