import { describe, expect, it } from "vitest";
import { cleanText } from "./clean-form.ts";
import { Importer } from "./importer.ts";
import type { Statements } from "./statements.ts";

const TEXT = `start UTC,L1 A per 300 s,L1 quality,L2 A per 300 s,L2 quality
2026-01-05T00:00:00Z,1.2,recorded,-0.9,recorded
2026-01-05T00:05:00Z,1.3,recorded,,absent
`;

/** Imports a text that comes in pieces of a size. */
function imported(text: string, { size = text.length, stated = {} as Statements } = {}) {
  const importer = new Importer(stated);
  const bytes = new TextEncoder().encode(text);
  for (let at = 0; at < bytes.length; at += size) importer.push(bytes.subarray(at, at + size));
  return importer.end();
}

describe("a file in the clean form", () => {
  it.each([1, 7, 1000])(
    "is imported without a question and written as it was, in pieces of %i bytes",
    (size) => {
      const result = imported(TEXT, { size });
      if (result.state !== "series") throw new Error(JSON.stringify(result));
      expect([...cleanText(result.series)].join("")).toBe(TEXT);
      expect(result.conclusions.map(({ says }) => says)).toEqual([
        "the clean form that an import writes",
        "values in A",
        "intervals of 300 s",
      ]);
    },
  );
  it("may come with the line ends of another system", () => {
    const result = imported(TEXT.replaceAll("\n", "\r\n"));
    expect(result.state).toBe("series");
  });
  it("lets nothing be stated of it", () =>
    expect(imported(TEXT, { stated: { unit: "kWh" } })).toMatchObject({
      state: "refused",
      problems: [{ code: "STATEMENT_CONTRADICTED", message: expect.stringContaining('"unit"') }],
    }));
  it("is refused with its line where a row is missing", () =>
    expect(imported(TEXT.replace("00:05:00", "00:10:00"))).toMatchObject({
      state: "refused",
      problems: [{ code: "CLEAN_FORM_WRONG", line: 3, found: "2026-01-05T00:10:00Z" }],
    }));
});

describe("a table that begins like the clean form", () => {
  it.each([
    ["other headings", "start UTC,kWh\n2026-01-05T00:00:00Z,1.2\n2026-01-05T00:30:00Z,0.4\n"],
    ["a heading that goes on", "start UTC of it,kWh\n2026-01-05T00:00:00Z,1.2\n2026-01-05T00:30:00Z,0.4\n"],
    ["its headings cut short", "start UTC"],
  ])("is read as a table: %s", (_what, text) =>
    expect(JSON.stringify(imported(text, { size: 1 }))).not.toContain("clean"),
  );
});
