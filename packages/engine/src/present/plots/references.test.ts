import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { references, referenceUprights } from "./references.ts";
import { linearScale } from "./scale.ts";
import { textWidth } from "./text-width.ts";

describe("limit and fuse", () => {
  it("are named as they were set; what is not known is left out", () => {
    expect(references({ limitA: 60, fuseA: 80.5 }).map(({ text }) => text)).toEqual([
      "limit 60\u00a0A",
      "fuse 80.5\u00a0A",
    ]);
    expect(references({ limitA: Number.NaN, fuseA: null })).toEqual([]);
  });

  it("as lines down a field never pass through each other's name", () => {
    const field = { left: 30, right: 344, top: 60, bottom: 200 };
    const scale = linearScale({ min: 0, max: 100, maxCount: 8 }, { fromPx: field.left, toPx: field.right });
    const amps = fc.integer({ min: 0, max: 100 });
    fc.assert(
      fc.property(amps, amps, (limitA, fuseA) => {
        const drawn = referenceUprights(references({ limitA, fuseA }), scale, field, 10).join("");
        const lines = [...drawn.matchAll(/d="M([\d.]+) ([\d.]+)V/g)].map(([, x, top]) => ({
          x: Number(x),
          top: Number(top),
        }));
        const names = [
          ...drawn.matchAll(/x="([\d.]+)" y="([\d.]+)" text-anchor="middle"[^>]*>([^<]+)</g),
        ].map(([, x, foot, text = ""]) => ({ x: Number(x), foot: Number(foot), half: textWidth(text) / 2 }));
        expect([lines.length, names.length]).toEqual([2, 2]);
        for (const line of lines)
          for (const name of names)
            expect(line.top < name.foot && Math.abs(line.x - name.x) < name.half).toBe(false);
      }),
      { examples: [[98, 98]] },
    );
  });
});
