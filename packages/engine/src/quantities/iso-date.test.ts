import { describe, expect, it } from "vitest";
import { addDays, daysBetween, isIsoDate } from "./iso-date.ts";

describe("isIsoDate", () => {
  it.each(["2026-11-25", "2024-02-29", "2000-02-29"])("accepts %s", (text) =>
    expect(isIsoDate(text)).toBe(true),
  );
  it.each([
    "2026-02-29",
    "1900-02-29",
    "2026-13-01",
    "2026-00-10",
    "2026-04-31",
    "25/11/2026",
    "2026-1-5",
    "",
  ])("refuses %s", (text) => expect(isIsoDate(text)).toBe(false));
});

describe("addDays and daysBetween", () => {
  it.each([
    ["2026-02-20", 28, "2026-03-20"],
    ["2028-02-20", 28, "2028-03-19"], // leap year
    ["2026-10-15", 28, "2026-11-12"], // over the clock change
    ["2026-12-10", 28, "2027-01-07"],
    ["2026-03-01", -1, "2026-02-28"],
  ])("%s + %i days is %s", (from, days, to) => {
    expect(addDays(from, days)).toBe(to);
    expect(daysBetween(from, to)).toBe(days);
  });
});
