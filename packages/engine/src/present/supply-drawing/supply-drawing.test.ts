import { describe, expect, it } from "vitest";
import { known } from "../../job/index.ts";
import { expectAsCommitted } from "../../testing/committed-drawing.ts";
import { EXAMPLES, example } from "../../testing/examples.ts";
import { changed } from "../../testing/findings.ts";
import { opened, type SketchRow, sketchJob } from "../../testing/sketch.ts";
import { drawnSupply } from "./drawn-supply.ts";
import { supplyDrawing } from "./supply-drawing.ts";
import { supplyOutline } from "./supply-outline.ts";

const draw = ({ tree, job }: ReturnType<typeof opened>) =>
  supplyDrawing(drawnSupply(tree, job.metering), `Supply of ${job.title}`);

describe("supplyDrawing", () => {
  it.each(EXAMPLES)("%s is drawn as committed", (name) => {
    expectAsCommitted(new URL("drawings/", import.meta.url), name, draw(example(name)));
  });

  it("gives the same bytes for the same job", () => {
    expect(draw(example("village-hall"))).toBe(draw(example("village-hall")));
  });
  it("shows every node, every transformer, and no other", () => {
    for (const name of EXAMPLES) {
      const open = example(name);
      const svg = draw(open);
      const ids = [...svg.matchAll(/<g id="supply-([^"]+)"/g)].map((match) => match[1]);
      expect(ids.sort()).toEqual(open.tree.nodes.map(({ id }) => id).sort());
      const transformers = [...svg.matchAll(/data-transformer="([^"]+)"/g)].map((match) => match[1]);
      expect(transformers.sort()).toEqual(
        (open.job.metering?.currentTransformers ?? []).map(({ id }) => id).sort(),
      );
    }
  });
  it("says for each transformer which way it points and what it misses", () => {
    const svg = draw(example("village-hall"));
    expect(svg).toContain("sees all of L1");
    expect(svg).toContain("misses Charge point A");
    const reversed = draw(
      opened(changed({ "metering.currentTransformers[ct1].arrow": known("towards-supply") })),
    );
    expect(reversed).toContain("arrow towards the supply");
    expect(reversed).not.toBe(draw(opened(changed({}))));
  });
  it("draws text as text, whatever it says", () => {
    const svg = draw(opened(changed({ "nodes[house].label": '<script>alert("x")</script> & co' })));
    expect(svg).not.toContain("<script>");
    expect(svg).toContain("&lt;script&gt;");
  });
  it("keeps text inside the drawing", () => {
    const [width = 0] =
      /viewBox="0 0 (\d+)/
        .exec(draw(example("village-hall")))
        ?.slice(1)
        .map(Number) ?? [];
    for (const [, x = "", text = ""] of draw(example("village-hall")).matchAll(
      /<text x="(\d+)" y="[\d.]+"[^>]*>([^<]*)</g,
    )) {
      expect(Number(x) + text.length * 6.4, text).toBeLessThanOrEqual(width + 6.4);
    }
  });
  it("draws a chain of two thousand boards", () => {
    const chain = Array.from(
      { length: 2000 },
      (_, index): SketchRow => [index === 0 ? "cut-out" : `n${index - 1}`, "board", `n${index}`],
    );
    expect(draw(opened(sketchJob(1, chain))).match(/<g id=/g)).toHaveLength(2002);
  });
});

describe("supplyOutline", () => {
  it("says in words what the drawing shows, indented where the supply splits", () => {
    const { tree, job } = example("terraced-house");
    const lines = supplyOutline(drawnSupply(tree, job.metering)).map(
      ({ depth, text }) => `${"  ".repeat(depth)}${text}`,
    );
    expect(lines.slice(0, 7).map((line) => line.replaceAll("\u00a0", " "))).toEqual([
      "Supply",
      "Cut-out, 60 A, BS 1361 type II",
      "by 16 mm², single core, 0.6 m, method C: Meter",
      "current transformer ct1, on L1, 100 A, arrow towards the load, sees all of L1",
      "by 16 mm², single core, 0.4 m, method C: Isolator",
      "by 16 mm², single core, 0.3 m, method C: Connector block",
      "  by 16 mm², single core, 1.1 m, method C: Consumer unit",
    ]);
    expect(lines).toHaveLength(tree.nodes.length + 1);
  });
});
