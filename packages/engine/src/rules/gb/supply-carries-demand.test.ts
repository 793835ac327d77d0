import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { soundJob } from "../../testing/sound-job.ts";
import { supplyCarriesDemand } from "./supply-carries-demand.ts";

describe(supplyCarriesDemand.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["everything fits", {}, ["pass building", "pass managed"]],
    [
      "the building on the limit",
      { "demand.recordings[log].maximumA": known(100) },
      ["pass building", "pass managed"],
    ],
    [
      "the building above it",
      { "demand.recordings[log].maximumA": known(100.1) },
      ["fail buildingAbove", "fail managedAbove"],
    ],
    [
      "a half-hour mean whose peak may or may not pass the limit",
      { "demand.recordings[log].averagingMin": known(30), "demand.recordings[log].maximumA": known(50) },
      ["cannot-tell buildingStraddles demand.recordings", "cannot-tell managedStraddles demand.recordings"],
    ],
    [
      "a week in winter reached more than the month that is used",
      {
        "demand.recordings": [
          soundJob().demand.recordings[0],
          { ...soundJob().demand.recordings[0], id: "winter", maximumA: known(180), days: known(7) },
        ],
      },
      ["fail buildingAbove", "fail managedAbove"],
    ],
    [
      "no load manager, and it fits",
      { limiter: null, "demand.recordings[log].maximumA": known(68) },
      ["pass building", "pass all"],
    ],
    [
      "no load manager, and it does not",
      { limiter: null, "demand.recordings[log].maximumA": known(68.1) },
      ["pass building", "fail allAbove"],
    ],
    [
      "no load manager, and it may",
      {
        limiter: null,
        "demand.recordings[log].averagingMin": known(30),
        "demand.recordings[log].maximumA": known(40),
      },
      ["pass building", "cannot-tell allStraddles demand.recordings"],
    ],
    [
      "an import limit agreed with the operator goes before the fuse",
      { "supply.operator.agreedImportLimitA": known(24) },
      ["fail buildingAbove", "fail managedAbove"],
    ],
    [
      "fuse unknown",
      { "nodes[cut-out].overcurrent.ratingA": NOT_RECORDED },
      [
        "cannot-tell unknown nodes[cut-out].overcurrent.ratingA",
        "cannot-tell unknown nodes[cut-out].overcurrent.ratingA",
      ],
    ],
  ])("%s", (_what, changes, says) => expect(said(supplyCarriesDemand.id, changes)).toEqual(says));
});
