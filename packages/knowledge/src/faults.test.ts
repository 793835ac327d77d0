import { STANDINGS } from "@underfuse/engine";
import { describe, expect, it } from "vitest";
import { FAULTS } from "./faults.ts";
import { SOURCES } from "./sources.ts";

const entries = Object.entries(FAULTS);
const sentences = (text: string): readonly string[] => text.split(/(?<=[.!?])\s+/);
const wordCount = (sentence: string): number => sentence.split(/\s+/).filter(Boolean).length;
/** Words of a cure that touches a secondary or a voltage tap. */
const OPENS = /\bshort(?:s|ing)?\b|voltage taps/;

describe("the fault catalogue", () => {
  it("has F01 to F66, each once and in order", () => {
    const ids = Array.from({ length: 66 }, (_, index) => `F${String(index + 1).padStart(2, "0")}`);
    expect(entries.map(([id]) => id)).toEqual(ids);
  });
  it("gives no two faults one name", () => {
    expect(new Set(entries.map(([, fault]) => fault.name)).size).toBe(entries.length);
  });
  it.each(entries)("%s speaks plainly and briefly", (_id, fault) => {
    const { name, looksLike, partedBy, danger, cure } = fault;
    expect(name).toMatch(/^[a-z].*[^.]$/);
    for (const text of [looksLike, partedBy, cure, ...(danger === null ? [] : [danger])]) {
      expect(text).toMatch(/^[A-Z].*[^.\s]\.$/);
      for (const sentence of sentences(text)) expect(wordCount(sentence), sentence).toBeLessThanOrEqual(30);
    }
    expect(sentences(looksLike)).toHaveLength(1);
    expect(sentences(partedBy)).toHaveLength(1);
    expect(sentences(cure).length).toBeLessThanOrEqual(2);
    expect(Object.values(fault).join(" ")).not.toMatch(/complian/i);
  });
  it.each(entries)("%s has a weight and a citation of a listed source", (_id, { weight, citation }) => {
    expect(weight).toBeGreaterThan(0);
    expect(SOURCES.map((source) => source.id)).toContain(citation.source);
    expect(citation.at).not.toBe("");
    expect(STANDINGS).toContain(citation.standing);
  });
  it.each(entries.filter(([, { cure }]) => OPENS.test(cure)))(
    "%s: where a transformer or a voltage tap is touched, its cure isolates and proves dead first",
    (_id, { cure }) => {
      expect(cure).toMatch(/isolate [^.]*prove dead/i);
      expect(cure.search(/prove dead/)).toBeLessThan(cure.search(OPENS));
    },
  );
});
