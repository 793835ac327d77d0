import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { supplyVoltage } from "./supply-voltage.ts";

describe(supplyVoltage.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["lowest allowed", { "supply.measuredVoltageV.L1": known(216.2) }, ["pass within"]],
    ["highest allowed", { "supply.measuredVoltageV.L1": known(253) }, ["pass within"]],
    ["too low", { "supply.measuredVoltageV.L1": known(216.1) }, ["fail low contact-operator"]],
    ["too high", { "supply.measuredVoltageV.L1": known(253.1) }, ["fail high contact-operator"]],
    [
      "not measured",
      { "supply.measuredVoltageV.L1": NOT_RECORDED },
      ["cannot-tell unknown supply.measuredVoltageV.L1"],
    ],
  ])("%s", (_what, changes, says) => expect(said(supplyVoltage.id, changes)).toEqual(says));
});
