import { describe, expect, it } from "vitest";
import { blankNode } from "../../job/blank.ts";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { soundJob } from "../../testing/sound-job.ts";
import { dedicatedCircuit } from "./dedicated-circuit.ts";

const job = soundJob();
const lamp = blankNode("load", { id: "lamp", label: "Lamp", purpose: "lighting", ratedA: known(1) });
const withLamp = {
  nodes: [...job.nodes, lamp],
  cables: [...job.cables, { id: "way-to-lamp", from: "way", to: "lamp", lines: ["L1"], run: "not-surveyed" }],
};
const withoutWay = {
  nodes: job.nodes.filter(({ id }) => id !== "way"),
  cables: [
    ...job.cables.filter(({ id }) => !id.includes("way")),
    { id: "board-to-car", from: "board", to: "car", lines: ["L1"], run: "not-surveyed" },
  ],
  "tests.circuits": [],
};

describe(dedicatedCircuit.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["alone behind its way", {}, ["pass own"]],
    [
      "drawn alone, and nothing known of its device yet",
      { "nodes[way].overcurrent.ratingA": NOT_RECORDED },
      ["cannot-tell notLookedAt nodes[way].overcurrent.ratingA"],
    ],
    [
      "no charge point",
      {
        nodes: job.nodes.filter(({ id }) => id !== "car"),
        cables: job.cables.filter(({ to }) => to !== "car"),
        limiter: null,
      },
      ["cannot-tell noChargePoint nodes"],
    ],
    ["a lamp on the same way", withLamp, ["fail shared"]],
    ["straight from the board", withoutWay, ["fail unprotected"]],
  ])("%s", (_what, changes, says) => expect(said(dedicatedCircuit.id, changes)).toEqual(says));
});
