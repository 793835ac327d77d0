import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { insulationResistance } from "./insulation-resistance.ts";

describe(insulationResistance.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["1 MΩ", { "tests.circuits[way].insulationMohm": known(1) }, ["pass sound"]],
    ["0.99 MΩ", { "tests.circuits[way].insulationMohm": known(0.99) }, ["fail low"]],
    ["tested at 250 V", { "tests.circuits[way].insulationTestV": known(250) }, ["fail weakTest"]],
    [
      "not measured",
      { "tests.circuits[way].insulationMohm": NOT_RECORDED },
      ["cannot-tell unknown tests.circuits[way].insulationMohm"],
    ],
    [
      "test voltage unknown",
      { "tests.circuits[way].insulationTestV": NOT_RECORDED },
      ["cannot-tell unknown tests.circuits[way].insulationTestV"],
    ],
    ["no tests at all", { "tests.circuits": [] }, ["cannot-tell unknown tests.circuits[way].insulationMohm"]],
  ])("%s", (_what, changes, says) => expect(said(insulationResistance.id, changes)).toEqual(says));
});
