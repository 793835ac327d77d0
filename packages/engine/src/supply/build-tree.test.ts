import { describe, expect, it } from "vitest";
import { blankCircuitTest } from "../job/blank.ts";
import type { Job } from "../job/index.ts";
import { type SketchRow, sketchJob } from "../testing/sketch.ts";
import { openDocument } from "./open-job.ts";

const rows: readonly SketchRow[] = [
  ["cut-out", "meter", "meter"],
  ["meter", "board", "board"],
  ["board", "load", "shower"],
];

function problemsWhen(change: (job: Job) => Job, phases: 1 | 3 = 1) {
  const result = openDocument(change(sketchJob(phases, rows)));
  return result.ok ? [] : result.problems.map(({ code, path, received }) => [code, path, received]);
}
const withCables = (change: (cables: Job["cables"]) => Job["cables"]) => (job: Job) => ({
  ...job,
  cables: change(job.cables),
});
const withCable = (id: string, patch: Partial<Job["cables"][number]>) =>
  withCables((cables) => cables.map((cable) => (cable.id === id ? { ...cable, ...patch } : cable)));

describe("buildTree", () => {
  it("accepts a sound tree", () => expect(problemsWhen((job) => job)).toEqual([]));

  it.each<[what: string, change: (job: Job) => Job, problems: string[][]]>([
    [
      "two nodes with one id",
      (job) => ({ ...job, nodes: [...job.nodes, job.nodes[4] as Job["nodes"][number]] }),
      [["TREE_DUPLICATE_ID", "nodes[shower]", '"shower"']],
    ],
    [
      "two cables with one id",
      withCable("to-shower", { id: "to-board" }),
      [["TREE_DUPLICATE_ID", "cables[to-board]", '"to-board"']],
    ],
    [
      "a cable to nowhere",
      withCable("to-shower", { to: "bath" }),
      [["TREE_UNKNOWN_NODE", "cables[to-shower].to", '"bath"']],
    ],
    [
      "a node fed twice",
      withCables((cables) => [
        ...cables,
        { id: "again", from: "meter", to: "shower", lines: ["L1"], run: "busbar" },
      ]),
      [["TREE_TWO_FEEDS", "cables[again].to", '"shower"']],
    ],
    [
      "a circle",
      withCable("to-meter", { from: "board" }),
      [
        ["TREE_CIRCULAR", "nodes[meter]", "board → meter"],
        ["TREE_CIRCULAR", "nodes[board]", "meter → board"],
        ["TREE_CIRCULAR", "nodes[shower]", "meter → board"],
      ],
    ],
    [
      "a node nothing feeds",
      withCables((cables) => cables.filter((cable) => cable.to !== "shower")),
      [["TREE_ORPHAN", "nodes[shower]", '"shower"']],
    ],
    [
      "something fed from a load",
      (job) => ({
        ...job,
        cables: [
          ...job.cables.filter((cable) => cable.to !== "shower"),
          { id: "x", from: "shower", to: "board", lines: ["L1"], run: "busbar" },
        ],
      }),
      [
        ["TREE_TWO_FEEDS", "cables[x].to", '"board"'],
        ["TREE_NOT_ALLOWED_HERE", "cables[x].from", '"shower"'],
      ],
    ],
    [
      "no origin",
      (job) => ({
        ...job,
        nodes: job.nodes.filter((node) => node.kind !== "origin"),
        cables: job.cables.filter((cable) => cable.from !== "origin"),
      }),
      [["TREE_NO_ORIGIN", "nodes", '0 of kind "origin"']],
    ],
    [
      "a board before the cut-out",
      withCable("to-meter", { from: "origin" }),
      [
        ["TREE_NOT_ALLOWED_HERE", "cables[to-cut-out].from", '"origin"'],
        ["TREE_NOT_ALLOWED_HERE", "cables[to-meter].from", '"origin"'],
      ],
    ],
    [
      "a line that is not there",
      withCable("to-shower", { lines: ["L2"] }),
      [["TREE_LINE_NOT_FED", "cables[to-shower].lines", "L2"]],
    ],
    [
      "too few lines at the service",
      (job) => ({
        ...withCable("to-cut-out", { lines: ["L1"] })({ ...job, supply: { ...job.supply, phases: 3 } }),
      }),
      [["TREE_LINE_NOT_FED", "cables[to-cut-out].lines", "L1"]],
    ],
    [
      "a transformer on a cable that is not there",
      (job) => ({
        ...job,
        metering: {
          currentTransformers: [{ id: "ct1", cable: "tail", conductor: "L1", channel: "L1" } as never],
        } as never,
      }),
      [["TREE_UNKNOWN_CABLE", "metering.currentTransformers[ct1].cable", '"tail"']],
    ],
    [
      "a recording that leaves out something that is no load",
      (job) => ({
        ...job,
        demand: { recordings: [{ id: "log", kind: "recorded-maximum", doesNotInclude: ["board"] } as never] },
      }),
      [["TREE_UNKNOWN_NODE", "demand.recordings[log].doesNotInclude", '"board"']],
    ],
    [
      "a car that is plugged into something else",
      (job) => ({ ...job, cars: [{ id: "small-car", chargePoint: "board" } as never] }),
      [["TREE_UNKNOWN_NODE", "cars[small-car].chargePoint", '"board"']],
    ],
    [
      "two cars of one name",
      (job) => ({
        ...job,
        cars: ["shower", "shower"].map((id) => ({ id, chargePoint: "nowhere" }) as never),
      }),
      [
        ["TREE_DUPLICATE_ID", "cars[shower]", '"shower"'],
        ["TREE_UNKNOWN_NODE", "cars[shower].chargePoint", '"nowhere"'],
        ["TREE_UNKNOWN_NODE", "cars[shower].chargePoint", '"nowhere"'],
      ],
    ],
    [
      "test results of something without an overcurrent device",
      (job) => ({ ...job, tests: { ...job.tests, circuits: [blankCircuitTest("board")] } }),
      [["TREE_UNKNOWN_NODE", "tests.circuits[board].way", '"board"']],
    ],
  ])("refuses %s with path and value", (_what, change, problems) => {
    expect(problemsWhen(change)).toEqual(problems);
  });

  it("takes test results of any node whose overcurrent device protects a circuit", () => {
    const job = sketchJob(1, rows);
    const tested = { ...job, tests: { ...job.tests, circuits: [blankCircuitTest("cut-out")] } };
    expect(openDocument(tested).ok).toBe(true);
  });

  it("says how to mend each", () => {
    const result = openDocument(withCable("to-shower", { lines: ["L2"] })(sketchJob(1, rows)));
    expect(result.ok ? [] : result.problems.map((problem) => problem.message)).toEqual([
      'L2 does not reach "board", which has L1. Correct the lines here or on "to-board".',
    ]);
  });

  it("walks a chain of ten thousand nodes", () => {
    const chain = Array.from(
      { length: 10_000 },
      (_, index): SketchRow => [index === 0 ? "cut-out" : `n${index - 1}`, "board", `n${index}`],
    );
    const result = openDocument(sketchJob(1, chain));
    expect(result.ok && result.tree.pathTo("n9999")).toHaveLength(10_001);
  });
});
