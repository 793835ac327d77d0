import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { CleanSeriesReader, cleanText, readCleanSeries } from "./clean-form.ts";
import { ABSENT, LEFT_OUT } from "./series/quality.ts";
import type { RecordedSeries } from "./series/recorded-series.ts";

const textOf = (series: RecordedSeries): string => [...cleanText(series)].join("");

const reading = fc.oneof(
  fc.record({
    value: fc.double({ noNaN: true, noDefaultInfinity: true }).map((value) => value + 0),
    quality: fc.integer({ min: 1, max: 3 }),
  }),
  fc.record({ value: fc.constant(Number.NaN), quality: fc.constantFrom(ABSENT, LEFT_OUT) }),
);
const anySeries = fc
  .record({
    startS: fc.integer({ min: 0, max: 4_000_000_000 }),
    stepS: fc.integer({ min: 1, max: 3600 }),
    unit: fc.constantFrom("kWh", "W", "A"),
    lines: fc.constantFrom([null], ["L1"], ["L1", "L2", "L3"]),
    onLines: fc.constantFrom(undefined, 1, 3),
    readings: fc.array(reading, { minLength: 1, maxLength: 40 }),
  })
  .map(
    ({ startS, stepS, unit, lines, onLines, readings }) =>
      ({
        startMs: startS * 1000,
        stepS,
        unit,
        channels: lines.map((line) => ({
          line,
          ...(line === null && unit === "A" && onLines !== undefined && { onLines }),
          values: Float64Array.from(readings, ({ value }) => value),
          quality: Uint8Array.from(readings, ({ quality }) => quality),
          duplicateCount: 0,
        })),
      }) as RecordedSeries,
  );

describe("the clean form", () => {
  const series: RecordedSeries = {
    startMs: Date.parse("2023-10-29T00:00:00Z"),
    stepS: 1800,
    unit: "kWh",
    channels: [
      {
        line: null,
        values: Float64Array.of(0.123, Number.NaN, -0.5),
        quality: Uint8Array.of(1, 0, 2),
        duplicateCount: 0,
      },
    ],
  };
  const text = [
    "start UTC,kWh per 1800 s,quality",
    "2023-10-29T00:00:00Z,0.123,recorded",
    "2023-10-29T00:30:00Z,,absent",
    "2023-10-29T01:00:00Z,-0.5,estimated",
    "",
  ].join("\n");

  it("is a plain table", () => expect(textOf(series)).toBe(text));
  it.each([
    [1, "A per 1800 s on 1 line"],
    [3, "A per 1800 s on each of 3 lines"],
  ] as const)("says that a current is for %d lines", (onLines, heading) => {
    const [channel] = series.channels;
    const said = textOf({
      ...series,
      unit: "A",
      channels: [{ ...(channel as typeof channel & object), onLines }],
    });
    expect(said.split("\n")[0]).toBe(`start UTC,${heading},quality`);
  });
  it("reads back to the last digit, whatever the series and however it is chunked", () => {
    fc.assert(
      fc.property(anySeries, fc.integer({ min: 1, max: 60 }), (any, size) => {
        const written = textOf(any);
        expect(readCleanSeries(written)).toEqual({ ok: true, series: any });
        const reader = new CleanSeriesReader();
        for (let at = 0; at < written.length; at += size) reader.push(written.slice(at, at + size));
        expect(reader.end()).toEqual({ ok: true, series: any });
      }),
    );
  });
  it.each([
    ["nothing", "", 1],
    ["headings alone", "start UTC,kWh per 1800 s,quality\n", 1],
    ["another table", "date,kWh\n2023-10-29,1\n", 1],
    ["headings of two steps", text.replace("quality", "quality,L1 kWh per 60 s,L1 quality"), 1],
    ["energy on a line", text.replace("1800 s", "1800 s on 1 line"), 1],
    ["a current on two lines", text.replace("kWh per 1800 s", "A per 1800 s on 2 lines"), 1],
    ["a line on one line", text.replace("kWh per 1800 s,q", "L1 A per 1800 s on 1 line,L1 q"), 1],
    ["a step beyond an hour", text.replace("1800", "7200"), 1],
    ["a row left out", text.replace(/.*00:30.*\n/, ""), 3],
    ["rows in another order", text.replace("T00:00:00Z", "T00:30:00Z"), 3],
    ["a start of local time", text.replace("T00:00:00Z", "T00:00:00+01:00"), 2],
    ["a day that does not exist", text.replace("2023-10-29T00:00:00Z", "2023-02-30T00:00:00Z"), 2],
    ["a value that is none", text.replace("0.123", "0x1"), 2],
    ["an endless value", text.replace("0.123", "1e999"), 2],
    ["a value that is absent", text.replace("0.123,recorded", "0.123,absent"), 2],
    ["nothing recorded", text.replace("0.123,recorded", ",recorded"), 2],
    ["a quality of its own", text.replace("recorded", "fine"), 2],
    ["a cell too many", text.replace("recorded", "recorded,1"), 2],
    ["an endless line", `${text}${"x".repeat(1_100_000)}`, 5],
  ])("refuses %s with its line", (_what, wrong, line) => {
    const result = readCleanSeries(wrong);
    expect(result).toMatchObject({ ok: false, problem: { code: "CLEAN_FORM_WRONG", line } });
    expect(!result.ok && result.problem.message).toMatch(/\.$/);
  });
});
