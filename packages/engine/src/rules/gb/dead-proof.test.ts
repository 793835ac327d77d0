import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { deadProof } from "./dead-proof.ts";

describe(deadProof.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["in order, every pair", {}, ["pass proved"]],
    [
      "the tester proved only afterwards",
      { "tests.deadProofs[0].testerProvedAt": known("2026-11-16T09:03") },
      ["fail order"],
    ],
    [
      "never proved again before the test",
      { "tests.deadProofs[0].testerReprovedAt": known("2026-11-16T09:01") },
      ["fail order"],
    ],
    ["a pair left out", { "tests.deadProofs[0].pairs": ["L1-N", "L1-E"] }, ["fail pairs"]],
    [
      "time unknown",
      { "tests.deadProofs[0].testedDeadAt": NOT_RECORDED },
      ["cannot-tell unknown tests.deadProofs[0].testedDeadAt"],
    ],
    ["none", { "tests.deadProofs": [] }, ["cannot-tell none tests.deadProofs"]],
  ])("%s", (_what, changes, says) => expect(said(deadProof.id, changes)).toEqual(says));
});
