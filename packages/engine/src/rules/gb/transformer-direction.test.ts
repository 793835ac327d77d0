import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { transformerDirection } from "./transformer-direction.ts";

describe(transformerDirection.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["towards the load", {}, ["pass right"]],
    [
      "towards the supply",
      { "metering.currentTransformers[ct1].arrow": known("towards-supply") },
      ["fail reversed"],
    ],
    [
      "on one line, wired to the channel of another",
      { "metering.currentTransformers[ct1].channel": "L2" },
      ["fail crossed"],
    ],
    [
      "not looked at",
      { "metering.currentTransformers[ct1].arrow": NOT_RECORDED },
      ["cannot-tell unknown metering.currentTransformers[ct1].arrow"],
    ],
    ["none planned", { metering: null }, ["not-applicable none"]],
  ])("%s", (_what, changes, says) => expect(said(transformerDirection.id, changes)).toEqual(says));
});
