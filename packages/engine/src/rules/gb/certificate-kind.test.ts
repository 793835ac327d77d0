import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { certificateKind } from "./certificate-kind.ts";

describe(certificateKind.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["installation certificate for a new circuit", {}, ["pass right"]],
    ["minor works for a new circuit", { "work.certificate": known("minor-works") }, ["fail minorWrong"]],
    [
      "minor works without one",
      { "work.certificate": known("minor-works"), "work.addsCircuit": known(false) },
      ["pass minorRight"],
    ],
    ["unknown", { "work.certificate": NOT_RECORDED }, ["cannot-tell unknown work.certificate"]],
    [
      "new circuit or not is unknown",
      { "work.addsCircuit": NOT_RECORDED },
      ["cannot-tell unknown work.addsCircuit"],
    ],
  ])("%s", (_what, changes, says) => expect(said(certificateKind.id, changes)).toEqual(says));
});
