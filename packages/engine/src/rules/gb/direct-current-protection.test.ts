import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { example } from "../../testing/examples.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { directCurrentProtection } from "./direct-current-protection.ts";

const residualOf = (type: "A" | "AC") => ({
  type: known(type),
  ratedResidualMa: known(30),
  isTimeDelayed: known(false),
  opensAllLiveConductors: known(true),
});

describe(directCurrentProtection.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["type A with detection", {}, ["pass withDetection"]],
    ["type A without", { "nodes[car].detectsDirectCurrent": known(false) }, ["fail noDetection"]],
    ["type F with detection", { "nodes[way].residual.type": known("F") }, ["pass withDetection"]],
    [
      "type B needs none",
      { "nodes[way].residual.type": known("B"), "nodes[car].detectsDirectCurrent": known(false) },
      ["pass typeB"],
    ],
    ["type AC of its own", { "nodes[way].residual.type": known("AC") }, ["fail typeAc"]],
    ["type AC ahead", { "nodes[board].residual": residualOf("AC") }, ["fail blindAhead"]],
    [
      "type B behind type A",
      { "nodes[way].residual.type": known("B"), "nodes[board].residual": residualOf("A") },
      ["fail typeBBehindOther"],
    ],
    ["type A behind type A, one point", { "nodes[board].residual": residualOf("A") }, ["pass withDetection"]],
    [
      "detection unknown",
      { "nodes[car].detectsDirectCurrent": NOT_RECORDED },
      ["cannot-tell unknown nodes[car].detectsDirectCurrent"],
    ],
    [
      "type unknown",
      { "nodes[way].residual.type": NOT_RECORDED },
      ["cannot-tell unknown nodes[way].residual.type"],
    ],
    ["none", { "nodes[way].residual": null }, ["fail none"]],
  ])("%s", (_what, changes, says) => expect(said(directCurrentProtection.id, changes)).toEqual(says));

  it("several points behind one type A are for a designer; behind a type B they are not", () => {
    const hall = example("village-hall").document;
    const behind = (type: "A" | "B") =>
      said(
        directCurrentProtection.id,
        { "nodes[car-board].residual": { ...residualOf("A"), type: known(type) } },
        {},
        hall,
      );
    const refer =
      "cannot-tell severalBehindOne refer decision: type of Charge point board ahead of several charge points";
    expect(behind("A")).toEqual([refer, refer]);
    expect(behind("B")).toEqual(["pass withDetection", "pass withDetection"]);
  });
});
