import { GREAT_BRITAIN } from "@underfuse/knowledge";
import { describe, expect, it } from "vitest";
import { known } from "../job/index.ts";
import { assess } from "../rules/index.ts";
import { type Changes, changed } from "../testing/findings.ts";
import { opened } from "../testing/sketch.ts";
import { assessmentView } from "./assessment-view.ts";

const viewOf = (changes: Changes) =>
  assessmentView(assess(opened(changed(changes)), GREAT_BRITAIN, { onIso: "2026-11-25", series: new Map() }));

describe("the headline", () => {
  it("says nothing twice, though the first failure is what the operator must be told", () => {
    const { sentences } = viewOf({ "supply.operator.answer": known("may-not-proceed") }).headline;
    expect(sentences[0]).toMatch(/may not proceed/);
    expect(new Set(sentences).size).toBe(sentences.length);
  });
});
