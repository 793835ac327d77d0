import { describe, expect, it } from "vitest";
import { coverageOf, intervalSeriesOf, type RecordedSeries, totalsOf } from "./recorded-series.ts";

const series = (unit: RecordedSeries["unit"], values: readonly number[], line: "L2" | null = null) => {
  const channel = {
    line,
    values: Float64Array.from(values),
    quality: Uint8Array.from(values, (value) => (Number.isNaN(value) ? 0 : 1)),
    duplicateCount: 2,
  };
  return [{ startMs: 0, stepS: 1800, unit, channels: [channel] }, channel] as const;
};

describe("a recorded series", () => {
  it("has its energy and its greatest mean, absent intervals left out", () => {
    // 1.5 kWh in half an hour is 3 kW.
    expect(totalsOf(...series("kWh", [1, Number.NaN, 1.5]))).toEqual({
      energyKwh: 2.5,
      greatestMean: { value: 3000, unit: "W", atMs: 3_600_000 },
    });
    expect(totalsOf(...series("W", [2000, 1000])).energyKwh).toBe(1.5);
    expect(totalsOf(...series("A", [3, 7]))).toMatchObject({
      energyKwh: null,
      greatestMean: { value: 7, unit: "A" },
    });
    expect(totalsOf(...series("A", [Number.NaN])).greatestMean).toBeNull();
  });
  it("counts every interval once", () => {
    const [, channel] = series("kWh", [1, Number.NaN, 2]);
    const marked = { ...channel, quality: Uint8Array.of(2, 4, 3) };
    expect(coverageOf(channel)).toMatchObject({
      intervalCount: 3,
      recordedCount: 2,
      absentCount: 1,
      duplicateCount: 2,
    });
    expect(coverageOf(marked)).toMatchObject({ estimatedCount: 1, leftOutCount: 1, questionableCount: 1 });
  });
});

describe("intervalSeriesOf", () => {
  const by = { voltageV: 230, powerFactor: 0.5, lineCount: 1 } as const;
  const currents = (...args: Parameters<typeof intervalSeriesOf>) => [...intervalSeriesOf(...args).currentA];

  it("divides power by voltage, power factor and the lines that share it", () => {
    // 2.3 kWh in half an hour is 4600 W: 40 A at 230 V and half power factor, 13.3 A on each of three lines.
    expect(currents(...series("kWh", [2.3, Number.NaN]), by)).toEqual([40, Number.NaN]);
    expect(currents(...series("W", [4600]), by)).toEqual([40]);
    expect(currents(...series("kWh", [6.9]), { ...by, lineCount: 3 })).toEqual([40]);
  });
  it("leaves what one line drew to that line, and currents as they are", () => {
    expect(currents(...series("W", [4600], "L2"), { ...by, lineCount: 3 })).toEqual([40]);
    expect(currents(...series("A", [12, Number.NaN]), by)).toEqual([12, Number.NaN]);
  });
  it.each([
    ["no voltage", { ...by, voltageV: 0 }, "voltageV"],
    ["a power factor above one", { ...by, powerFactor: 1.1 }, "powerFactor"],
    ["no power factor", { ...by, powerFactor: Number.NaN }, "powerFactor"],
  ])("refuses %s and names it", (_what, wrong, name) => {
    expect(() => intervalSeriesOf(...series("W", [1]), wrong)).toThrow(
      expect.objectContaining({ code: "OUT_OF_DOMAIN", details: expect.objectContaining({ name }) }),
    );
  });
});
