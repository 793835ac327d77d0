import { describe, expect, it } from "vitest";
import { blankTransformer } from "../../job/blank.ts";
import { known } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { transformerCoverage } from "./transformer-coverage.ts";

const UNSEEN = blankTransformer({ id: "ct1", cable: "cut-out-to-meter", conductor: "L1", channel: "L1" });

describe(transformerCoverage.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["before every split", {}, ["pass seesAll"]],
    [
      "after the car's own way",
      { "metering.currentTransformers[ct1].cable": "board-to-house" },
      ["fail misses"],
    ],
    ["on the neutral", { "metering.currentTransformers[ct1].conductor": "N" }, ["fail onNeutral"]],
    [
      "drawn there, and nothing known of it yet",
      { "metering.currentTransformers[ct1]": UNSEEN },
      ["cannot-tell notLookedAt metering.currentTransformers[ct1].ratedPrimaryA"],
    ],
    [
      "planned there, not fitted yet",
      {
        "metering.currentTransformers[ct1]": { ...UNSEEN, ratedPrimaryA: known(100) },
      },
      ["pass seesAll"],
    ],
    ["none", { "metering.currentTransformers": [] }, ["fail lineUnseen"]],
    ["undecided", { metering: null }, ["cannot-tell noMeter metering"]],
    ["no load manager", { limiter: null }, ["not-applicable none"]],
  ])("%s", (_what, changes, says) => expect(said(transformerCoverage.id, changes)).toEqual(says));
});
