import { describe, expect, it } from "vitest";
import { QUALITIES } from "./series/quality.ts";
import type { RecordedSeries } from "./series/recorded-series.ts";
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
