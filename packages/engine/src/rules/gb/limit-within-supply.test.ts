import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { limitWithinSupply } from "./limit-within-supply.ts";

describe(limitWithinSupply.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["96 A: 100 less the chain's 1 + 2 + 1 %", { "limiter.limitA": known(96) }, ["pass within"]],
    ["96.1 A", { "limiter.limitA": known(96.1) }, ["fail above"]],
    [
      "97 A: 100 less 3 % while the meter's class is unknown",
      { "limiter.limitA": known(97), "metering.meterClass": NOT_RECORDED },
      ["pass within"],
    ],
    ["a margin of one's own", { "limiter.limitA": known(97), "limiter.marginA": known(5) }, ["fail above"]],
    [
      "on a small fuse the margin is at least an ampere",
      { "nodes[cut-out].overcurrent.ratingA": known(20), "limiter.limitA": known(19) },
      ["pass within"],
    ],
    [
      "an agreed import limit goes before the fuse",
      { "supply.operator.agreedImportLimitA": known(60) },
      ["fail above"],
    ],
    ["not set yet", { "limiter.limitA": NOT_RECORDED }, ["cannot-tell unknown limiter.limitA"]],
    [
      "fuse not known",
      { "nodes[cut-out].overcurrent.ratingA": NOT_RECORDED },
      ["cannot-tell supplyUnknown nodes[cut-out].overcurrent.ratingA"],
    ],
    ["no load manager", { limiter: null }, ["not-applicable none"]],
  ])("%s", (_what, changes, says) => expect(said(limitWithinSupply.id, changes)).toEqual(says));
});
