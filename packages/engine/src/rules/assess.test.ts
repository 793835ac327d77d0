import { readFileSync } from "node:fs";
import { GREAT_BRITAIN } from "@underfuse/knowledge";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { blankJob, blankManagedJob } from "../job/blank.ts";
import { factsIn, known, locate, NOT_RECORDED } from "../job/index.ts";
import { changed } from "../testing/findings.ts";
import { reEvaluate } from "../testing/re-evaluate.ts";
import { opened } from "../testing/sketch.ts";
import { soundJob } from "../testing/sound-job.ts";
import { assess } from "./assess.ts";
import { quantitiesOf } from "./finding.ts";
import { GB_RULES } from "./gb/index.ts";

const inputs = { onIso: "2026-11-25", series: new Map() };
const assessed = (job = soundJob()) => assess(opened(job), GREAT_BRITAIN, inputs);

describe("assess", () => {
  it("a sound job passes every rule that applies", () => {
    const open = assessed().findings.filter(({ verdict }) => verdict === "fail" || verdict === "cannot-tell");
    expect(open.map(({ id, message }) => `${id} ${message}`)).toEqual([]);
  });
  it("gives the same assessment twice", () => {
    expect(JSON.stringify(assessed())).toBe(JSON.stringify(assessed()));
  });
  it("gives every finding an id of its own, and fills every place in its message", () => {
    for (const job of [soundJob(), blankJob({ id: "b", title: "b", jurisdiction: "england", phases: 3 })]) {
      const { findings } = assessed(job);
      expect(new Set(findings.map(({ id }) => id)).size).toBe(findings.length);
      for (const { id, template, data } of findings) {
        const places = [...template.matchAll(/\{(\w+)\}/g)].map((match) => match[1] ?? "");
        expect(
          places.filter((place) => !(place in data)),
          id,
        ).toEqual([]);
      }
    }
  });
  it("a blank job, with a load manager or without, passes nothing, fails nothing and asks for everything", () => {
    const start = { id: "b", title: "b", jurisdiction: "england", phases: 3 } as const;
    for (const job of [blankJob(start), blankManagedJob(start)]) {
      const { findings, missing } = assessed(job);
      const judged = findings.filter(({ verdict }) => verdict === "pass" || verdict === "fail");
      expect(judged.map(({ id }) => id)).toEqual([]);
      expect(missing.length).toBeGreaterThan(40);
    }
  });
  it("says so where a jurisdiction has no rules yet", () => {
    const result = assessed(changed({ "site.jurisdiction": "ireland" }));
    expect([result.isCovered, result.findings]).toEqual([false, []]);
  });
  it("leaves out what a jurisdiction does not have", () => {
    const rules = (jurisdiction: string) =>
      new Set(assessed(changed({ "site.jurisdiction": jurisdiction })).findings.map(({ ruleId }) => ruleId));
    expect(rules("england").has("new-building-charge-point")).toBe(true);
    expect(rules("wales").has("new-building-charge-point")).toBe(false);
    expect(rules("scotland").has("building-control-notice")).toBe(false);
    expect(rules("northern-ireland").has("smart-charge-point")).toBe(false);
  });
  const paths = factsIn(locate(soundJob())).map((fact) => fact.path);
  it("never throws and never fails the job because a fact is missing", () => {
    expect(paths.length).toBeGreaterThan(150);
    for (const path of paths) {
      const { findings } = assessed(changed({ [path]: NOT_RECORDED }));
      expect(findings.filter(({ verdict }) => verdict === "fail").map(({ id }) => `${path}: ${id}`)).toEqual(
        [],
      );
    }
  });
  it("never throws when any number of facts are missing", () => {
    fc.assert(
      fc.property(fc.subarray(paths), (lacking) => {
        const job = changed(Object.fromEntries(lacking.map((path) => [path, NOT_RECORDED])));
        expect(assessed(job).findings.length).toBeGreaterThan(30);
      }),
      { numRuns: 60 },
    );
  });
});

describe("what a finding rests on", () => {
  const finding = (job = soundJob(), id = "disconnection/car") => {
    const found = assessed(job).findings.find((item) => item.id === id);
    if (found === undefined) throw new Error(`no ${id}`);
    return found;
  };
  it("names assumed facts under the number, and those that only chose a row", () => {
    const job = changed({
      "supply.measuredZeOhm": known(0.2, "assumed"),
      "cables[way-to-car].run.lineMm2": known(6, "assumed"),
    });
    expect(finding(job).assumed.map((fact) => fact.path)).toEqual([
      "supply.measuredZeOhm",
      "cables[way-to-car].run.lineMm2",
    ]);
    expect(finding().assumed).toEqual([]);
  });
  it("does not lose an assumption because another cable takes the same figure by facts that were read", () => {
    const job = changed({ "cables[cut-out-to-meter].run.insulation": known("pvc-70", "assumed") });
    expect(finding(job).assumed.map((fact) => fact.path)).toEqual([
      "cables[cut-out-to-meter].run.insulation",
    ]);
  });
  it("names every figure and clause that nobody has read in its source", () => {
    const unchecked = finding(soundJob(), "residual-device-time/car").unchecked;
    expect(unchecked.map(({ citation }) => citation.standing)).toContain("recalled");
    expect(unchecked.every(({ citation }) => citation.standing !== "seen")).toBe(true);
  });
  it("says at what value of its main fact the verdict would turn", () => {
    // Zs 0.95 · 230 / 160 = 1.3656 Ω; the path adds 2 m of 25/16 mm² and 15 m of 6/6 mm², hot.
    const path = (((0.727 + 1.15) * 2 + 2 * 3.08 * 15) / 1000) * 1.1965;
    const turn = finding().turningPoint;
    expect(turn).toMatchObject({ direction: "above", fact: { path: "supply.measuredZeOhm" } });
    expect(turn?.value).toBeCloseTo((0.95 * 230) / 160 - path, 6);
  });
});

describe("working", () => {
  it("every step of the sound job says what it computes (independent evaluator, 1e-9)", () => {
    const { findings, options } = assessed();
    const quantities = [
      ...findings.flatMap(quantitiesOf),
      ...options.flatMap(({ demand, limit, fallback, chargePointA }) => [
        demand,
        limit,
        fallback,
        chargePointA,
      ]),
    ].filter((quantity) => quantity !== null && quantity.kind !== "unknown");
    const { formulas, disagreements } = reEvaluate(quantities as never);
    expect(disagreements).toEqual([]);
    expect(formulas.length).toBeGreaterThan(60);
  });
});

describe("the rules' tests", () => {
  it.each(GB_RULES.map((rule) => [rule.id, rule] as const))("%s: every sentence is met", (id, rule) => {
    const text = readFileSync(new URL(`gb/${id}.test.ts`, import.meta.url), "utf8");
    const unmet = Object.keys(rule.messages).filter((name) => !new RegExp(`\\b${name}\\b`).test(text));
    expect(unmet).toEqual([]);
  });
});
