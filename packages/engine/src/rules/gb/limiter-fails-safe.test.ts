import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { FAILURES } from "../../job/schema/limiter.ts";
import { example } from "../../testing/examples.ts";
import { type Changes, findingIds, said } from "../../testing/findings.ts";
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
      "the fuse unknown",
      { "nodes[cut-out].overcurrent.ratingA": NOT_RECORDED, "limiter.failures": [] },
      ["cannot-tell roomUnknown nodes[cut-out].overcurrent.ratingA", untried],
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

  it("names each finding by its failure", () => {
    const ids = findingIds(limiterFailsSafe.id, {});
    expect(ids).toEqual(["limiter", ...FAILURES].map((name) => `limiter-fails-safe/${name}`));
  });
  it("a line whose demand is not known could be the worst, unless another is broken already", () => {
    const hall = example("village-hall").document;
    const withoutL2 = (eachA: number) =>
      said(
        limiterFailsSafe.id,
        {
          "limiter.fallbackA": known(eachA),
          "demand.recordings": hall.demand.recordings.filter(({ line }) => line !== "L2"),
          "nodes[sockets].ratedA": NOT_RECORDED,
        },
        {},
        hall,
      )[0];
    expect(withoutL2(6)).toMatch(/^cannot-tell roomUnknown /);
    expect(withoutL2(20)).toBe("fail settingHigh");
  });
  it("two points share what the worst line leaves them", () => {
    const hall = example("village-hall").document;
    const fallback = (eachA: number) =>
      said(limiterFailsSafe.id, { "limiter.fallbackA": known(eachA) }, {}, hall)[0];
    // L3 carries both: 80 A less 3 % and the 48.564 A of its building leave 29.036 A. L1, with one, has 21.5 A to spare.
    expect(fallback(14.518)).toBe("pass setting");
    expect(fallback(14.519)).toBe("fail settingHigh");
  });
});
