import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { externalLoopImpedance } from "./external-loop-impedance.ts";

describe(externalLoopImpedance.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["below the usual value for TN-C-S", { "supply.measuredZeOhm": known(0.34) }, ["pass sound"]],
    ["on it", { "supply.measuredZeOhm": known(0.35) }, ["pass sound"]],
    [
      "above it: ask the operator what it declares",
      { "supply.measuredZeOhm": known(0.36) },
      ["cannot-tell aboveUsual contact-operator supply.declaredZeOhm"],
    ],
    [
      "above it but not above what the operator declared",
      { "supply.measuredZeOhm": known(0.36), "supply.declaredZeOhm": known(0.4) },
      ["pass sound"],
    ],
    [
      "above what the operator declared",
      { "supply.measuredZeOhm": known(0.41), "supply.declaredZeOhm": known(0.4) },
      ["fail aboveDeclared contact-operator"],
    ],
    [
      "TN-S allows 0.8",
      { "earthing.arrangement": known("TN-S"), "supply.measuredZeOhm": known(0.8) },
      ["pass sound"],
    ],
    [
      "so high that the earth itself is in doubt",
      { "supply.measuredZeOhm": known(2.1) },
      ["fail suspect stop"],
    ],
    ["not measured", { "supply.measuredZeOhm": NOT_RECORDED }, ["cannot-tell unknown supply.measuredZeOhm"]],
    [
      "declared only is no proof",
      { "supply.measuredZeOhm": NOT_RECORDED, "supply.declaredZeOhm": known(0.35) },
      ["cannot-tell unknown supply.measuredZeOhm"],
    ],
    [
      "arrangement unknown",
      { "earthing.arrangement": NOT_RECORDED },
      ["cannot-tell arrangementUnknown earthing.arrangement"],
    ],
    ["TT has none", { "earthing.arrangement": known("TT") }, ["not-applicable tt"]],
  ])("%s", (_what, changes, says) => expect(said(externalLoopImpedance.id, changes)).toEqual(says));
});
