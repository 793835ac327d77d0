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

describe("the nights of an option", () => {
  const assessed = assess(opened(changed({})), GREAT_BRITAIN, { onIso: "2026-11-25", series: new Map() });
  const counted = {
    days: 365,
    recordedDays: 14,
    intervalS: 60,
    sessions: 156,
    kwhPerNight: 17.84,
    isGiven: false,
  };
  const said = (timeOut?: { readonly mostS: number | null }, isGiven = false): string => {
    const nights = { ...counted, isGiven, fullShare: 0.996, overS: 120, ...(timeOut && { timeOut }) };
    const { options } = assessmentView(assessed, new Map([["managed", nights]]));
    return options
      .flatMap((option) => option.nights ?? [])
      .join()
      .replaceAll(/\s/g, " ");
  };
  const common =
    "Energy per night 17.8 kWh, mornings full 99 % (156 sessions in 365 days simulated, from 14 recorded days); over the supply's limit for 120 s in all.";
  it("rounds a share of mornings down, and says what the days were taken from", () =>
    expect(said()).toBe(common));
  it("says where the days are not those that the demand above is taken from", () =>
    expect(said(undefined, true)).toContain(
      "from 14 recorded days, given beside the job, whose own demand stands above)",
    ));
  it("says which time-out brings the fallback in time", () =>
    expect(said({ mostS: 46 })).toBe(
      `${common} With the delays taken here its fallback comes in time with a time-out of 46 s or less.`,
    ));
  it("says where none does, and what to shorten", () =>
    expect(said({ mostS: null })).toBe(
      `${common} No time-out brings its fallback in time with the delays taken here: shorten the time between readings and the command's.`,
    ));
});
