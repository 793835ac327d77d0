import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { portfolioPieces } from "./portfolio-work.ts";
import { monthDay } from "./print-portfolio.ts";
import { atTerminal, emptyFolder } from "./testing/at-terminal.ts";

const EXAMPLE = fileURLToPath(new URL("../../../examples/street/portfolio.json", import.meta.url));
const example = JSON.parse(readFileSync(EXAMPLE, "utf8"));
/** A file of the example with fewer homes and days, and whatever else is changed. */
function written(change: object = {}): string {
  const file = join(emptyFolder(), "portfolio.json");
  const small = { homes: 12, days: { first: 363, count: 4 }, draws: 3 };
  writeFileSync(file, JSON.stringify({ ...example, ...small, ...change }));
  return file;
}
const feeder = (limitA: number | null) => ({ feeder: { ...example.feeder, limitA } });

describe("underfuse portfolio", () => {
  it("prints what the streets came to, in lines of at most eighty columns", async () => {
    const { status, out, err } = await atTerminal(["portfolio", written(feeder(1000))]);
    expect([status, err]).toEqual([0, ""]);
    expect(out).toContain("12 homes, 4 days from 30 December, 3 streets drawn: 144 days of a home.");
    expect(out).toMatch(/^ {6}1 {3}\d+\.\d\d \(\d+\.\d\d to \d+\.\d\d\) +\d+\.\d\d \(/m);
    expect(out).toContain("Its limit of 1000 A was held in every minute of every street.");
    expect(Math.max(...out.split("\n").map((line) => line.length))).toBeLessThanOrEqual(80);
  });
  it("ends with 1 when the feeder's limit is exceeded, with 0 when there is none", async () => {
    const over = await atTerminal(["portfolio", written(feeder(10))]);
    expect(over.status).toBe(1);
    expect(over.out).toContain("Its limit of 10 A was exceeded in 3 of 3 streets");
    const none = await atTerminal(["portfolio", written(feeder(null))]);
    expect(none.status).toBe(0);
    expect(none.out).toContain("No limit is set.");
  });
  it("gives plain data, the same for the same seed and another for another", async () => {
    const file = written();
    const of = async (seed: string) =>
      JSON.parse((await atTerminal(["portfolio", file, "--json", "--seed", seed])).out);
    const [first, again, other] = [await of("7"), await of("7"), await of("8")];
    expect(first).toMatchObject({ seed: 7, isComplete: true, portfolio: { homes: 12 } });
    expect(first.outcome.byNumber.map((row: { homes: number }) => row.homes)).toEqual([1, 2, 5, 10, 12]);
    expect(again).toEqual(first);
    expect(other.outcome.energyPerHomeDayWh).not.toBe(first.outcome.energyPerHomeDayWh);
  });
  it("writes every day of every street to a table", async () => {
    const csv = join(emptyFolder(), "days.csv");
    await atTerminal(["portfolio", written(), "--csv", csv]);
    const rows = readFileSync(csv, "utf8")
      .trimEnd()
      .split("\n")
      .map((line) => line.split(","));
    expect(rows).toHaveLength(1 + 12);
    expect(new Set(rows.map((row) => row.length)).size).toBe(1);
    expect(rows.slice(1, 4).map((row) => row.slice(0, 3))).toEqual([
      ["1", "1", "12-30"],
      ["1", "2", "12-31"],
      ["1", "3", "01-01"],
    ]);
    expect(rows.at(-1)?.slice(0, 2)).toEqual(["3", "4"]);
  });
  it("stopped, says how far it came, keeps what is done and ends with 130", async () => {
    const stopping = new EventTarget();
    let [results, unlistened] = [0, false];
    const { status, out } = await atTerminal(
      ["portfolio", written({ days: { first: 0, count: 40 }, homes: 60, ...feeder(null) }), "--workers", "1"],
      {
        onStop: (callback) => {
          stopping.addEventListener("stop", callback);
          return () => {
            unlistened = true;
          };
        },
        isErrTerminal: true,
        err: () => {
          if (results++ === 3) stopping.dispatchEvent(new Event("stop"));
        },
        nowMs: () => 1000 * results,
      },
    );
    expect(status).toBe(130);
    expect(out).toMatch(/Stopped early: 7,200 days of a home were asked for/);
    expect(unlistened).toBe(true);
  });
  it("stopped before anything is done, says so", async () => {
    const { status, out, err } = await atTerminal(["portfolio", written()], {
      onStop: (stop) => {
        stop();
        return () => undefined;
      },
    });
    expect([status, out]).toEqual([130, ""]);
    expect(err).toContain("Stopped before the first day was done.");
  });
  it("shows progress on a terminal and leaves no trace of it in the results", async () => {
    const { out, err } = await atTerminal(["portfolio", written()], { isErrTerminal: true, nowMs: () => 0 });
    expect(err).toContain("Drawing streets [");
    expect(err.endsWith("\r")).toBe(true);
    expect(out).not.toContain("Drawing");
  });
  it.each([
    ["a file that is not there", () => "nowhere.json", "there is no such file"],
    [
      "a job",
      () => fileURLToPath(new URL("../../../examples/farmhouse/job.json", import.meta.url)),
      "NOT_A_PORTFOLIO",
    ],
    ["a share in per cent", () => written({ heatPumpShare: 20 }), "heatPumpShare"],
  ])("refuses %s", async (_what, file, words) => {
    const { status, out, err } = await atTerminal(["portfolio", file()]);
    expect([status, out]).toEqual([64, ""]);
    expect(err).toContain(words);
  });
  it.each([
    ["--seed", "-1"],
    ["--seed", "half"],
    ["--workers", "0"],
  ])("refuses %s %s", async (option, value) => {
    const { status, err } = await atTerminal(["portfolio", written(), option, value]);
    expect(status).toBe(64);
    expect(err).toContain("Write a whole number from");
  });
  it("never writes the table over a file, nor where nothing can be written, and prints what it drew", async () => {
    const file = written();
    const before = readFileSync(file, "utf8");
    const over = await atTerminal(["portfolio", file, "--csv", file]);
    expect([over.status, over.err]).toEqual([64, expect.stringContaining("is there already")]);
    expect(over.out).toContain("Demand after diversity");
    expect(readFileSync(file, "utf8")).toBe(before);
    const nowhere = await atTerminal(["portfolio", file, "--csv", join(emptyFolder(), "no", "where.csv")]);
    expect(nowhere.status).toBe(64);
    expect(nowhere.err).toContain("the table could not be written there");
  });
  it("prints the format as JSON Schema", async () => {
    const { out } = await atTerminal(["schema", "--portfolio"]);
    expect(JSON.parse(out)).toMatchObject({ title: "Portfolio" });
  });
});

describe("portfolioPieces", () => {
  it.each([
    [1, 1, 1],
    [60, 60, 20],
    [20_000, 365, 1],
    [7, 3650, 3],
  ])("cut %d homes, %d days and %d draws so that every day is in one piece", (homes, count, draws) => {
    const pieces = portfolioPieces({ ...example, homes, draws, days: { first: 0, count } });
    const seen = new Set<string>();
    for (const { draw, fromDay, toDay } of pieces) {
      for (let day = fromDay; day < toDay; day++) {
        expect(seen.has(`${draw} ${day}`)).toBe(false);
        seen.add(`${draw} ${day}`);
      }
    }
    expect(seen.size).toBe(count * draws);
    const largest = Math.max(...pieces.map(({ fromDay, toDay }) => homes * (toDay - fromDay)));
    expect(largest).toBeLessThanOrEqual(Math.max(homes, 10_000));
    // All streets advance together.
    expect(pieces.slice(0, draws).map(({ draw }) => draw)).toEqual(
      Array.from({ length: draws }, (_, draw) => draw),
    );
  });
});

describe("monthDay", () => {
  it.each([
    [0, "01-01"],
    [58, "02-28"],
    [59, "03-01"],
    [304, "11-01"],
    [364, "12-31"],
    [365, "01-01"],
  ])("day %d is %s", (day, text) => expect(monthDay(day)).toBe(text));
});
