import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { transformerBurden } from "./transformer-burden.ts";

const at = (field: string) => `metering.currentTransformers[ct1].${field}`;

describe(transformerBurden.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["2 m of 1.5 mm², 5 VA", {}, ["pass within"]],
    ["a long lead", { [at("leadLengthM")]: known(6) }, ["fail over"]],
    [
      "a lead that only a thicker one can replace",
      {
        [at("leadLengthM")]: known(20),
        [at("ratedBurdenVa")]: known(30),
        [at("leadMm2")]: known(0.75),
        "metering.meterBurdenVa": known(10),
      },
      ["fail over"],
    ],
    [
      "nothing would do",
      { [at("leadLengthM")]: known(2), "metering.meterBurdenVa": known(6) },
      ["fail over"],
    ],
    [
      "the lead alone is too much, the meter unknown",
      { [at("leadLengthM")]: known(30), "metering.meterBurdenVa": NOT_RECORDED },
      ["fail leadAlone"],
    ],
    ["hardly any burden", { [at("ratedBurdenVa")]: known(15) }, ["pass light caution"]],
    [
      "meter's burden unknown",
      { "metering.meterBurdenVa": NOT_RECORDED },
      ["cannot-tell unknown metering.meterBurdenVa"],
    ],
    ["voltage output", { [at("output")]: known("voltage") }, ["not-applicable ownOutput"]],
    ["none planned", { metering: null }, ["not-applicable none"]],
  ])("%s", (_what, changes, says) => expect(said(transformerBurden.id, changes)).toEqual(says));
});
