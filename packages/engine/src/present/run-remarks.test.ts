import { describe, expect, it } from "vitest";
import { remarksOf } from "./run-remarks.ts";

type Remarked = Parameters<typeof remarksOf>[0];
const said = (
  building: Partial<Remarked["building"]> = {},
  outcome: Partial<Remarked["outcome"]> = {},
  ungoverned: readonly string[] = [],
) =>
  remarksOf({
    building: {
      kind: "recorded",
      days: 2,
      intervalS: 60,
      intervalsPerDay: 1440,
      from: "2026-01-05",
      lacks: [],
      fill: () => undefined,
      ...building,
    },
    outcome: { absentH: 0, days: 2, ...outcome },
    site: { ungoverned, isManagerImagined: false },
  }).map((text) => text.replaceAll("\u00a0", " "));

describe("remarksOf", () => {
  it("has nothing to say of minutes recorded for the job, all there and run once", () =>
    expect(said()).toEqual([]));
  it.each([
    ["means", { intervalS: 1800 }, "means of 30 min: shorter peaks are hidden"],
    ["a recording given beside the job", { isGiven: true }, "was given beside the job"],
    ["one value for all lines", { isSharedEqually: true }, "shared equally"],
    ["a load drawn on top", { adds: ["Shower"] }, "does not contain Shower: drawn on top"],
    [
      "a load that is lacking",
      { lacks: ["Sauna"] },
      "does not contain Sauna: what it adds is not in this run",
    ],
    [
      "a building drawn",
      { kind: "drawn", days: Number.POSITIVE_INFINITY },
      "It is a plausible dwelling, not this one",
    ],
    ["one day that repeats", { days: 1 }, "1 day were recorded and repeat"],
  ] as const)("tells of %s", (_what, building, words) =>
    expect(said(building)).toEqual([expect.stringContaining(words)]),
  );
  it("tells hours that nobody recorded, and charge points that nobody governs", () =>
    expect(said({}, { absentH: 1.5 }, ["garage"])).toEqual([
      expect.stringContaining("1 h 30 min of the 2 days were not recorded"),
      expect.stringContaining("No load manager governs garage"),
    ]));
});
