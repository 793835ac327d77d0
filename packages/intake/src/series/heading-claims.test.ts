import { describe, expect, it } from "vitest";
import { concluded, imported } from "../testing/imported.ts";
import { long, rows, table } from "../testing/three-days.ts";
import { isMaximum, notInUnits, otherQuantityIn } from "./heading-claims.ts";

const headed = (heading: string): string =>
  long(({ day, time, value }) => `${day},${time},${value}`, `date,time,${heading}`);

describe("headings of what a building does not take in", () => {
  it.each([
    "Cost per kWh",
    "p/kWh",
    "GBP/kWh",
    "Pulses (1000 per kWh)",
    "Export kWh",
    "energy_exported_kWh",
    "Generation kWh",
    "Solar (kWh)",
    "Gas kWh",
    "kVArh",
    "Minimum kW",
    "Reverse kWh",
    "kWh out",
    "-A (kWh)",
    "E- (kWh)",
    "Forecast kWh",
    "kWh last year",
  ])("%s alone is refused, unless the column was stated", (heading) => {
    expect(imported(headed(heading))).toMatchObject({
      state: "refused",
      problems: [{ code: "UNIT_NOT_READ", found: `the heading "${heading}"` }],
    });
    expect(imported(headed(heading), { value: [heading], unit: "kWh" })).toMatchObject({
      state: "series",
      remarks: [{ id: "quantity" }],
    });
    expect(imported(headed(heading), { value: [heading] })).toMatchObject({ questions: [{ id: "unit" }] });
  });
  it("are passed over beside a column of what it takes in", () => {
    for (const other of ["Rate p/kWh", "Export kWh", "Reverse kWh", "-A (kWh)", "Solar kWh", "Gas kWh"]) {
      const text = long(
        ({ day, time, value }) => `${day},${time},${value},${value}`,
        `date,time,${other},Consumption kWh`,
      );
      expect(concluded(imported(text), "value")).toBe('value in column "Consumption kWh"');
    }
  });
  it("are refused one row a day too, unless the unit was stated", () => {
    const columns = Array.from({ length: 24 }, (_, hour) => `Export ${String(hour).padStart(2, "0")}:00 kWh`);
    const text = table(
      ["date", ...columns].join(","),
      ["2026-01-13", ...rows.slice(0, 24).map(({ value }) => value)].join(","),
    );
    expect(imported(text)).toMatchObject({ problems: [{ code: "UNIT_NOT_READ" }] });
    expect(imported(text, { unit: "kWh" })).toMatchObject({ state: "series" });
  });
  it.each([
    "Import kWh",
    "Net export - import kWh",
    "Charge point kWh",
    "Consumption (kWh)",
    "Heat pump kWh",
  ])("%s is none of them", (heading) => expect(otherQuantityIn(heading)).toBeNull());
});

describe("headings whose numbers are not in whole units", () => {
  it.each([
    "kWh x10",
    "kWh x 0.001",
    "Import (Wh/100)",
    "0.1 kWh",
    "10 kWh",
    "kWh*10",
    "Tenths of kWh",
    "kWh/h",
    "kWh/day",
    "kWh per month",
    "kW cumulative",
  ])("%s: the unit is asked for", (heading) => {
    expect(imported(headed(heading))).toMatchObject({
      questions: [{ id: "unit", because: expect.stringContaining(`"${heading}"`) }],
    });
  });
  it.each([
    "kWh",
    "kWh/30min",
    "kWh per half hour",
    "kWh/hh",
    "Phase 1 kWh",
    "L2 A",
    "HH01 kWh",
    "Tariff 2 kWh",
  ])("%s: the unit is as it stands", (heading) => expect(notInUnits(heading, false)).toBeNull());
  it("numbers before the unit are those of the intervals, one row a day", () => {
    expect(notInUnits("1 kWh", true)).toBeNull();
    expect(notInUnits("1 kWh", false)).not.toBeNull();
  });
});

describe("headings of maxima", () => {
  it.each(["Peak kW", "kW (max)", "Max demand kW", "W max", "MD kW", "Max A"])(
    "%s: said to be no mean",
    (heading) => {
      expect(imported(headed(heading))).toMatchObject({
        state: "series",
        remarks: expect.arrayContaining([expect.objectContaining({ id: "maximum" })]),
      });
    },
  );
  it("take neither off-peak nor energy at peak times for one", () => {
    expect(isMaximum("Off-peak kW")).toBe(false);
    expect(imported(headed("Peak kWh"))).toMatchObject({ state: "series", remarks: [] });
  });
});
