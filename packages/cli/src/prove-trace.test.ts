import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { atTerminal, emptyFolder, exampleJob } from "./testing/at-terminal.ts";

const folder = emptyFolder();
const known = (value: number) => ({ state: "known", value, basis: "read-from-label", on: "2026-11-25" });
const jobPath = join(folder, "job.json");
const example = JSON.parse(readFileSync(exampleJob("terraced-house"), "utf8"));
writeFileSync(
  jobPath,
  JSON.stringify({
    ...example,
    demand: { ...example.demand, recordings: [] },
    limiter: { ...example.limiter, limitA: known(55), fallbackA: known(6) },
  }),
);
const fileOf = (text: string): string => {
  const path = join(folder, "trace.csv");
  writeFileSync(path, text);
  return path;
};
const prove = (text: string, ...more: readonly string[]) =>
  atTerminal(["prove", jobPath, fileOf(text), ...more]);

type Row = readonly [supplyA: number, carA: number, event?: string];
const table = (rows: readonly Row[]): string =>
  [
    "time s,L1 A,car L1 A,event",
    ...rows.map(([supply, car, event = ""], i) => `${i},${supply},${car},${event}`),
  ].join("\n");
const stay = (count: number, ...row: Row): readonly Row[] => [
  row,
  ...Array.from({ length: count - 1 }, (): Row => [row[0], row[1]]),
];
const trial = (overFor: number, fallsAfter: number): string =>
  table([
    ...stay(20, 50, 32),
    ...stay(overFor, 59, 32, "load-on"),
    ...stay(40, 40, 13),
    ...["bus-lost", "meter-lost", "manager-lost"].flatMap((loss) => [
      ...stay(20, 50, 32),
      ...stay(fallsAfter, 50, 32, loss),
      ...stay(40, 24, 6),
      ...stay(20, 50, 32, "restored"),
    ]),
  ]);

