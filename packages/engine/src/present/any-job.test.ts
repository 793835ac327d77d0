import { GREAT_BRITAIN } from "@underfuse/knowledge";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { serialiseJob } from "../job/index.ts";
import { assess } from "../rules/index.ts";
import { openJob } from "../supply/index.ts";
import { EXAMPLES, example } from "../testing/examples.ts";
import { soundJob } from "../testing/sound-job.ts";
import { assessmentJson } from "./assessment-json.ts";
import { assessmentView } from "./assessment-view.ts";
import { reportHtml } from "./report/report.ts";

type Fields = Record<string, unknown>;

/** What a fact may be changed to: the ends of most ranges, words of several lists, and absence. */
const otherFact = fc.oneof(
  fc.constant({ state: "not-recorded" }),
  fc.constant({ state: "not-applicable", because: "so" }),
  fc
    .constantFrom(
      0,
      1e-9,
      1e-3,
      0.5,
      1,
      6,
      30,
      100,
      230,
      1000,
      1e5,
      1e9,
      true,
      false,
      "none",
      "2026-11-25",
      "TT",
      "B",
    )
    .map((value) => ({ state: "known", value, basis: "assumed" })),
);

const isFact = (value: unknown): boolean =>
  typeof value === "object" && value !== null && typeof (value as Fields).state === "string";

/** Every place of a job at which a fact, an optional part or a list stands. */
function placesOf(job: object): readonly [owner: Fields, key: string][] {
  const places: [Fields, string][] = [];
  const visit = (value: unknown): void => {
    if (typeof value !== "object" || value === null || isFact(value)) return;
    for (const [key, inner] of Object.entries(value)) {
      if (
        isFact(inner) ||
        inner === null ||
        Array.isArray(inner) ||
        /overcurrent|residual|electrode/.test(key)
      )
        places.push([value as Fields, key]);
      visit(inner);
    }
  };
  visit(job);
  return places;
}

describe("any job that opens", () => {
  const jobs = [soundJob(), ...EXAMPLES.map((name) => example(name).document)].map(serialiseJob);
  const someJob = fc.tuple(
    fc.constantFrom(...jobs),
    fc.array(fc.tuple(fc.nat(), otherFact, fc.nat()), { minLength: 1, maxLength: 12 }),
  );

  it("is assessed, shown, reported and given as data without a throw, and no verdict rests on nothing", () => {
    let opened = 0;
    fc.assert(
      fc.property(someJob, ([text, changes]) => {
        const job = JSON.parse(text);
        for (const [at, fact, drop] of changes) {
          const places = placesOf(job);
          const [owner, key] = places[at % places.length] as [Fields, string];
          const value = owner[key];
          if (Array.isArray(value)) value.splice(drop % (value.length + 1), 1);
          else if (isFact(value)) owner[key] = fact;
          else owner[key] = null;
        }
        const open = openJob(JSON.stringify(job));
        if (!open.ok) return;
        opened++;
        const assessment = assess(open, GREAT_BRITAIN, { onIso: "2026-11-25", series: new Map() });
        for (const finding of assessment.findings) {
          if (finding.verdict === "cannot-tell")
            expect(finding.missing?.length, finding.id).toBeGreaterThan(0);
        }
        const html = reportHtml(assessment);
        expect(/.{0,80}(undefined|NaN|\[object|Infinity)/.exec(html)?.[0]).toBeUndefined();
        expect(JSON.stringify(assessmentJson(assessment))).not.toMatch(/"undefined|NaN/);
        expect(assessmentView(assessment).headline.title).not.toBe("");
      }),
      { numRuns: Number(process.env.RUNS ?? 150) },
    );
    // The changes must leave enough jobs that open, or nothing was tried.
    expect(opened).toBeGreaterThan(20);
  }, 60_000);
});
