import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED, notApplicable } from "../../job/index.ts";
import { example } from "../../testing/examples.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { neutralConductor } from "./neutral-conductor.ts";

const tails = ["pass asLarge", "pass asLarge"];

describe(neutralConductor.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["as large as the lines", {}, [...tails, "pass asLarge"]],
    ["larger", { "cables[way-to-car].run.neutralMm2": known(10) }, [...tails, "pass asLarge"]],
    ["4 mm² beside 6", { "cables[way-to-car].run.neutralMm2": known(4) }, [...tails, "fail smaller"]],
    [
      "single-phase tails above 16 mm²",
      { "cables[meter-to-board].run.neutralMm2": known(16) },
      ["pass asLarge", "fail smaller", "pass asLarge"],
    ],
    [
      "neutral unknown",
      { "cables[way-to-car].run.neutralMm2": NOT_RECORDED },
      [...tails, "cannot-tell unknown cables[way-to-car].run.neutralMm2"],
    ],
    [
      "no neutral on a single phase",
      { "cables[way-to-car].run.neutralMm2": notApplicable("none") },
      [...tails, "cannot-tell unknown cables[way-to-car].run.neutralMm2"],
    ],
    ["nobody has looked", { "cables[way-to-car].run": "not-surveyed" }, tails],
  ])("%s", (_what, changes, says) => expect(said(neutralConductor.id, changes)).toEqual(says));

  it.each<[what: string, changes: Changes, says: string]>([
    [
      "16 mm² with a neutral of 10",
      { "run.lineMm2": known(16), "run.neutralMm2": known(10) },
      "fail smaller",
    ],
    [
      "25 mm² with a neutral of 16 is for a designer",
      { "run.lineMm2": known(25), "run.neutralMm2": known(16) },
      "cannot-tell reduced refer decision: whether the reduced neutral of Way A to Charge point A carries its current",
    ],
    ["no neutral", { "run.neutralMm2": notApplicable("none") }, "not-applicable noNeutral"],
  ])("three phases, %s", (_what, changes, says) => {
    const at = Object.fromEntries(
      Object.entries(changes).map(([path, value]) => [`cables[way-a-to-point-a].${path}`, value]),
    );
    expect(said(neutralConductor.id, at, {}, example("village-hall").document)[4]).toBe(says);
  });
});
