import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { blankJob, blankOvercurrent } from "./blank.ts";
import { known } from "./fact.ts";
import { changeFormat, FORMAT_CHANGES } from "./formats/change-format.ts";
import { parseJob, parseJobValue } from "./parse-job.ts";
import type { Job } from "./schema/job.ts";
import { serialiseJob } from "./serialise-job.ts";

const start = { id: "test", title: "Test job", jurisdiction: "england", phases: 1 } as const;

/** A blank job with one thing changed, as plain JSON. */
function damaged(change: (job: Record<string, never> & Job) => void): unknown {
  const job = JSON.parse(serialiseJob(blankJob(start)));
  change(job);
  return job;
}

const problemsOf = (value: unknown) => {
  const result = parseJobValue(value);
  if (result.ok) throw new Error("accepted");
  return result.problems;
};

describe("parseJob", () => {
  it("opens a blank job, and writing it gives the same job back", () => {
    for (const phases of [1, 3] as const) {
      const job = blankJob({ ...start, phases });
      expect(parseJob(serialiseJob(job))).toEqual({ ok: true, job });
    }
  });

  it("reads a fact that came later as not recorded in a job written before it", () => {
    const older = damaged((job) => Reflect.deleteProperty(job.nodes[4] as object, "discriminatesUpToA"));
    const result = parseJobValue(older);
    expect(result.ok && result.job.nodes[4]).toMatchObject({ discriminatesUpToA: { state: "not-recorded" } });
  });

  const faults: [
    what: string,
    change: Parameters<typeof damaged>[0],
    code: string,
    path: string,
    received: string,
    cure: RegExp,
  ][] = [
    [
      "a wrong type",
      (job) => Object.assign(job, { supply: { ...job.supply, declaredZeOhm: 0.35 } }),
      "FIELD_WRONG_TYPE",
      "supply.declaredZeOhm",
      "0.35",
      /\{ "state": "known", "value": 0\.35, "basis": "measured", "on": "2026-11-25" \}.*not-recorded/,
    ],
    [
      "a word where a fact is wanted",
      (job) => Object.assign(job.earthing, { arrangement: "TT" }),
      "FIELD_WRONG_TYPE",
      "earthing.arrangement",
      '"TT"',
      /"value": "TT"/,
    ],
    [
      "a device left out that may be none",
      (job) => Reflect.deleteProperty(job.nodes[4] as object, "residual"),
      "FIELD_MISSING",
      "nodes[way-charge-point].residual",
      "nothing",
      /^This field is missing\. Write null when there is none/,
    ],
    [
      "a device left out that must be there",
      (job) => Reflect.deleteProperty(job.nodes[4] as object, "overcurrent"),
      "FIELD_MISSING",
      "nodes[way-charge-point].overcurrent",
      "nothing",
      /cannot be left open/,
    ],
    [
      "a fact in the place of a device",
      (job) => Object.assign(job.nodes[4] as object, { residual: { state: "not-recorded" } }),
      "FIELD_WRONG_TYPE",
      "nodes[way-charge-point].residual",
      "an object",
      /no fact.*null when there is none/,
    ],
    [
      "phases left out",
      (job) => Reflect.deleteProperty(job.supply, "phases"),
      "FIELD_MISSING",
      "supply.phases",
      "nothing",
      /missing\. It must be one of: 1, 3\.$/,
    ],
    [
      "two phases",
      (job) => Object.assign(job.supply, { phases: 2 }),
      "FIELD_NOT_ALLOWED",
      "supply.phases",
      "2",
      /^It must be one of: 1, 3\.$/,
    ],
    [
      "phases as a fact",
      (job) => Object.assign(job.supply, { phases: { state: "not-recorded" } }),
      "FIELD_NOT_ALLOWED",
      "supply.phases",
      "an object",
      /one of: 1, 3\. It is written plainly/,
    ],
    [
      "a load without a purpose",
      (job) => Object.assign(job.nodes[2] as object, { kind: "load", ratedA: known(1) }),
      "FIELD_MISSING",
      "nodes[meter].purpose",
      "nothing",
      /missing\. It must be one of: lighting,/,
    ],
    [
      "a load with the trade's word",
      (job) => Object.assign(job.nodes[2] as object, { kind: "load", ratedA: known(1), purpose: "shower" }),
      "FIELD_NOT_ALLOWED",
      "nodes[meter].purpose",
      '"shower"',
      /one of: lighting,.*"shower" is written instantaneous-water-heater here\.$/,
    ],
    [
      "an earthing arrangement by the trade's word",
      (job) => Object.assign(job.earthing, { arrangement: known("PME") }),
      "FIELD_NOT_ALLOWED",
      "earthing.arrangement.value",
      '"PME"',
      /one of: TN-S, TN-C-S, TT\. "PME" is written TN-C-S here\.$/,
    ],
    [
      "a cable nobody has looked at, in other words",
      (job) => Object.assign(job.cables[2] as object, { run: "unknown" }),
      "FIELD_NOT_ALLOWED",
      "cables[meter-to-board].run",
      '"unknown"',
      /one of: busbar, not-surveyed, or an object in \{ \}\.$/,
    ],
    [
      "a list left out",
      (job) => Reflect.deleteProperty(job.tests, "deadProofs"),
      "FIELD_MISSING",
      "tests.deadProofs",
      "nothing",
      /Write \[\]/,
    ],
    [
      "a number written as text",
      (job) => Object.assign(job.supply, { declaredZeOhm: { ...known(1), value: "0.35" } }),
      "FIELD_WRONG_TYPE",
      "supply.declaredZeOhm.value",
      '"0.35"',
      /number/,
    ],
    [
      "a missing field",
      (job) => Reflect.deleteProperty((job.cables[1] as never as { run: object }).run, "lengthM"),
      "FIELD_MISSING",
      "cables[cut-out-to-meter].run.lengthM",
      "nothing",
      /not-recorded/,
    ],
    [
      "a fact without a basis",
      (job) => Object.assign(job.supply, { declaredZeOhm: { state: "known", value: 0.35 } }),
      "FIELD_MISSING",
      "supply.declaredZeOhm.basis",
      "nothing",
      /missing\. It must be one of: measured, declared,/,
    ],
    [
      "an unknown state",
      (job) => Object.assign(job.supply, { isLooped: { state: "unknown" } }),
      "FIELD_NOT_ALLOWED",
      "supply.isLooped.state",
      '"unknown"',
      /not-recorded/,
    ],
    [
      "a misspelt field",
      (job) => Object.assign((job.cables[1] as never as { run: object }).run, { lenghtM: known(3) }),
      "FIELD_UNKNOWN",
      "cables[cut-out-to-meter].run.lenghtM",
      "an object",
      /spelling/,
    ],
    [
      "a negative length",
      (job) => Object.assign((job.cables[1] as never as { run: object }).run, { lengthM: known(-3) }),
      "FIELD_OUT_OF_RANGE",
      "cables[cut-out-to-meter].run.lengthM.value",
      "-3",
      /at least 0/,
    ],
    [
      "kiloamps typed as amps",
      (job) =>
        Object.assign(job.nodes[1] as object, {
          overcurrent: { ...blankOvercurrent(), breakingCapacityKa: known(6000) },
        }),
      "FIELD_OUT_OF_RANGE",
      "nodes[cut-out].overcurrent.breakingCapacityKa.value",
      "6000",
      /unit/,
    ],
    [
      "an edition nobody knows",
      (job) => Object.assign(job.work, { wiringRules: known("bs7671-2031") }),
      "FIELD_NOT_ALLOWED",
      "work.wiringRules.value",
      '"bs7671-2031"',
      /bs7671-2018-a4-2026/,
    ],
    [
      "a date that does not exist",
      (job) => Object.assign(job.work, { designedOn: known("2026-02-30") }),
      "FIELD_NOT_ALLOWED",
      "work.designedOn.value",
      '"2026-02-30"',
      /date that exists/,
    ],
    [
      "a kind of node nobody knows",
      (job) => Object.assign(job.nodes[2] as object, { kind: "meter-box" }),
      "FIELD_NOT_ALLOWED",
      "nodes[meter].kind",
      '"meter-box"',
      /one of: origin, cut-out, meter,/,
    ],
    [
      "a title that would act on a terminal",
      (job) => Object.assign(job, { title: "House\u001b[2J" }),
      "FIELD_NOT_ALLOWED",
      "title",
      '"House\u001b[2J"',
      /control characters/,
    ],
    [
      "a line twice on one cable",
      (job) => Object.assign(job.cables[0] as object, { lines: ["L1", "L1"] }),
      "FIELD_NOT_ALLOWED",
      "cables[origin-to-cut-out].lines",
      "a list of 2",
      /each line once/,
    ],
    [
      "a future format",
      (job) => Object.assign(job, { formatVersion: 9 }),
      "FORMAT_FROM_THE_FUTURE",
      "formatVersion",
      "9",
      /newer/,
    ],
    [
      "no format version",
      (job) => Object.assign(job, { formatVersion: "1" }),
      "FORMAT_UNKNOWN",
      "formatVersion",
      '"1"',
      /whole number/,
    ],
    [
      "another program's file",
      (job) => Object.assign(job, { format: "x" }),
      "NOT_A_JOB",
      "format",
      '"x"',
      /right file/,
    ],
  ];
  it.each(faults)("refuses %s with path, value and cure", (_what, change, code, path, received, cure) => {
    const problems = problemsOf(damaged(change));
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatchObject({ code, path, received, message: expect.stringMatching(cure) });
  });

  it("reports everything wrong at once, up to fifty", () => {
    const job = damaged((raw) => {
      raw.nodes = Array.from({ length: 80 }, () => ({ kind: "lamp" })) as never;
    });
    expect(problemsOf(job)).toHaveLength(50);
  });

  it("gives a job or a problem list for any JSON value, and never throws", () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 5 }), (value) => {
        expect(problemsOf(value).length).toBeGreaterThan(0);
      }),
    );
  });

  it("gives a job or a problem list when any one value of a job is replaced by any other", () => {
    const job = JSON.parse(serialiseJob(blankJob(start)));
    const places: [object, string][] = [];
    const collect = (value: unknown): void => {
      if (typeof value !== "object" || value === null) return;
      for (const [key, inner] of Object.entries(value)) {
        places.push([value, key]);
        collect(inner);
      }
    };
    collect(job);
    fc.assert(
      fc.property(fc.nat(places.length - 1), fc.jsonValue({ maxDepth: 2 }), (index, replacement) => {
        const [owner, key] = places[index] as [Record<string, unknown>, string];
        const before = owner[key];
        owner[key] = replacement;
        try {
          const result = parseJobValue(job);
          if (result.ok) expect(result.job).toEqual(job);
          else
            for (const { path, message } of result.problems)
              expect([typeof path, message.endsWith(".")]).toEqual(["string", true]);
        } finally {
          owner[key] = before;
        }
      }),
      { numRuns: 3000 },
    );
  });
});

describe("format changes", () => {
  const changes = [
    { to: 2, change: ({ oldName, ...rest }: Record<string, unknown>) => ({ ...rest, newName: oldName }) },
    { to: 3, change: (document: Record<string, unknown>) => ({ ...document, added: true }) },
  ];
  it("applies the steps a document still needs, in order, and no others", () => {
    expect(changeFormat({ formatVersion: 1, oldName: "x" }, 1, changes)).toEqual({
      formatVersion: 3,
      newName: "x",
      added: true,
    });
    expect(changeFormat({ formatVersion: 2, oldName: "x" }, 2, changes)).toEqual({
      formatVersion: 3,
      oldName: "x",
      added: true,
    });
  });
  it("leads from each format to the next without a gap", () => {
    expect(FORMAT_CHANGES.map((step) => step.to)).toEqual(FORMAT_CHANGES.map((_, index) => index + 2));
  });
});
