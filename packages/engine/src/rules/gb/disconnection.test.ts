import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { disconnection } from "./disconnection.ts";

describe(disconnection.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["as designed and as measured", {}, ["pass designed", "pass measured"]],
    [
      "measured on the cold limit 0.8 · 1.3656",
      { "tests.circuits[way].zsOhm": known(1.0925) },
      ["pass designed", "pass measured"],
    ],
    [
      "a back-dated design keeps the voltage factor of the edition used",
      { "work.designedOn": known("2010-01-01"), "supply.measuredZeOhm": known(1.3) },
      ["fail designedHigh", "pass measured"],
    ],
    [
      "measured above it",
      { "tests.circuits[way].zsOhm": known(1.093) },
      ["pass designed", "cannot-tell measuredWarm tests.circuits[way].zsOhm"],
    ],
    [
      "measured on the limit",
      { "tests.circuits[way].zsOhm": known(1.365) },
      ["pass designed", "cannot-tell measuredWarm tests.circuits[way].zsOhm"],
    ],
    [
      "measured above the limit",
      { "tests.circuits[way].zsOhm": known(1.366) },
      ["pass designed", "fail measuredHigh"],
    ],
    [
      "a type D breaker wants a quarter",
      { "nodes[way].overcurrent.curve": known("D"), "supply.measuredZeOhm": known(0.3) },
      ["fail designedHigh", "fail measuredHigh"],
    ],
    [
      "Ze declared only",
      { "supply.measuredZeOhm": NOT_RECORDED, "supply.declaredZeOhm": known(0.35) },
      ["pass designed", "pass measured"],
    ],
    [
      "Ze unknown",
      { "supply.measuredZeOhm": NOT_RECORDED },
      ["cannot-tell designUnknown supply.measuredZeOhm", "pass measured"],
    ],
    [
      "not measured",
      { "tests.circuits[way].zsOhm": NOT_RECORDED },
      ["pass designed", "cannot-tell noReading tests.circuits[way].zsOhm"],
    ],
    [
      "no tests at all",
      { "tests.circuits": [] },
      ["pass designed", "cannot-tell noReading tests.circuits[way].zsOhm"],
    ],
    ["TT", { "earthing.arrangement": known("TT") }, ["not-applicable electrode"]],
    [
      "arrangement unknown",
      { "earthing.arrangement": NOT_RECORDED },
      ["cannot-tell arrangementUnknown earthing.arrangement"],
    ],
  ])("%s", (_what, changes, says) => expect(said(disconnection.id, changes)).toEqual(says));
});
