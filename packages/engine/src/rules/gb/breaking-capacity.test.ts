import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { breakingCapacity } from "./breaking-capacity.ts";

const strongFuse = { "nodes[cut-out].overcurrent.breakingCapacityKa": known(33) };

describe(breakingCapacity.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["1.2 kA against 6 kA", {}, ["pass breaks"]],
    ["on the limit", { "supply.measuredFaultCurrentKa": known(6) }, ["pass breaks"]],
    [
      "above it, the operator declares 16 kA, a house",
      { "supply.declaredFaultCurrentKa": known(16) },
      ["pass conditional caution"],
    ],
    [
      "above it, the operator declares more",
      { ...strongFuse, "supply.declaredFaultCurrentKa": known(19.6) },
      ["cannot-tell refer refer figure: fault rating of Board behind the main fuse"],
    ],
    [
      "above it, 16 kA declared, but more was measured",
      {
        ...strongFuse,
        "supply.declaredFaultCurrentKa": known(16),
        "supply.measuredFaultCurrentKa": known(25),
      },
      ["cannot-tell refer refer figure: fault rating of Board behind the main fuse"],
    ],
    [
      "above it, a semi-enclosed cut-out fuse backs nothing",
      {
        "supply.declaredFaultCurrentKa": known(16),
        "nodes[cut-out].overcurrent.standard": known("bs-3036"),
      },
      ["fail tooLow"],
    ],
    [
      "above it, the cut-out fuse could not break it itself",
      {
        "supply.declaredFaultCurrentKa": known(16),
        "nodes[cut-out].overcurrent.breakingCapacityKa": known(15.9),
      },
      ["fail tooLow"],
    ],
    [
      "above it, the cut-out fuse has not been read",
      {
        "supply.declaredFaultCurrentKa": known(16),
        "nodes[cut-out].overcurrent.standard": NOT_RECORDED,
        "nodes[cut-out].overcurrent.ratingA": NOT_RECORDED,
      },
      ["cannot-tell backingUnknown nodes[cut-out].overcurrent.standard nodes[cut-out].overcurrent.ratingA"],
    ],
    [
      "above it, nothing declared",
      { "supply.measuredFaultCurrentKa": known(8) },
      ["cannot-tell undeclared supply.declaredFaultCurrentKa"],
    ],
    [
      "above it, not a house",
      { "supply.declaredFaultCurrentKa": known(16), "site.premises": known("shop-or-office") },
      ["fail tooLow"],
    ],
    [
      "above it, not a consumer unit",
      { "supply.declaredFaultCurrentKa": known(16), "nodes[board].form": known("distribution-board") },
      ["fail tooLow"],
    ],
    [
      "capacity unknown",
      { "nodes[way].overcurrent.breakingCapacityKa": NOT_RECORDED },
      ["cannot-tell unknown nodes[way].overcurrent.breakingCapacityKa"],
    ],
    [
      "fault current unknown",
      { "supply.measuredFaultCurrentKa": NOT_RECORDED },
      ["cannot-tell unknown supply.measuredFaultCurrentKa"],
    ],
  ])("%s", (_what, changes, says) => expect(said(breakingCapacity.id, changes)).toEqual(says));
});
