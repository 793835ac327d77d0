import { describe, expect, it } from "vitest";
import { type Changes, said } from "../../testing/findings.ts";
import { transformerCoverage } from "./transformer-coverage.ts";

describe(transformerCoverage.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["before every split", {}, ["pass seesAll"]],
    [
      "after the car's own way",
      { "metering.currentTransformers[ct1].cable": "board-to-house" },
      ["fail misses"],
    ],
    ["on the neutral", { "metering.currentTransformers[ct1].conductor": "N" }, ["fail onNeutral"]],
    ["none", { "metering.currentTransformers": [] }, ["fail lineUnseen"]],
    ["undecided", { metering: null }, ["cannot-tell noMeter metering"]],
    ["no load manager", { limiter: null }, ["not-applicable none"]],
  ])("%s", (_what, changes, says) => expect(said(transformerCoverage.id, changes)).toEqual(says));
});
