import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { transformerRating } from "./transformer-rating.ts";

const at = (field: string) => `metering.currentTransformers[ct1].${field}`;

describe(transformerRating.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["100 A behind a fuse of 100 A", {}, ["pass enough"]],
    ["exactly 1.2 times", { [at("ratedPrimaryA")]: known(100 / 1.2) }, ["pass enough"]],
    ["too small", { [at("ratedPrimaryA")]: known(80) }, ["fail small"]],
    ["large enough, but passed through twice", { [at("primaryTurns")]: known(2) }, ["fail small"]],
    ["not read", { [at("ratedPrimaryA")]: NOT_RECORDED }, [`cannot-tell unknown ${at("ratedPrimaryA")}`]],
    ["none planned", { metering: null }, ["not-applicable none"]],
  ])("%s", (_what, changes, says) => expect(said(transformerRating.id, changes)).toEqual(says));
});
