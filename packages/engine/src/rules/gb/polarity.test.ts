import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { polarity } from "./polarity.ts";

const at = "tests.circuits[way].polarityIsRight";

describe(polarity.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["confirmed", { [at]: known(true) }, ["pass right"]],
    ["wrong", { [at]: known(false) }, ["fail wrong stop"]],
    ["not recorded", { [at]: NOT_RECORDED }, [`cannot-tell unknown ${at}`]],
    ["no tests at all", { "tests.circuits": [] }, [`cannot-tell unknown ${at}`]],
  ])("%s", (_what, changes, says) => expect(said(polarity.id, changes)).toEqual(says));
});