describe("prove, of a trace", () => {
  it("ends with 0 when everything is proved", async () => {
    const { status, out } = await prove(trial(8, 5), "--time-out", "10");
    expect(out).toMatch(/^Proved/);
    expect(status).toBe(0);
  });
  it("ends with 1 when something failed", async () => {
    const { status, out } = await prove(trial(80, 5), "--time-out", "10");
    expect(out).toMatch(/^Failed on L1\./);
    expect(status).toBe(1);
    expect((await prove(trial(8, 15), "--time-out", "10")).status).toBe(1);
  });
  it("ends with 2 when something cannot be told", async () => {
    const { status, out } = await prove(trial(8, 5));
    expect(out).toContain("was not given");
    expect(status).toBe(2);
  });
  it("ends with 64 when the trace cannot be read, and says where and why", async () => {
    const { status, err } = await prove("time s,L1\n0,1");
    expect(status).toBe(64);
    expect(err).toContain('line 1, column 2, "L1": it has no unit; head it "L1 A"');
  });
  it("ends with 64 for a job without a load manager, and for a time-out that is none", async () => {
    const without = join(folder, "without.json");
    writeFileSync(without, JSON.stringify({ ...example, limiter: null }));
    const { status, err } = await atTerminal(["prove", without, fileOf(trial(8, 5))]);
    expect(status).toBe(64);
    expect(err).toContain("no load manager yet");
    expect((await prove(trial(8, 5), "--time-out", "soon")).status).toBe(64);
    expect((await prove("step,L1 A\n1,2", "--time-out", "5")).err).toContain("--time-out is for a trace");
  });
  it("gives plain data", async () => {
    const { status, out } = await prove(trial(8, 5), "--time-out", "10", "--json");
    expect(status).toBe(0);
    expect(JSON.parse(out)).toMatchObject({
      verdict: "proved",
      remarks: [],
      bounds: { limitA: 55, fallbackA: 6, timeOutS: 10, typicalS: 15, longestS: 60 },
      lines: [{ line: "L1", verdict: "proved", longest: { startS: 20, heldS: 8, peakA: 59 } }],
    });
  });
  it("takes several traces, and says of each claim which of them shows it", async () => {
    const named = (name: string, text: string): string => {
      const path = join(folder, name);
      writeFileSync(path, text);
      return path;
    };
    const step = named(
      "step.csv",
      table([...stay(20, 50, 32), ...stay(8, 59, 32, "load-on"), ...stay(40, 40, 13)]),
    );
    const losses = ["bus-lost", "meter-lost", "manager-lost"].map((loss) =>
      named(`${loss}.csv`, table([...stay(20, 50, 32), ...stay(5, 50, 32, loss), ...stay(40, 24, 6)])),
    );
    const all = ["prove", jobPath, step, ...losses];
    const { status, out } = await atTerminal([...all, "--time-out", "10"]);
    expect(out).toMatch(/^Proved: on every line/);
    expect(out.replace(/\s+/g, " ")).toContain(`stayed until 64 s. (${losses[0]}`);
    expect(out).toContain("limiter.failures[meter-power-lost].offeredA");
    expect(status).toBe(0);
    const json = JSON.parse((await atTerminal([...all, "--time-out", "10", "--json"])).out);
    expect(json).toMatchObject({ verdict: "proved", traces: [{ verdict: "cannot-tell" }, {}, {}, {}] });
    expect((await atTerminal([...all, losses[0] as string])).err).toContain("are one file");
    const mixed = await atTerminal([...all, named("readings.csv", "step,L1 A\n1,2")]);
    expect([mixed.status, mixed.err.includes("has no column of time")]).toEqual([64, true]);
  });
  it("takes the job's own time-out, and the car's time after it", async () => {
    const timed = join(folder, "timed.json");
    writeFileSync(
      timed,
      JSON.stringify({
        ...example,
        demand: { ...example.demand, recordings: [] },
        limiter: { ...example.limiter, limitA: known(55), fallbackA: known(6), fallbackAfterS: known(10) },
      }),
    );
    const byJob = (fallsAfter: number, ...more: string[]) =>
      atTerminal(["prove", timed, fileOf(trial(8, fallsAfter)), ...more]);
    const { status, out } = await byJob(13);
    expect(out.replace(/\s+/g, " ")).toContain("the job's time-out of 10 s, and 5 s for the car to follow");
    expect(status).toBe(0);
    expect((await byJob(18)).status).toBe(1);
    expect((await byJob(18, "--time-out", "18")).status).toBe(0);
  });
  it("says what a trace settles, and leaves the job as it is", async () => {
    const before = readFileSync(jobPath, "utf8");
    const { out } = await prove(trial(8, 5), "--time-out", "10");
    expect(out.replace(/\s+/g, " ")).toContain(
      "Enter responseS = 9.0 s, measured: the slowest, on L1 at 20 s.",
    );
    expect(readFileSync(jobPath, "utf8")).toBe(before);
  });
  it("stands in the report, drawn, with what it settles", async () => {
    const page = join(folder, "report.html");
    const path = fileOf(trial(8, 5));
    const { status } = await atTerminal(["report", jobPath, "-o", page, "--trace", path, "--time-out", "10"]);
    const html = readFileSync(page, "utf8");
    expect(status).toBe(0);
    expect(html).toContain('<section id="traces">');
    expect(html).toContain("Enter responseS = 9.0\u00a0s");
    expect(html).toMatch(/<title>L1 over its limit of 55\.0\u00a0A/);
    const twice = await atTerminal(["report", jobPath, "-o", path, "--trace", path]);
    expect([twice.status, twice.err.includes("a recorded trace")]).toEqual([64, true]);
    expect((await atTerminal(["report", jobPath, "-o", page, "--time-out", "10"])).status).toBe(64);
  });
  it("fits eighty columns, in colour or plain", async () => {
    for (const text of [trial(8, 5), trial(80, 15), table(stay(99, 40, 0))]) {
      const { out } = await prove(text, "--time-out", "10");
      expect(out.split("\n").filter((line) => [...line].length > 80)).toEqual([]);
      const coloured = await atTerminal(["prove", jobPath, fileOf(text), "--time-out", "10"], {
        isColourful: true,
      });
      // biome-ignore lint/suspicious/noControlCharactersInRegex: colours are control sequences
      expect(coloured.out.replace(/\u001b\[\d+m/g, "")).toBe(out);
    }
  });
  it("still reads readings", async () => {
    const { status, out } = await prove("step,car A,L1 A,L1 W\nidle,0,1,200\ncar,16,17,3900");
    expect([0, 1, 2]).toContain(status);
    expect(out).toContain("Mark of this chain");
  });
  it("lets nothing in a trace act on the terminal, whatever it holds", async () => {
    await fc.assert(
      fc.asyncProperty(fc.string({ maxLength: 200, unit: "binary" }), async (rest) => {
        const { status, out, err } = await prove(`time s,L1 A,${rest}`);
        expect([0, 1, 2, 64]).toContain(status);
        // biome-ignore lint/suspicious/noControlCharactersInRegex: none may be printed
        expect(out + err).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f]/);
        expect(err).not.toContain("this program's fault");
      }),
      { numRuns: 60 },
    );
  });
});
