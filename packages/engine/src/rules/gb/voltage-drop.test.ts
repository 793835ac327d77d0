import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { voltageDrop } from "./voltage-drop.ts";

describe(voltageDrop.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["15 m", {}, ["pass within"]],
    ["50 m is just within", { "cables[way-to-car].run.lengthM": known(50) }, ["pass within"]],
    ["60 m is not", { "cables[way-to-car].run.lengthM": known(60) }, ["fail above"]],
    [
      "length unknown",
      { "cables[way-to-car].run.lengthM": NOT_RECORDED },
      ["cannot-tell unknown cables[way-to-car].run.lengthM"],
    ],
    [
      "a cable on the way nobody has looked at",
      { "cables[meter-to-board].run": "not-surveyed" },
      ["cannot-tell unknown cables[meter-to-board].run"],
    ],
  ])("%s", (_what, changes, says) => expect(said(voltageDrop.id, changes)).toEqual(says));
});
