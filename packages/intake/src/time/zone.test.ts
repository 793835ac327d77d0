import { describe, expect, it } from "vitest";
import { wallAt } from "../testing/written-shapes.ts";
import { COMMON_RULE_ZONES, instantsOf, lastSundayChangeMs, zoneOffsets } from "./zone.ts";

const HOUR_MS = 3_600_000;
/** What clocks show, as if it were UTC, by the platform. */
const platformWallMs = (atMs: number, zone: string): number => {
  const { day, secondS } = wallAt(atMs, zone);
  return Date.parse(`${day}T00:00:00Z`) + secondS * 1000;
};

describe("Europe's common rule", () => {
  it("changes clocks at 01:00 UTC on the last Sundays of March and October", () => {
    expect(new Date(lastSundayChangeMs(2023, 3)).toISOString()).toBe("2023-03-26T01:00:00.000Z");
    expect(new Date(lastSundayChangeMs(2023, 10)).toISOString()).toBe("2023-10-29T01:00:00.000Z");
    // A month that ends on a Sunday.
    expect(new Date(lastSundayChangeMs(2024, 3)).toISOString()).toBe("2024-03-31T01:00:00.000Z");
  });
  it.each(COMMON_RULE_ZONES)("agrees with the platform's table of %s, from 1997 to 2037", (zone) => {
    const offsets = zoneOffsets(zone, { fromMs: Date.UTC(1997, 0, 3), untilMs: Date.UTC(2037, 11, 30) });
    expect(offsets?.changes.length).toBe(82);
    for (const { atMs, beforeS, afterS } of offsets?.changes ?? []) {
      expect(platformWallMs(atMs - 1000, zone) - (atMs - 1000)).toBe(beforeS * 1000);
      expect(platformWallMs(atMs, zone) - atMs).toBe(afterS * 1000);
    }
  });
});

describe("zones of the platform", () => {
  it("are found to the second", () => {
    const span = { fromMs: Date.UTC(2007, 0, 1), untilMs: Date.UTC(2008, 0, 1) };
    const auckland = zoneOffsets("Pacific/Auckland", span);
    expect(auckland?.changes.map(({ atMs, afterS }) => [new Date(atMs).toISOString(), afterS])).toEqual([
      ["2007-03-17T14:00:00.000Z", 43_200],
      ["2007-09-29T14:00:00.000Z", 46_800],
    ]);
    expect(auckland?.standardOffsetS).toBe(43_200);
  });
  it("serve years before the common rule", () => {
    const offsets = zoneOffsets("Europe/London", {
      fromMs: Date.UTC(1995, 0, 1),
      untilMs: Date.UTC(1996, 0, 1),
    });
    // The clocks went back on the fourth Sunday of October then, and that month had five.
    expect(offsets?.changes.map(({ atMs }) => new Date(atMs).toISOString().slice(0, 10))).toEqual([
      "1995-03-26",
      "1995-10-22",
    ]);
  });
  it("know no zone of that name", () => {
    const span = { fromMs: 0, untilMs: 1 };
    for (const zone of ["Europe/Nowhere", "", "toString", "__proto__"])
      expect(zoneOffsets(zone, span)).toBeNull();
  });
});

describe("instantsOf", () => {
  const offsets = zoneOffsets("Europe/London", {
    fromMs: Date.UTC(2023, 0, 1),
    untilMs: Date.UTC(2024, 0, 1),
  });
  if (offsets === null) throw new Error("no London");
  const instants = (wall: string) =>
    instantsOf(offsets, Date.parse(`${wall}Z`)).map((atMs) => new Date(atMs).toISOString().slice(0, 16));

  it("has two in the hour that autumn repeats, earlier first", () => {
    expect(instants("2023-10-29T01:30")).toEqual(["2023-10-29T00:30", "2023-10-29T01:30"]);
    expect(instants("2023-10-29T00:30")).toEqual(["2023-10-28T23:30"]);
    expect(instants("2023-10-29T02:00")).toEqual(["2023-10-29T02:00"]);
  });
  it("has none in the hour that spring leaves out", () => {
    expect(instants("2023-03-26T01:30")).toEqual([]);
    expect(instants("2023-03-26T02:00")).toEqual(["2023-03-26T01:00"]);
  });
  it("is where the platform shows that time, at every half-hour of a year", () => {
    for (let atMs = Date.UTC(2023, 0, 1); atMs < Date.UTC(2024, 0, 1); atMs += HOUR_MS / 2)
      expect(instantsOf(offsets, platformWallMs(atMs, "Europe/London"))).toContain(atMs);
  });
});
