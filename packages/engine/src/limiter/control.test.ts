import { describe, expect, it } from "vitest";
import { promptControl } from "../testing/prompt-control.ts";
import { type ControlSettings, requireControl, timesOutBetweenReadings } from "./control.ts";

describe("requireControl", () => {
  it.each([
    ["limitA", -1],
    ["marginA", -0.1],
    ["averageS", 901],
    ["readEveryS", 0],
    ["decideEveryS", -1],
    ["commandS", 601],
    ["minOfferA", 0.9],
    ["offerStepA", 0],
    ["riseHoldS", -1],
    ["riseStepA", 0],
    ["resumeExtraA", -1],
    ["resumeHoldS", -1],
    ["minimumOffS", -1],
    ["fallbackA", -1],
    ["fallbackAfterS", -1],
    ["turnS", 0],
  ] satisfies [keyof ControlSettings, number][])("refuses %s of %d", (name, value) =>
    expect(() => requireControl({ ...promptControl, [name]: value })).toThrow(`${name} is ${value}`),
  );
  it("refuses a gain of nothing, and takes a control without a fallback", () => {
    expect(() => requireControl({ ...promptControl, law: { kind: "integrating", gain: 0 } })).toThrow(
      "law.gain is 0",
    );
    expect(() => requireControl({ ...promptControl, fallbackA: null })).not.toThrow();
  });
});

it.each([
  ["deciding between readings, the time-out over first", { decideEveryS: 1, fallbackAfterS: 9 }, true],
  ["the time-out over with the next reading", { decideEveryS: 1, fallbackAfterS: 10 }, false],
  ["deciding on readings only", { decideEveryS: 0, fallbackAfterS: 9 }, false],
])("times out between readings: %s", (_what, changes, isOut) =>
  expect(timesOutBetweenReadings({ ...promptControl, readEveryS: 10, ...changes })).toBe(isOut),
);
