import { describe, expect, it } from "vitest";
import { blankNode } from "../../job/blank.ts";
import { known, NOT_RECORDED, notApplicable } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { describedRun } from "../../testing/run.ts";
import { soundJob } from "../../testing/sound-job.ts";
import { protectiveConductor } from "./protective-conductor.ts";

const fuse = {
  overcurrent: {
    standard: known("bs-88-3"),
    curve: notApplicable("a fuse"),
    ratingA: known(32),
    breakingCapacityKa: known(16),
  },
};
const tails = ["pass byTable", "pass byTable"];

describe(protectiveConductor.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["as large as the line", {}, [...tails, "pass byTable"]],
    [
      "2.5 mm² beside 6, a 6 kA breaker lets 45 000 A²s through",
      {
        "cables[way-to-car].run.protective.mm2": known(2.5),
        "cables[way-to-car].run.protective.form": known("core"),
      },
      [...tails, "pass adiabatic"],
    ],
    [
      "1.5 mm² in the cable asks for 1.84",
      {
        "cables[way-to-car].run.protective.mm2": known(1.5),
        "cables[way-to-car].run.protective.form": known("core"),
      },
      [...tails, "fail tooSmall"],
    ],
    [
      "armour is judged by its area",
      {
        "cables[way-to-car].run.protective.form": known("armour"),
        "cables[way-to-car].run.protective.mm2": known(22),
      },
      [...tails, "pass adiabatic"],
    ],
    [
      "a fuse has no printed energy: current and time decide",
      {
        "nodes[way].overcurrent.standard": known("bs-88-3"),
        "nodes[way].overcurrent.curve": notApplicable("a fuse"),
        "cables[way-to-car].run.protective.mm2": known(2.5),
      },
      [...tails, "pass adiabatic"],
    ],
    [
      "a breaker whose energy is not held: a fault close to it lets through more than one at the end",
      {
        "nodes[way].overcurrent.curve": known("C"),
        "nodes[way].overcurrent.breakingCapacityKa": known(10),
        "cables[way-to-car].run.protective.form": known("core"),
        "cables[way-to-car].run.protective.mm2": known(2.5),
      },
      [
        ...tails,
        "cannot-tell unknown figure: greatest energy the breaker lets through for overcurrent device standard bs-en-61009, circuit-breaker type C, overcurrent device rating 32 A, breaking capacity 10 kA",
      ],
    ],
    [
      "tails without one: the earthing conductor serves",
      { "cables[meter-to-board].run.protective.form": known("none") },
      [...tails, "pass byTable"],
    ],
    [
      "tails with a thin one behind the main fuse",
      { "cables[meter-to-board].run.protective.mm2": known(4) },
      ["pass byTable", "fail tooSmall", "pass byTable"],
    ],
    ["none", { "cables[way-to-car].run.protective.form": known("none") }, [...tails, "fail absent"]],
    [
      "form unknown",
      { "cables[way-to-car].run.protective.form": NOT_RECORDED },
      [...tails, "cannot-tell unknown cables[way-to-car].run.protective.form"],
    ],
    [
      "size unknown",
      { "cables[way-to-car].run.protective.mm2": NOT_RECORDED },
      [...tails, "cannot-tell unknown cables[way-to-car].run.protective.mm2"],
    ],
    [
      "nobody has looked",
      { "cables[way-to-car].run": "not-surveyed" },
      [...tails, "cannot-tell notSurveyed cables[way-to-car].run"],
    ],
  ])("%s", (_what, changes, says) => expect(said(protectiveConductor.id, changes)).toEqual(says));

  it("the feeder of a second board is judged behind its own device", () => {
    const job = soundJob();
    const cables = job.cables.flatMap((cable) =>
      cable.to === "way"
        ? [
            { ...cable, id: "to-feeder", to: "feeder" },
            { ...cable, id: "to-shed", from: "feeder", to: "shed", run: describedRun() },
            { ...cable, from: "shed" },
          ]
        : [cable],
    );
    const way = job.nodes.find(({ id }) => id === "way");
    const nodes = [
      ...job.nodes,
      { ...(way as Extract<typeof way, { kind: "way" }>), id: "feeder", label: "Feeder" },
      blankNode("board", { id: "shed", label: "Shed", residual: null }),
    ];
    const fed = { ...job, nodes, cables };
    const says = (changes: Changes) => said(protectiveConductor.id, changes, {}, fed)[2];
    expect(says({})).toBe("pass adiabatic");
    expect(says({ "cables[to-shed].run.protective.mm2": known(1) })).toBe("fail tooSmall");
    expect(says({ "cables[to-shed].run.protective.form": known("none") })).toBe("fail absent");
  });
  it("behind a fuse the farthest of the circuits through a cable decides", () => {
    const job = soundJob();
    const far = (lengthM: number) => ({
      ...job,
      nodes: [
        ...job.nodes.map((node) => (node.id === "way" ? { ...node, ...fuse } : node)),
        { ...(job.nodes.find(({ id }) => id === "car") as object), id: "far", label: "Far" },
        blankNode("connector-block", { id: "block", label: "Block" }),
      ] as typeof job.nodes,
      cables: job.cables.flatMap((cable) =>
        cable.id === "way-to-car"
          ? [
              { ...cable, to: "block", run: describedRun({ lengthM: known(1) }) },
              { ...cable, id: "block-to-car", from: "block", run: describedRun({ lengthM: known(1) }) },
              {
                ...cable,
                id: "block-to-far",
                from: "block",
                to: "far",
                run: describedRun({ lengthM: known(lengthM) }),
              },
            ]
          : [cable],
      ),
    });
    const says = (lengthM: number) => said(protectiveConductor.id, {}, {}, far(lengthM))[2];
    expect(says(1)).toBe("pass adiabatic");
    expect(says(95)).toBe("fail tooSmall");
  });
});
