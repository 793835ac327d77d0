import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../job/index.ts";
import { example } from "../testing/examples.ts";
import { changed } from "../testing/findings.ts";
import { opened } from "../testing/sketch.ts";
import { chainDrawing, chainOutline, type DrawnChain, drawnChain } from "./chain-drawing.ts";

const drawnOf = (changes: Record<string, unknown> = {}): DrawnChain => {
  const drawn = drawnChain(opened(changed(changes)));
  if (drawn === null) throw new Error("the sound job has a chain");
  return drawn;
};

describe("the metering chain as a drawing", () => {
  it("is the same bytes each time, and self-contained", () => {
    const svg = chainDrawing(drawnOf(), "Chain");
    expect(chainDrawing(drawnOf(), "Chain")).toBe(svg);
    expect(svg).not.toMatch(/href|<script|url\(/);
    expect(svg).toContain("<title");
  });

  it("says all that it draws in words too", () => {
    const drawn = drawnOf();
    const words = chainOutline(drawn).join("\n");
    for (const { id, details, channel } of drawn.transformers) {
      expect(words).toContain(id);
      expect(words).toContain(`input ${channel}`);
      for (const line of details) expect(words).toContain(line);
    }
    for (const { title } of drawn.boxes) expect(words).toContain(title);
  });

  it("shows the arrow as it was seen, and a question where nobody looked", () => {
    const at = "metering.currentTransformers[ct1].arrow";
    const svgs = [known("towards-load"), known("towards-supply"), NOT_RECORDED].map((arrow) =>
      chainDrawing(drawnOf({ [at]: arrow }), "Chain"),
    );
    expect(new Set(svgs).size).toBe(3);
    expect(svgs[2]).toContain(">?<");
  });

  it("names the parts of text that could break markup", () => {
    const svg = chainDrawing(drawnOf({ "metering.meterClass": known('<b onclick="x">') }), "<T>");
    expect(svg).not.toContain("<b ");
    expect(svg).toContain("&lt;T&gt;");
  });

  it("is nothing where there is no chain", () => {
    expect(drawnChain(example("farmhouse"))).toBeNull();
  });
});
