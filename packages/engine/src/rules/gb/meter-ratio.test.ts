import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { meterRatio } from "./meter-ratio.ts";

const at = (field: string) => `metering.currentTransformers[ct1].${field}`;

describe(meterRatio.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["20 set for 100/5", {}, ["pass right"]],
    [
      "rounded: 33.3 for 166.5/5",
      { [at("ratedPrimaryA")]: known(166.6), "metering.ratioSetting": known(33.3) },
      ["pass right"],
    ],
    ["the rated primary typed as ratio", { "metering.ratioSetting": known(100) }, ["fail wrong"]],
    ["left at 1", { "metering.ratioSetting": known(1) }, ["fail wrong"]],
    ["right for one turn, passed through three times", { [at("primaryTurns")]: known(3) }, ["fail wrong"]],
    [
      "not read back",
      { "metering.ratioSetting": NOT_RECORDED },
      ["cannot-tell unknown metering.ratioSetting"],
    ],
    [
      "plate not read",
      { [at("ratedPrimaryA")]: NOT_RECORDED },
      [`cannot-tell ratioUnknown ${at("ratedPrimaryA")}`],
    ],
    ["voltage output", { [at("output")]: known("voltage") }, ["not-applicable notByRatio"]],
    ["none planned", { metering: null }, ["not-applicable none"]],
  ])("%s", (_what, changes, says) => expect(said(meterRatio.id, changes)).toEqual(says));
});
