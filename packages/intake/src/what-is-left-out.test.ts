import { describe, expect, it } from "vitest";
import { coverageOf } from "./series/recorded-series.ts";
import { imported, seriesOf } from "./testing/imported.ts";
import { long, plain, rows, table } from "./testing/three-days.ts";
import { truth, wideByUtc } from "./testing/written-shapes.ts";

/** A year of half-hours, with both clock changes. */
const year = truth("2023-01-01T00:00:00Z", 365);

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
  it("says that a step which does not divide a day is of no use to the simulation", () => {
    const every = (stepS: number): string =>
      table(
        "date,time,kW",
        ...Array.from({ length: 100 }, (_, at) => {
          const label = new Date(Date.UTC(2026, 0, 13) + at * stepS * 1000).toISOString();
          return `${label.slice(0, 10)},${label.slice(11, 19)},${1 + (at % 7)}`;
        }),
      );
    expect(imported(every(7), { labels: "start" })).toMatchObject({
      state: "series",
      remarks: [
        {
          id: "step",
          says: expect.stringMatching(/^7 s does not divide a day: the simulation needs whole days/),
        },
      ],
    });
    expect(imported(every(8), { labels: "start" })).toMatchObject({ state: "series", remarks: [] });
  });
  it("leaves the hours about a clock change alone in a recording of universal time, whatever it lacks there", () => {
    const [heading, ...rows] = wideByUtc(year).trim().split("\n");
    // On 29 October the clocks repeat the hour from 00:00 to 01:00 UTC: its first half-hour is absent.
    const gap = rows.map((row) => row.replace(/^(29\/10\/2023),[^,]*/, "$1,"));
    const [channel] = seriesOf([heading, ...gap].join("\n"), { unit: "kWh" }).channels;
    expect(channel && coverageOf(channel)).toMatchObject({ absentCount: 1, leftOutCount: 0 });
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
  it("leaves zeros that were estimated estimated", () => {
    const zeros = long(
      ({ day, time, value }, index) => `${day},${time},${index < 8 ? 0 : value},${index < 4 ? "E" : "A"}`,
      "date,time,kWh,read type",
    );
    const [channel] = seriesOf(zeros).channels;
    expect(channel && coverageOf(channel)).toMatchObject({ estimatedCount: 4, questionableCount: 4 });
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
  it("takes a total that rounding explains, and says where mean power would add up to it", () => {
    const dayOf = (total: (sumKwh: number) => number) => {
      const values = rows.slice(0, 48).map(({ value }) => value);
      const printed = total(values.reduce((sum, value) => sum + value, 0)).toFixed(3);
      const headings = values.map((_, index) => `HH${index + 1}`);
      return imported(
        table(`date,${headings.join(",")},total`, `2026-01-13,${values.join(",")},${printed}`),
        {
          unit: "kWh",
          readings: "interval",
        },
      );
    };
    // Each of 48 values, given to a thousandth, may be half of one off.
    expect(dayOf((sumKwh) => sumKwh + 0.02)).toMatchObject({ state: "series", remarks: [] });
    expect(dayOf((sumKwh) => sumKwh + 0.03)).toMatchObject({ remarks: [{ id: "totals" }] });
    expect(dayOf((sumKwh) => sumKwh / 2)).toMatchObject({
      remarks: [{ id: "totals", says: expect.stringContaining("As mean power they would.") }],
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
