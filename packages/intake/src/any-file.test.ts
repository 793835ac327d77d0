import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { ImportResult } from "./import-result.ts";
import { Importer } from "./importer.ts";
import type { Clock } from "./statements.ts";
import { espiText, HALF_HOURS } from "./testing/espi-text.ts";
import { imported } from "./testing/imported.ts";
import {
  longByPeriods,
  longByWall,
  type Truth,
  wideByPeriods,
  wideByUtc,
  wideByWall,
} from "./testing/written-shapes.ts";

const HOUR_MS = 3_600_000;

/** True where a result is one of the three, complete in itself. */
function expectSound(result: ImportResult): void {
  if (result.state === "refused") expect(result.problems.length).toBeGreaterThan(0);
  else if (result.state === "questions") expect(result.questions.length).toBeGreaterThan(0);
  else {
    for (const { values, quality } of result.series.channels) {
      expect(quality.length).toBe(values.length);
      // A value stands exactly where the quality says that one does.
      for (const [at, value] of values.entries())
        expect(Number.isNaN(value)).toBe(quality[at] === 0 || quality[at] === 4);
    }
  }
}

/** Values that stand at another time than they were measured, or are not the measured ones. */
function misplaced(result: ImportResult, { startMs, stepS, values }: Truth): number {
  if (result.state !== "series") return 0;
  const { series } = result;
  const shift = (series.startMs - startMs) / (stepS * 1000);
  return [...(series.channels[0]?.values ?? [])].filter(
    (value, at) =>
      !Number.isNaN(value) && Math.abs(value - (values[at + shift] ?? Number.NaN)) > 1e-12 * value,
  ).length;
}

describe("any file", () => {
  const bytes = fc.uint8Array({ maxLength: 400 });
  const words = fc
    .array(
      fc.oneof(
        fc.constantFrom(
          "date",
          "time",
          "kWh",
          ",",
          ";",
          "\n",
          "\r\n",
          "\t",
          '"',
          "2026-01-13",
          "13/01/2026",
          "00:30",
          "24:00",
          "0.5",
          "0,5",
          "HH01",
          "<",
          "&",
          "\0",
          "\ufeff",
          "-1",
          "1e400",
          "E",
          "29/10/2023",
        ),
        fc.integer({ min: -5, max: 5000 }).map(String),
      ),
      { maxLength: 120 },
    )
    .map((parts) => new TextEncoder().encode(parts.join("")));
  const xml = fc
    .array(
      fc.constantFrom(
        "<feed xmlns='http://www.w3.org/2005/Atom'>",
        "</feed>",
        "<entry>",
        "</entry>",
        "<IntervalBlock xmlns='http://naesb.org/espi'>",
        "</IntervalBlock>",
        "<IntervalReading>",
        "</IntervalReading>",
        "<value>5</value>",
        "<value>x</value>",
        "<timePeriod><start>1700000000</start></timePeriod>",
        "<start>",
        "<ReadingType xmlns='http://naesb.org/espi'><uom>72</uom></ReadingType>",
        "<link rel='up' href='a'/>",
        "<!--",
        "-->",
        "<![CDATA[",
        "]]>",
        "&amp;",
        "&x;",
        "<?xml version='1.0'?>",
      ),
      { maxLength: 40 },
    )
    .map((parts) => new TextEncoder().encode(`<a>${parts.join("")}</a>`));

  it("gives a series, questions or problems, and the same in one piece as in many", () => {
    fc.assert(
      fc.property(fc.oneof(bytes, words, xml), fc.integer({ min: 1, max: 50 }), (file, size) => {
        const whole = new Importer();
        whole.push(file);
        const parts = new Importer();
        for (let at = 0; at < file.length; at += size) parts.push(file.subarray(at, at + size));
        const result = whole.end();
        expectSound(result);
        expect(parts.end()).toEqual(result);
      }),
      { numRuns: 400 },
    );
  });
  it("gives one of the three however a good file is damaged", () => {
    const text = wideByUtc({
      startMs: Date.UTC(2023, 9, 20),
      stepS: 1800,
      values: Array.from({ length: 960 }, (_, at) => (101 + at) / 1000),
    });
    fc.assert(
      fc.property(
        fc.nat(text.length - 1),
        fc.constantFrom("", ",", "\n", "9", '"', ";", "x", "\0"),
        (at, instead) => {
          expectSound(imported(text.slice(0, at) + instead + text.slice(at + 1)));
        },
      ),
      { numRuns: 150 },
    );
  });
});

const truths = fc
  .record({
    year: fc.integer({ min: 1999, max: 2035 }),
    firstDay: fc.nat(330),
    dayCount: fc.integer({ min: 2, max: 30 }),
    seed: fc.nat(1000),
  })
  .map(({ year, firstDay, dayCount, seed }) => ({
    firstMs: Date.UTC(year, 0, 1 + firstDay),
    dayCount,
    seed,
  }));

/** A series from local midnight to local midnight, every value its own. */
function between(
  zoneShiftAtMs: (atMs: number) => number,
  given: { firstMs: number; dayCount: number; seed: number },
): Truth {
  const startMs = given.firstMs - zoneShiftAtMs(given.firstMs);
  const endAsWall = given.firstMs + given.dayCount * 24 * HOUR_MS;
  const endMs = endAsWall - zoneShiftAtMs(endAsWall);
  const count = Math.round((endMs - startMs) / 1_800_000);
  return {
    startMs,
    stepS: 1800,
    values: Array.from({ length: count }, (_, at) => (1001 + ((at * 7919 + given.seed) % 4999)) / 1000),
  };
}

