import { describe, expect, it } from "vitest";
import type { BuildingSource } from "./building-source.ts";
import { doubtsOf, underDoubts } from "./doubts.ts";

const recorded: BuildingSource = {
  kind: "recorded",
  days: 10,
  intervalS: 60,
  intervalsPerDay: 1440,
  from: "2026-01-05",
  lacks: [],
  fill: () => {},
};

describe("doubtsOf", () => {
  it.each([
    ["a whole recording by the minute", {}, 0, false, []],
    ["means longer than a minute", { intervalS: 300 }, 0, false, ["means"]],
    ["a building that is drawn", { kind: "drawn" }, 0, false, ["drawn"]],
    ["a load drawn on top", { adds: ["Shower"] }, 0, false, ["drawn"]],
    ["a load that nothing stands in for", { lacks: ["Heat pump"] }, 0, false, ["lacking"]],
    // Ten days have 240 h: a hundredth of them is 2.4 h.
    ["a hundredth absent", {}, 2.4, false, []],
    ["more than a hundredth absent", {}, 2.5, false, ["gaps"]],
    ["one value for all lines", { isSharedEqually: true }, 0, false, ["shared"]],
    ["a manager that the job does not have", {}, 0, true, ["no-manager"]],
    ["what a generator gave", { generators: ["Solar"] }, 0, false, ["lessened"]],
    ["a hundredth not read off", { unsureShare: 0.01 }, 0, false, []],
    ["more than a hundredth not read off", { unsureShare: 0.02 }, 0, false, ["unsure"]],
    ["a week", { days: 7 }, 0, false, []],
    ["less than a week", { days: 6 }, 0, false, ["short"]],
    ["several at once", { intervalS: 1800, lacks: ["x"] }, 9, false, ["means", "lacking", "gaps"]],
  ] as const)("%s", (_what, change, absentH, isManagerImagined, doubts) =>
    expect(
      doubtsOf({
        building: { ...recorded, ...change },
        outcome: { absentH, days: 10 },
        site: { isManagerImagined, misplaced: [] },
      }),
    ).toEqual(doubts),
  );
});

it("doubts a run that takes a transformer as put right", () =>
  expect(
    doubtsOf({
      building: recorded,
      outcome: { absentH: 0, days: 10 },
      site: { isManagerImagined: false, misplaced: ["ct-2"] },
    }),
  ).toEqual(["misplaced"]));

describe("underDoubts", () => {
  it.each([
    ["pass", [], "pass"],
    ["pass", ["drawn"], "unknown"],
    ["fail", ["drawn"], "fail"],
    ["unknown", [], "unknown"],
    ["none", ["means", "gaps"], "none"],
  ] as const)("%s under %j is %s", (tone, doubts, told) => expect(underDoubts(tone, doubts)).toBe(told));
});
