import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { surgeProtection } from "./surge-protection.ts";

describe(surgeProtection.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["fitted", {}, ["pass fitted"]],
    [
      "declined in writing",
      { "surge.isFitted": known(false), "surge.ownerDeclines": known(true) },
      ["pass declined"],
    ],
    [
      "declined where it matters",
      {
        "surge.isFitted": known(false),
        "surge.ownerDeclines": known(true),
        "surge.hasSeriousConsequence": known(true),
      },
      ["fail needed"],
    ],
    [
      "neither fitted nor declined",
      { "surge.isFitted": known(false), "surge.ownerDeclines": known(false) },
      ["fail notDeclined"],
    ],
    ["unknown", { "surge.isFitted": NOT_RECORDED }, ["cannot-tell unknown surge.isFitted"]],
    [
      "not fitted, the rest unknown",
      {
        "surge.isFitted": known(false),
        "surge.ownerDeclines": NOT_RECORDED,
        "surge.hasSeriousConsequence": NOT_RECORDED,
      },
      ["cannot-tell unknown surge.hasSeriousConsequence surge.ownerDeclines"],
    ],
  ])("%s", (_what, changes, says) => expect(said(surgeProtection.id, changes)).toEqual(says));
});
