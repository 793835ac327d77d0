import { spawn, spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";

// The bundle runs itself again on each worker thread, which no test of the sources can show.
const underfuse = "packages/cli/dist/underfuse.js";
const example = JSON.parse(readFileSync("examples/street/portfolio.json", "utf8"));
/** Building, and starting threads on a machine in use. */
const SLOW_MS = 60_000;

function run(words: readonly string[], stopAfterMs?: number) {
  return new Promise<{ status: number | null; out: string; err: string }>((resolve) => {
    const child = spawn(process.execPath, [underfuse, ...words]);
    let [out, err] = ["", ""];
    child.stdout.on("data", (chunk) => {
      out += chunk;
    });
    child.stderr.on("data", (chunk) => {
      err += chunk;
    });
    child.on("close", (status) => resolve({ status, out, err }));
    if (stopAfterMs !== undefined) setTimeout(() => child.kill("SIGINT"), stopAfterMs);
  });
}

function portfolio(change: object): string {
  const file = join(mkdtempSync(join(tmpdir(), "underfuse-")), "portfolio.json");
  writeFileSync(file, JSON.stringify({ ...example, ...change }));
  return file;
}

describe("the bundled program", () => {
  beforeAll(() => {
    expect(spawnSync(process.execPath, ["scripts/build.mjs"]).status).toBe(0);
  }, SLOW_MS);
  it(
    "works on threads and gives the same whatever their number",
    async () => {
      const file = portfolio({ homes: 20, draws: 4, days: { first: 0, count: 30 } });
      const of = (workers: string) => run(["portfolio", file, "--json", "--workers", workers]);
      const [one, two, five] = [await of("1"), await of("2"), await of("5")];
      expect(one.err).toBe("");
      expect(JSON.parse(one.out).isComplete).toBe(true);
      expect(two).toEqual(one);
      expect(five).toEqual(one);
    },
    SLOW_MS,
  );
  it(
    "stops at Ctrl-C with what is done",
    async () => {
      const file = portfolio({ homes: 200, draws: 1000, days: { first: 0, count: 365 } });
      const { status, out } = await run(["portfolio", file, "--json", "--workers", "2"], 10_000);
      const { isComplete, outcome } = JSON.parse(out);
      expect(isComplete).toBe(false);
      expect(outcome.homeDays).toBeGreaterThan(0);
      expect(outcome.homeDays).toBeLessThan(outcome.homeDaysAsked);
      expect(status).toBe(130);
    },
    SLOW_MS,
  );
});
