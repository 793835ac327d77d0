import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { LineSplitter, MAX_LINE } from "./line-splitter.ts";

function split(chunks: readonly string[]): { readonly lines: readonly string[]; readonly longAt: number } {
  const lines: string[] = [];
  let longAt = 0;
  const splitter = new LineSplitter(
    (line, number) => {
      lines.push(line);
      expect(number).toBe(lines.length);
    },
    (number) => {
      longAt = number;
    },
  );
  for (const chunk of chunks) splitter.push(chunk);
  splitter.end();
  return { lines, longAt };
}

describe("LineSplitter", () => {
  it.each(["\n", "\r\n", "\r"])("cuts at %j however the text is chunked", (end) => {
    const text = ["a", "", "b,c", "d"].join(end);
    for (let size = 1; size <= text.length; size++) {
      const chunks = Array.from({ length: Math.ceil(text.length / size) }, (_, at) =>
        text.slice(at * size, (at + 1) * size),
      );
      expect(split(chunks).lines).toEqual(["a", "", "b,c", "d"]);
    }
  });
  it("gives no line for the end of the last one", () => expect(split(["a\nb\n"]).lines).toEqual(["a", "b"]));
  it("stops at a line without end, and keeps nothing of it", () => {
    const { lines, longAt } = split([
      "a\n",
      ..."x"
        .repeat(12)
        .split("")
        .map((x) => x.repeat(MAX_LINE / 10)),
      "\nb\n",
    ]);
    expect(lines).toEqual(["a"]);
    expect(longAt).toBe(2);
  });
  it("gives back every text", () => {
    fc.assert(
      fc.property(fc.array(fc.string({ unit: fc.constantFrom("a", "b", "\n", ";") })), (chunks) => {
        const text = chunks.join("");
        expect(split(chunks).lines.join("\n")).toBe(text.replace(/\n$/, ""));
      }),
    );
  });
});
