import { describe, expect, it } from "vitest";
import { blankMetering, blankTransformer } from "../job/blank.ts";
import { opened, type SketchRow, sketchJob } from "../testing/sketch.ts";
import { transformerView } from "./transformer-view.ts";

function viewOn(
  phases: 1 | 3,
  rows: readonly SketchRow[],
  cable: string,
  conductor: "L1" | "L2" | "L3" | "N",
) {
  const job = {
    ...sketchJob(phases, rows),
    metering: {
      ...blankMetering(),
      currentTransformers: [blankTransformer({ id: "ct", cable, conductor, channel: "L1" })],
    },
  };
  const { tree, job: located } = opened(job);
  const transformer = located.metering?.currentTransformers[0];
  if (!transformer) throw new Error("no transformer");
  const { sees, misses, seesAll } = transformerView(tree, transformer);
  return { sees: sees.map((end) => end.id), misses: misses.map((end) => end.id), seesAll };
}

describe("transformerView", () => {
  const split: readonly SketchRow[] = [
    ["cut-out", "meter", "meter"],
    ["meter", "connector-block", "block"],
    ["block", "board", "house"],
    ["house", "load", "shower"],
    ["block", "charge-point", "car"],
  ];
  it("before the split it sees all that the fuse carries", () => {
    expect(viewOn(1, split, "to-meter", "L1")).toEqual({
      sees: ["shower", "car"],
      misses: [],
      seesAll: true,
    });
  });
  it("after the split it misses the other leg", () => {
    expect(viewOn(1, split, "to-house", "L1")).toEqual({ sees: ["shower"], misses: ["car"], seesAll: false });
    expect(viewOn(1, split, "to-car", "L1")).toEqual({ sees: ["car"], misses: ["shower"], seesAll: false });
  });
  it("on the neutral of a single-phase cable it sees the same loads, but not as a line", () => {
    expect(viewOn(1, split, "to-meter", "N")).toEqual({
      sees: ["shower", "car"],
      misses: [],
      seesAll: false,
    });
  });
  it("judges its own line only", () => {
    const hall: readonly SketchRow[] = [
      ["cut-out", "board", "board"],
      ["board", "load", "heater"],
      ["board", "load", "lights", ["L2"]],
    ];
    expect(viewOn(3, hall, "to-board", "L1")).toEqual({ sees: ["heater"], misses: [], seesAll: true });
    expect(viewOn(3, hall, "to-lights", "L2")).toEqual({
      sees: ["lights"],
      misses: ["heater"],
      seesAll: false,
    });
    expect(viewOn(3, hall, "to-board", "N")).toEqual({
      sees: ["heater", "lights"],
      misses: [],
      seesAll: false,
    });
  });
});
