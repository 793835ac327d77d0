import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { readingsAgree } from "./readings-agree.ts";

const [ze, r1r2, zs] = [
  "supply.measuredZeOhm",
  "tests.circuits[way].r1r2Ohm",
  "tests.circuits[way].zsOhm",
] as const;

describe(readingsAgree.id, () => {
  // Sound: Ze 0.2, R1 + R2 0.1, Zs 0.35. Least Zs: 0.9 · (0.2 + 0.1) − 0.05 = 0.22; of Ze alone 0.9 · 0.2 − 0.05 = 0.13.
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["a sum a little above Zs", { [r1r2]: known(0.2) }, ["pass agree"]],
    ["on the limit", { [zs]: known(0.22) }, ["pass agree"]],
    ["just below it", { [zs]: known(0.219) }, [`cannot-tell belowSum ${r1r2} ${zs}`]],
    ["R1 + R2 of 12 Ω beside a Zs of 0.35 Ω", { [r1r2]: known(12) }, [`cannot-tell belowSum ${r1r2} ${zs}`]],
    ["Zs below Ze", { [zs]: known(0.129) }, [`cannot-tell belowExternal ${ze} ${zs}`]],
    [
      "Zs below Ze, R1 + R2 not measured",
      { [zs]: known(0.1), [r1r2]: NOT_RECORDED },
      [`cannot-tell belowExternal ${ze} ${zs}`],
    ],
    ["R1 + R2 not measured", { [r1r2]: NOT_RECORDED }, [`cannot-tell unknown ${r1r2}`]],
    ["Zs not measured", { [zs]: NOT_RECORDED }, [`cannot-tell unknown ${zs}`]],
    ["Ze not measured", { [ze]: NOT_RECORDED }, [`cannot-tell unknown ${ze}`]],
    ["no tests at all", { "tests.circuits": [] }, [`cannot-tell unknown ${r1r2}`]],
    ["TT", { "earthing.arrangement": known("TT") }, ["not-applicable electrode"]],
    [
      "an electrode of its own",
      { "nodes[car].openPen.method": known("separate-electrode") },
      ["not-applicable electrode"],
    ],
  ])("%s", (_what, changes, says) => expect(said(readingsAgree.id, changes)).toEqual(says));
});
