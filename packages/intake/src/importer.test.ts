import { readFileSync } from "node:fs";
import { averaged } from "@underfuse/engine";
import { describe, expect, it } from "vitest";
import { importFrom } from "./importer.ts";
import { QUALITIES } from "./series/quality.ts";
import { coverageOf, intervalSeriesOf, type RecordedSeries } from "./series/recorded-series.ts";
import { concluded, imported, seriesOf } from "./testing/imported.ts";
import { plain, table } from "./testing/three-days.ts";
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
