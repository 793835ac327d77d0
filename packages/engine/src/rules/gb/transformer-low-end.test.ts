import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { transformerLowEnd } from "./transformer-low-end.ts";

const at = (field: string) => `metering.currentTransformers[ct1].${field}`;

describe(transformerLowEnd.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["class 1, 100 A: from 5 A", {}, ["pass sees"]],
    ["class 1, 120 A: from 6 A exactly", { [at("ratedPrimaryA")]: known(120) }, ["pass sees"]],
    ["class 1, 150 A", { [at("ratedPrimaryA")]: known(150) }, ["pass blind caution"]],
    [
      "class 0.5S, 400 A: from 4 A",
      { [at("ratedPrimaryA")]: known(400), [at("accuracyClass")]: known("0.5S") },
      ["pass sees"],
    ],
    ["not read", { [at("accuracyClass")]: NOT_RECORDED }, [`cannot-tell unknown ${at("accuracyClass")}`]],
    ["none planned", { metering: null }, ["not-applicable none"]],
  ])("%s", (_what, changes, says) => expect(said(transformerLowEnd.id, changes)).toEqual(says));
});
