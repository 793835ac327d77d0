import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED, notApplicable } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { transformerClassAsInstalled } from "./transformer-class-as-installed.ts";

const at = (field: string) => `metering.currentTransformers[ct1].${field}`;
const volts = { [at("output")]: known("voltage") };

describe(transformerClassAsInstalled.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["5 A, nothing said", {}, ["not-applicable ownByKind"]],
    ["volts, nothing said", volts, [`cannot-tell unknown ${at("classOwner")}`]],
    ["output not known", { [at("output")]: NOT_RECORDED }, [`cannot-tell unknown ${at("classOwner")}`]],
    ["its own", { ...volts, [at("classOwner")]: known("transformer") }, ["pass own"]],
    ["a set as tested", { ...volts, [at("classOwner")]: known("set-as-tested") }, ["pass asTested"]],
    [
      "a set, exchanged",
      { ...volts, [at("classOwner")]: known("set-exchanged") },
      ["fail exchanged caution"],
    ],
    ["5 A of a set, exchanged", { [at("classOwner")]: known("set-exchanged") }, ["fail exchanged caution"]],
    ["no class recorded", { ...volts, [at("accuracyClass")]: NOT_RECORDED }, ["not-applicable noClass"]],
    [
      "no class at all",
      { ...volts, [at("accuracyClass")]: notApplicable("none declared") },
      ["not-applicable noClass"],
    ],
    ["none planned", { metering: null }, ["not-applicable none"]],
  ])("%s", (_what, changes, says) => expect(said(transformerClassAsInstalled.id, changes)).toEqual(says));
});