/** Shift of a zone at the midnight it shows, by the platform. [ms] */
const shiftOf =
  (zone: string) =>
  (wallMs: number): number => {
    for (let shiftH = -1; shiftH <= 14; shiftH++) {
      const atMs = wallMs - shiftH * HOUR_MS;
      const shown = new Intl.DateTimeFormat("sv-SE", {
        timeZone: zone,
        dateStyle: "short",
        timeStyle: "medium",
      }).format(atMs);
      if (Date.parse(`${shown.replace(" ", "T")}Z`) === wallMs) return shiftH * HOUR_MS;
    }
    throw new Error(`no ${zone} at ${wallMs}`);
  };

describe("a series, written and read back", () => {
  const zones = fc.constantFrom("Europe/London", "Europe/Paris", "Pacific/Auckland");
  const shapes: Record<
    string,
    { write: (series: Truth, zone: string) => string; clock: Clock; hasAll: boolean }
  > = {
    "wide, counted": { write: wideByPeriods, clock: "periods", hasAll: true },
    "long, counted": { write: longByPeriods, clock: "periods", hasAll: true },
    "long, wall, starts": {
      write: (series, zone) => longByWall(series, zone, "start"),
      clock: "local",
      hasAll: true,
    },
    "long, wall, ends": {
      write: (series, zone) => longByWall(series, zone, "end"),
      clock: "local",
      hasAll: true,
    },
    "wide, wall": {
      write: (series, zone) => wideByWall(series, zone, { spring: "absent", autumn: "sum" }),
      clock: "local",
      hasAll: false,
    },
    "long, universal": { write: (series) => longByWall(series, "UTC", "start"), clock: "utc", hasAll: true },
  };
  it.each(Object.entries(shapes))("%s", (_name, { write, clock, hasAll }) => {
    fc.assert(
      fc.property(truths, zones, (given, zone) => {
        const series = between(shiftOf(zone), given);
        const result = imported(write(series, zone), {
          clock,
          zone,
          labels: _name.includes("ends") ? "end" : "start",
          stepS: 1800,
        });
        if (result.state !== "series") throw new Error(JSON.stringify(result));
        expect(misplaced(result, series)).toBe(0);
        const present = result.series.channels[0]?.quality.filter((mark) => mark === 1).length ?? 0;
        const repeated = hasAll ? 0 : 4;
        expect(series.values.length - present).toBeLessThanOrEqual(repeated);
      }),
      { numRuns: 25 },
    );
  });
  it("ESPI", () => {
    fc.assert(
      fc.property(truths, fc.boolean(), (given, areTimed) => {
        const series = between(() => 0, given);
        const readings = series.values.map((value, at) => ({
          startS: areTimed ? series.startMs / 1000 + at * 1800 : null,
          value: Math.round(value * 1000),
        }));
        const text = espiText(readings, HALF_HOURS, {
          startS: series.startMs / 1000,
          durationS: 1800 * readings.length,
        });
        const result = imported(text);
        expect(result.state === "series" && [...(result.series.channels[0]?.values ?? [])]).toEqual(
          series.values,
        );
      }),
      { numRuns: 15 },
    );
  });
});

describe("rows out of place", () => {
  const zone = "Europe/London";
  /** Over the autumn change of 2023, where a reading out of order could slip by an hour. */
  const series = between(shiftOf(zone), { firstMs: Date.UTC(2023, 9, 27), dayCount: 5, seed: 3 });
  const [heading = "", ...rows] = longByWall(series, zone, "start").trim().split("\n");
  const stated = { clock: "local", stepS: 1800, labels: "start" } as const;
  const fileOf = (lines: readonly string[]): string => [heading, ...lines].join("\n");

  it("shuffled, doubled or lost, none is read at another time", () => {
    const places = fc.array(fc.nat(rows.length - 1), { minLength: 1, maxLength: 300 });
    fc.assert(
      fc.property(places, fc.boolean(), (at, keepsAll) => {
        const extra = at.map((index) => rows[index] as string);
        const result = imported(fileOf(keepsAll ? [...rows, ...extra] : extra), stated);
        expectSound(result);
        expect(misplaced(result, series)).toBe(0);
      }),
    );
  });
  it("whole blocks moved, none is read at another time", () => {
    fc.assert(
      fc.property(fc.nat(rows.length), fc.nat(rows.length), (a, b) => {
        const [from, to] = [Math.min(a, b), Math.max(a, b)];
        const result = imported(
          fileOf([...rows.slice(to), ...rows.slice(from, to), ...rows.slice(0, from)]),
          stated,
        );
        expect(misplaced(result, series)).toBe(0);
      }),
    );
  });
  it("labelled one step late, the file is read by its ends and not a step late", () => {
    const winter = between(() => 0, { firstMs: Date.UTC(2023, 0, 9), dayCount: 4, seed: 1 });
    const late = longByWall({ ...winter, startMs: winter.startMs + 1_800_000 }, "UTC", "start");
    const result = imported(late);
    expect(result).toMatchObject({ state: "series", series: { startMs: winter.startMs } });
  });
  it("labelled an hour late, the file raises a question", () => {
    const winter = between(() => 0, { firstMs: Date.UTC(2023, 0, 9), dayCount: 4, seed: 1 });
    const late = longByWall({ ...winter, startMs: winter.startMs + HOUR_MS }, "UTC", "start");
    expect(imported(late)).toMatchObject({ state: "questions", questions: [{ id: "labels" }] });
  });
});
