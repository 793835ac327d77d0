import { describe, expect, it } from "vitest";
import { QUALITIES } from "../series/quality.ts";
import { espiText, HALF_HOURS } from "../testing/espi-text.ts";
import { concluded, imported, seriesOf } from "../testing/imported.ts";

const START = Date.parse("2023-10-29T00:00:00Z") / 1000;
const day = Array.from({ length: 48 }, (_, index) => ({ startS: START + index * 1800, value: 200 + index }));
const values = (text: string, stated = {}) => [...(seriesOf(text, stated).channels[0]?.values ?? [])];

describe("interval data in ESPI", () => {
  it("has 48 half-hours of universal time on the day the clocks go back [naesb-espi]", () => {
    const series = seriesOf(espiText(day, HALF_HOURS));
    expect(series).toMatchObject({ startMs: START * 1000, stepS: 1800, unit: "kWh" });
    expect([...(series.channels[0]?.values ?? [])]).toEqual(day.map(({ value }) => value / 1000));
  });
  it("reads alike in chunks of any size", () => {
    const text = espiText(day, HALF_HOURS);
    expect(imported(text, {}, 7)).toEqual(imported(text));
  });
  it.each([
    ["kWh by a multiplier of 3", { ...HALF_HOURS, powerOfTenMultiplier: 3 }, "kWh", 200],
    [
      "tenths of a watt",
      { ...HALF_HOURS, uom: 38, powerOfTenMultiplier: -1, accumulationBehaviour: 0 },
      "W",
      20,
    ],
    ["milliamperes", { ...HALF_HOURS, uom: 5, powerOfTenMultiplier: -3, accumulationBehaviour: 0 }, "A", 0.2],
  ])("scales %s", (_what, type, unit, first) => {
    expect(seriesOf(espiText(day, type))).toMatchObject({ unit });
    expect(values(espiText(day, type))[0]).toBe(first);
  });
  it.each([
    ["a marked section", "<![CDATA[203]]>"],
    ["a marked section in part", "2<![CDATA[0]]>3"],
    ["a comment within", "20<!-- Wh -->3"],
    ["a reference to a character", "2&#48;3"],
  ])("reads a value whole though it has %s", (_what, written) => {
    const text = espiText(day, HALF_HOURS).replace("<espi:value>203<", `<espi:value>${written}<`);
    expect(values(text)[3]).toBe(0.203);
    expect(imported(text, {}, 7)).toEqual(imported(text));
  });
  it("says that a multiplier which is not there is assumed", () => {
    const { powerOfTenMultiplier: _, ...type } = HALF_HOURS;
    const { conclusions } = imported(espiText(day, type));
    expect(conclusions.find(({ id }) => id === "unit")).toMatchObject({ basis: "assumed" });
    expect(imported(espiText(day, HALF_HOURS)).conclusions.find(({ id }) => id === "unit")?.basis).toBe(
      "seen",
    );
  });
  it("leaves off reading where it refuses, however much follows", () => {
    // Read to its end this takes most of a minute, which no test has.
    expect(imported("<a>".repeat(50_000), {}, 1 << 18)).toMatchObject({ problems: [{ code: "XML_WRONG" }] });
  });
  it("lets readings without a time follow one another from the start of their block", () => {
    const readings = [
      { startS: null, value: 5 },
      { startS: null, value: 6 },
      { startS: START + 5400, value: 7 },
    ];
    const text = espiText(readings, HALF_HOURS, { startS: START, durationS: 7200 });
    expect(seriesOf(text).startMs).toBe(START * 1000);
    expect(values(text)).toEqual([0.005, 0.006, Number.NaN, 0.007]);
  });
  it("takes the energy of a register from its differences, and says when it rolled over", () => {
    const readings = [99_200, 99_700, 300, 900].map((value, index) => ({
      startS: START + index * 1800,
      value: value * 1000,
    }));
    const result = imported(espiText(readings, { ...HALF_HOURS, accumulationBehaviour: 1 }));
    expect(result.state === "series" && [...(result.series.channels[0]?.values ?? [])]).toEqual([
      500, 600, 600,
    ]);
    expect(result).toMatchObject({
      remarks: expect.arrayContaining([expect.objectContaining({ id: "register" })]),
    });
  });
  it.each([1, 9])("takes accumulationBehaviour %d for what a register stood at", (accumulationBehaviour) => {
    const readings = [1, 3, 6].map((value, index) => ({ startS: START + index * 1800, value: value * 1000 }));
    expect(values(espiText(readings, { ...HALF_HOURS, accumulationBehaviour }))).toEqual([2, 3]);
  });
  it("carries qualities", () => {
    const marked = day.map((reading, index) => ({ ...reading, quality: [0, 8, 10, 19, 77][index] ?? 17 }));
    const quality = seriesOf(espiText(marked, HALF_HOURS)).channels[0]?.quality ?? [];
    expect([...quality].slice(0, 5).map((mark) => QUALITIES[mark])).toEqual([
      "recorded",
      "estimated",
      "questionable",
      "recorded",
      "questionable",
    ]);
  });
  it("says what the meter's own clock does, without moving a reading by it", () => {
    expect(concluded(imported(espiText(day, HALF_HOURS)), "localTime")).toBe(
      "the meter's own clock is 0 s ahead of universal time, 3600 s more from the last Sunday of March at 01:00 to the last Sunday of October at 02:00",
    );
  });
  it("keeps what is sent out below zero in net readings, and asks where none belongs", () => {
    const net = day.map((reading, index) => ({ ...reading, value: index === 3 ? -50 : 200 + index }));
    expect(values(espiText(net, { ...HALF_HOURS, flowDirection: 4 }))[3]).toBe(-0.05);
    expect(imported(espiText(net, HALF_HOURS))).toMatchObject({ questions: [{ id: "negative" }] });
  });
  it("says that maxima are no means", () => {
    const result = imported(espiText(day, { ...HALF_HOURS, uom: 38, dataQualifier: 8 }));
    expect(result).toMatchObject({ remarks: [{ id: "maximum" }] });
  });

  const refusals: [what: string, text: string, code: string][] = [
    [
      "a document type",
      '<!DOCTYPE feed [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;">]><feed>&b;</feed>',
      "XML_FORBIDDEN",
    ],
    ["an entity that nobody declared", espiText(day, HALF_HOURS).replace("Usage", "&b;"), "XML_WRONG"],
    ["a file cut off", espiText(day, HALF_HOURS).slice(0, 3000), "XML_WRONG"],
    ["another vocabulary", "<html><body/></html>", "XML_WRONG"],
    ["endless nesting", "<a>".repeat(1000), "XML_WRONG"],
    ["endless text", `<a>${"x".repeat(1_200_000)}`, "LINE_TOO_LONG"],
    [
      "a value that is no number",
      espiText(day, HALF_HOURS).replace("<espi:value>203", "<espi:value>2O3"),
      "VALUE_UNREADABLE",
    ],
    ["a start in words", espiText(day, HALF_HOURS).replace(String(START), "midnight"), "TIME_UNREADABLE"],
    [
      "intervals of another length",
      espiText(day, HALF_HOURS).replace("duration>1800", "duration>900"),
      "TIME_OFF_GRID",
    ],
    [
      "an interval that ends before it begins",
      espiText(day, HALF_HOURS).replace("duration>1800", "duration>-1800"),
      "TIME_OFF_GRID",
    ],
    [
      "one interval twice with different values",
      espiText([...day, { startS: START, value: 9 }], HALF_HOURS),
      "TIME_TWICE",
    ],
    ["volts alone", espiText(day, { ...HALF_HOURS, uom: 29 }), "UNIT_NOT_READ"],
    ["what is sent out alone", espiText(day, { ...HALF_HOURS, flowDirection: 19 }), "UNIT_NOT_READ"],
    [
      "a multiplier beyond all measure",
      espiText(day, { ...HALF_HOURS, powerOfTenMultiplier: 300 }),
      "UNIT_NOT_READ",
    ],
    ["a feed without intervals", espiText([], HALF_HOURS), "NOTHING_RECORDED"],
    [
      "a start in the year 300000",
      espiText([...day, { startS: 9_400_000_000_000, value: 1 }], HALF_HOURS),
      "TIME_UNREADABLE",
    ],
    [
      "a reading centuries away",
      espiText([...day, { startS: 9_400_000_800, value: 1 }], { ...HALF_HOURS, intervalLength: 60 }),
      "SPAN_TOO_LONG",
    ],
  ];
  it.each(refusals)("refuses %s", (_what, text, code) => {
    const result = imported(text, {}, 4096);
    expect(result).toMatchObject({
      state: "refused",
      problems: expect.arrayContaining([expect.objectContaining({ code })]),
    });
  });
  it("names line and column of what is wrong", () => {
    const text = espiText(day, HALF_HOURS).replace("<espi:value>203", "<espi:value>2O3");
    const line = text.split("\n").findIndex((row) => row.includes("2O3")) + 1;
    expect(imported(text, {}, 64)).toMatchObject({ problems: [{ line, found: "2O3" }] });
  });
});
