import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { FAILURES } from "../../job/schema/limiter.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { limiterFailsSafe } from "./limiter-fails-safe.ts";

const untried = `cannot-tell notProved ${FAILURES.map((failure) => `limiter.failures[${failure}].offeredA`).join(" ")}`;

describe(limiterFailsSafe.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["setting and every failure proved", {}, ["pass setting", ...FAILURES.map(() => "pass safe")]],
    [
      "the building may take all but 12 A: 16 A is too much",
      { "demand.recordings[log].maximumA": known(85) },
      ["fail settingHigh", ...FAILURES.map(() => "fail unsafe")],
    ],
    [
      "less than 6 A left: only 0 will do",
      { "demand.recordings[log].maximumA": known(92), "limiter.fallbackA": known(5) },
      ["fail settingHigh", ...FAILURES.map(() => "fail unsafe")],
    ],
    [
      "0 always will",
      { "demand.recordings[log].maximumA": known(92), "limiter.fallbackA": known(0), "limiter.failures": [] },
      [`pass setting`, untried],
    ],
    [
      "setting unknown",
      { "limiter.fallbackA": NOT_RECORDED, "limiter.failures": [] },
      ["cannot-tell settingUnknown limiter.fallbackA", untried],
    ],
    [
      "a failure tried, its result not recorded",
      { "limiter.failures[bus-lost].offeredA": NOT_RECORDED },
      [
        "pass setting",
        "pass safe",
        "pass safe",
        "cannot-tell unknown limiter.failures[bus-lost].offeredA",
        "pass safe",
        "pass safe",
        "pass safe",
      ],
    ],
    ["no load manager", { limiter: null }, ["not-applicable none"]],
  ])("%s", (_what, changes, says) => expect(said(limiterFailsSafe.id, changes)).toEqual(says));
});
