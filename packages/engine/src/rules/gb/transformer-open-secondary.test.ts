import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { transformerOpenSecondary } from "./transformer-open-secondary.ts";

const OUTPUT = "metering.currentTransformers[ct1].output";
const END = "metering.currentTransformers[ct1].secondaryEnd";

describe(transformerOpenSecondary.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["5 A, at the meter", { [END]: known("meter") }, ["pass atMeter"]],
    ["1 A, shorted", { [OUTPUT]: known("1-A"), [END]: known("shorted") }, ["pass shorted"]],
    ["5 A, open", { [END]: known("open") }, ["fail open stop"]],
    ["milliamperes, open", { [OUTPUT]: known("milliampere"), [END]: known("open") }, ["fail open stop"]],
    ["volts, whatever its end", { [OUTPUT]: known("voltage"), [END]: known("open") }, ["pass safe"]],
    ["5 A, not looked at", { [END]: NOT_RECORDED }, [`cannot-tell unknown ${END}`]],
    [
      "milliamperes, not looked at",
      { [OUTPUT]: known("milliampere"), [END]: NOT_RECORDED },
      [`cannot-tell unknown ${END}`],
    ],
    ["an output nobody read", { [OUTPUT]: NOT_RECORDED }, [`cannot-tell outputUnknown ${OUTPUT}`]],
    [
      "an output nobody read, seen open",
      { [OUTPUT]: NOT_RECORDED, [END]: known("open") },
      ["fail open stop"],
    ],
    [
      "an output nobody read, at the meter",
      { [OUTPUT]: NOT_RECORDED, [END]: known("meter") },
      [`cannot-tell outputUnknown ${OUTPUT}`],
    ],
    ["none planned", { metering: null }, ["not-applicable none"]],
  ])("%s", (_what, changes, says) => expect(said(transformerOpenSecondary.id, changes)).toEqual(says));
});
