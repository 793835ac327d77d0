import { readdirSync, readFileSync } from "node:fs";
import { type Citation, GB_RULES, STANDINGS } from "@underfuse/engine";
import { describe, expect, it } from "vitest";
import { GREAT_BRITAIN } from "./index.ts";

/** A package's own code, without tests and their helpers. */
const codeOf = (name: string): readonly string[] => {
  const root = new URL(`../../${name}/src/`, import.meta.url);
  return readdirSync(root, { recursive: true, encoding: "utf8" })
    .filter((file) => file.endsWith(".ts") && !file.endsWith(".test.ts") && !file.startsWith("testing"))
    .map((file) => readFileSync(new URL(file, root), "utf8"));
};
const engineCode = codeOf("engine");
const found = (pattern: RegExp, code = engineCode): ReadonlySet<string> =>
  new Set(code.flatMap((text) => [...text.matchAll(pattern)].map((match) => match[1] ?? "")));

/** Every citation anywhere in the knowledge, with the place it stands. */
function citations(value: unknown, place = ""): readonly (readonly [string, Citation])[] {
  if (typeof value !== "object" || value === null) return [];
  if ("source" in value && "standing" in value) return [[place, value as Citation]];
  return Object.entries(value).flatMap(([key, inner]) => citations(inner, `${place}.${key}`));
}

describe("sources and citations", () => {
  const cited = citations({ ...GREAT_BRITAIN, sources: [] });
  const ids = GREAT_BRITAIN.sources.map((source) => source.id);

  it("were read", () => expect(cited.length).toBeGreaterThan(150));
  it("have one id each", () => expect(new Set(ids).size).toBe(ids.length));
  it.each(cited)("%s names sources that are listed, a place in them and a standing", (_place, citation) => {
    expect(ids).toContain(citation.source);
    if (citation.seenAt !== undefined) expect(ids).toContain(citation.seenAt);
    expect(citation.at).not.toBe("");
    expect(STANDINGS).toContain(citation.standing);
  });
  it("no source is listed that nothing cites", () => {
    const used = new Set(cited.flatMap(([, citation]) => [citation.source, citation.seenAt]));
    const inDocstrings = found(/\[([a-z][a-z0-9-]+)\]/g, [...engineCode, ...codeOf("intake")]);
    expect(ids.filter((id) => !used.has(id) && !inDocstrings.has(id))).toEqual([]);
  });
});

describe("figures", () => {
  it("are all read by some function of the engine", () => {
    const code = engineCode.join("\n").replace(/^\s*\| ".*$/gm, "");
    const isRead = (id: string): boolean =>
      code.includes(`"${id}"`) || code.includes(`\`${id.replace(/\d+$/, "${")}`);
    expect(Object.keys(GREAT_BRITAIN.figures).length).toBeGreaterThan(50);
    expect(Object.keys(GREAT_BRITAIN.figures).filter((id) => !isRead(id))).toEqual([]);
  });
});

describe("clauses", () => {
  it("every rule has one", () => {
    expect(GB_RULES.map((rule) => rule.id).filter((id) => !(id in GREAT_BRITAIN.clauses))).toEqual([]);
  });
  it("every rule and every step's clause is known, and none is left over", () => {
    const named = found(/clause: "([a-z0-9-]+)"/g);
    expect(engineCode.length).toBeGreaterThan(50);
    expect([...named].filter((clause) => !(clause in GREAT_BRITAIN.clauses))).toEqual([]);
    const used = new Set([...named, ...GB_RULES.map((rule) => rule.id)]);
    expect(Object.keys(GREAT_BRITAIN.clauses).filter((clause) => !used.has(clause))).toEqual([]);
  });
});

describe("editions", () => {
  it("stand in the order in which they came into force", () => {
    const dates = GREAT_BRITAIN.editions.map((edition) => edition.from);
    expect([...dates].sort()).toEqual(dates);
    expect(GREAT_BRITAIN.editions.at(-1)?.until).toBeNull();
  });
});

describe("figures", () => {
  it.each(Object.entries(GREAT_BRITAIN.figures))(
    "%s: its series ascends and begins with a value",
    (_name, figure) => {
      const dates = figure.series.map((entry) => entry.from);
      expect([...dates].sort()).toEqual(dates);
      expect(figure.series[0]?.value).not.toBeNull();
    },
  );
});
