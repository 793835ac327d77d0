import { GREAT_BRITAIN } from "@underfuse/knowledge";
import { describe, expect, it } from "vitest";
import { blankManagedJob } from "../job/blank.ts";
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
  it("says which recording is left out, and why", () => {
    const { headline, missingNow } = viewOf({ "demand.recordings[log].days": known(5) });
    expect(headline.sentences.join(" ")).toMatch(/"log" of L1 is left out: it covers 5.days/);
    expect(missingNow.map(({ label }) => label)).toContain("a longer recording of L1");
  });
});

describe("a blank job", () => {
  it("prints no dash where a number should be", () => {
    const job = blankManagedJob({ id: "b", title: "b", jurisdiction: "england", phases: 3 });
    const view = assessmentView(
      assess(opened(job), GREAT_BRITAIN, { onIso: "2026-11-25", series: new Map() }),
    );
    const sentences = view.stages.flatMap(({ findings }) => findings.map(({ sentence }) => sentence));
    expect(sentences.length).toBeGreaterThan(40);
    expect(sentences.filter((sentence) => sentence.includes("–"))).toEqual([]);
  });
});
