import { describe, expect, it } from "vitest";
import { addDays, daysBetween, isIsoDate, weekdaysBetween } from "./iso-date.ts";

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

describe("weekdaysBetween", () => {
  it.each([
    ["2026-11-16", "2026-11-16", 0],
    ["2026-11-16", "2026-11-10", 0],
    ["2026-11-16", "2026-11-18", 1], // Monday to Wednesday: Tuesday
    ["2026-11-13", "2026-11-16", 0], // a weekend
    ["2026-11-11", "2026-11-16", 2], // Thursday and Friday
    ["2026-11-16", "2026-11-30", 9],
    ["1969-12-26", "1970-01-01", 3], // Friday to Thursday, before the first day counted
    ["2024-02-27", "2024-03-01", 2], // leap day, a Thursday
  ])("%s to %s: %i", (from, to, days) => expect(weekdaysBetween(from, to)).toBe(days));
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
