import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { LINES, type Line } from "../quantities/index.ts";
import { opened, type SketchRow, sketchJob } from "../testing/sketch.ts";
import { isEnd } from "./tree.ts";

/** A split before the consumer unit: the charge point hangs on its own leg of the connector block. */
const split: readonly SketchRow[] = [
  ["cut-out", "meter", "meter"],
  ["meter", "connector-block", "block"],
  ["block", "board", "house"],
  ["house", "load", "shower"],
  ["house", "load", "cooker"],
  ["block", "board", "garage"],
  ["garage", "charge-point", "car"],
];

describe("SupplyTree", () => {
  const { tree } = opened(sketchJob(1, split));

  it("answers what is upstream, supply side first", () => {
    expect(tree.nodesTo("car").map((node) => node.id)).toEqual([
      "origin",
      "cut-out",
      "meter",
      "block",
      "garage",
      "car",
    ]);
    expect(tree.pathTo("car").map((cable) => cable.id)).toEqual([
      "to-cut-out",
      "to-meter",
      "to-block",
      "to-garage",
      "to-car",
    ]);
    expect(tree.pathTo("origin")).toEqual([]);
  });

  it("answers what is downstream, in reading order", () => {
    expect(tree.nodesBelow("block").map((node) => node.id)).toEqual([
      "block",
      "house",
      "shower",
      "cooker",
      "garage",
      "car",
    ]);
    expect(tree.nodesBelow("car").map((node) => node.id)).toEqual(["car"]);
  });

  it("answers whose current passes a cable", () => {
    const carried = (id: string, line: Line) => tree.endsCarried(tree.cable(id), line).map((end) => end.id);
    expect(carried("to-meter", "L1")).toEqual(["shower", "cooker", "car"]);
    expect(carried("to-house", "L1")).toEqual(["shower", "cooker"]);
    expect(carried("to-garage", "L1")).toEqual(["car"]);
    expect(carried("to-meter", "L2")).toEqual([]);
  });

  it("refuses an id that is not there", () => {
    expect(() => tree.node("loft")).toThrow(expect.objectContaining({ code: "NOT_IN_TREE" }));
    expect(() => tree.cable("loft")).toThrow(expect.objectContaining({ code: "NOT_IN_TREE" }));
  });

  it("keeps lines apart on three phases", () => {
    const { tree: hall } = opened(
      sketchJob(3, [
        ["cut-out", "board", "board"],
        ["board", "load", "heater"],
        ["board", "load", "lights", ["L2"]],
        ["board", "charge-point", "car", ["L3"]],
      ]),
    );
    const carried = (line: Line) => hall.endsCarried(hall.serviceCable, line).map((end) => end.id);
    expect(LINES.map(carried)).toEqual([["heater"], ["heater", "lights"], ["heater", "car"]]);
    expect(hall.linesAt("lights")).toEqual(["L2"]);
  });

  it("agrees with a plain recursive walk on any tree", () => {
    const shape = fc.array(
      fc.tuple(
        fc.nat(),
        fc.constantFrom("board", "load", "charge-point"),
        fc.subarray([...LINES], { minLength: 1 }),
      ),
      {
        minLength: 1,
        maxLength: 40,
      },
    );
    fc.assert(
      fc.property(shape, (choices) => {
        const rows: SketchRow[] = [["cut-out", "board", "main"]];
        const hosts: { id: string; lines: readonly Line[] }[] = [{ id: "main", lines: LINES }];
        choices.forEach(([pick, kind, wanted], index) => {
          const host = hosts[pick % hosts.length] as (typeof hosts)[number];
          const lines = host.lines.filter((line) => wanted.includes(line));
          if (lines.length === 0) return;
          rows.push([host.id, kind as "board", `n${index}`, lines]);
          if (kind === "board") hosts.push({ id: `n${index}`, lines });
        });
        const { tree } = opened(sketchJob(3, rows));
        const below = (id: string): string[] => [
          id,
          ...rows.filter(([from]) => from === id).flatMap(([, , to]) => below(to)),
        ];
        for (const [, , id, lines = LINES] of rows) {
          expect(
            tree
              .nodesBelow(id)
              .map((node) => node.id)
              .sort(),
          ).toEqual(below(id).sort());
          for (const line of LINES) {
            const carried = lines.includes(line)
              ? below(id).filter((end) => isEnd(tree.node(end)) && tree.linesAt(end).includes(line))
              : [];
            expect(
              tree
                .endsCarried(tree.cable(`to-${id}`), line)
                .map((end) => end.id)
                .sort(),
            ).toEqual(carried.sort());
          }
        }
      }),
      { numRuns: 200 },
    );
  });
});
