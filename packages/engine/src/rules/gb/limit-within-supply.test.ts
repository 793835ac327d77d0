import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { limitWithinSupply } from "./limit-within-supply.ts";

describe(limitWithinSupply.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["97 A: 100 less 3 %", { "limiter.limitA": known(97) }, ["pass within"]],
    ["97.1 A", { "limiter.limitA": known(97.1) }, ["fail above"]],
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
