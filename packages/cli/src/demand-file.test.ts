import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { atTerminal, emptyFolder, exampleJob } from "./testing/at-terminal.ts";

const house = exampleJob("terraced-house");
const hall = exampleJob("village-hall");

/** Half-hours of 10 A in the clean form. */
const day = (heading: string, days = 1): string => {
  const path = join(emptyFolder(), "demand.csv");
  const rows = Array.from(
    { length: 48 * days },
    (_, at) => `${new Date(Date.UTC(2026, 0, 5) + at * 1_800_000).toISOString().slice(0, 19)}Z,10,recorded`,
  );
  writeFileSync(path, `${["start UTC,", heading, ",quality\n", rows.join("\n")].join("")}\n`);
  return path;
};
const simulated = async (job: string, heading: string) => {
  const { status, out, err } = await atTerminal(["simulate", job, "--demand", day(heading), "--days", "1"]);
  return { status, out: out.replace(/\s+/g, " "), err: err.replace(/\s+/g, " ") };
};

describe("a current of no named line", () => {
  it.each([
    [hall, "A per 1800 s on 1 line", "holds the current of one line", "three columns"],
    [hall, "A per 1800 s", "does not say of which line", "--lines 3"],
    [house, "A per 1800 s on each of 3 lines", "a third of what all lines carried", "--lines 1"],
  ])("is refused on a supply it is not for, with the cure: %s, %s", async (job, heading, why, cure) => {
    const { status, err } = await simulated(job, heading);
    expect([status, err]).toEqual([2, expect.stringContaining(why)]);
    expect(err).toContain(cure);
  });
  it("stands on each of three lines where it was shared, and the words say so", async () => {
    const { out, err } = await simulated(hall, "A per 1800 s on each of 3 lines");
    expect(err).toBe("");
    expect(out).toContain("shared equally");
  });
  it.each(["A per 1800 s on 1 line", "A per 1800 s"])(
    "is that of a supply of one line: %s",
    async (heading) => expect((await simulated(house, heading)).out).toContain("recorded from 2026-01-05"),
  );
  it.each([
    ["1", "A per 1800 s on 1 line", "10,"],
    ["3", "A per 1800 s on each of 3 lines", "3.3333333333333335,"],
  ])("comes of an import with --lines %s", async (lines, heading, value) => {
    const [file, clean] = ["energy.csv", "clean.csv"].map((name) => join(emptyFolder(), name)) as [
      string,
      string,
    ];
    writeFileSync(
      file,
      "Date,Time,kWh\n2026-01-01,00:00,1.15\n2026-01-01,00:30,2.3\n2026-01-01,01:00,1.15\n",
    );
    const by = ["--amperes", "--voltage", "230", "--power-factor", "1", "--lines", lines];
    await atTerminal(["import", file, "--labels", "start", "--csv", clean, ...by]);
    const [head, first] = readFileSync(clean, "utf8").split("\n");
    expect(head).toBe(`start UTC,${heading},quality`);
    expect(first).toContain(`Z,${value}`);
  });
});

describe("what a recording contains", () => {
  const told = async (...words: readonly string[]) => {
    const { status, out, err } = await atTerminal(["simulate", house, ...words]);
    return { status, out: out.replace(/\s+/g, " "), err: err.replace(/\s+/g, " ") };
  };
  const file = () => day("A per 1800 s on 1 line", 7);
  it("is everything unless something else is said, and it is said", async () => {
    const { out, err } = await told("--demand", file());
    expect(err).toContain("its own recording does not contain Shower");
    expect(err).toContain("add --does-not-include shower");
    expect(out).toMatch(/The recording contains [^.]*Shower[^.]*: nothing says that it lacks them/);
    expect(out).not.toContain("drawn on top");
  });
  it("is without what it is said not to include, which is drawn on top", async () => {
    const { out, err } = await told("--demand", file(), "--does-not-include", "shower");
    expect(err).toBe("");
    expect(out).toContain("does not contain Shower: drawn on top from published use");
    expect(out).not.toMatch(/The recording contains [^.]*Shower/);
  });
  it("is said by the job of its own recording", async () => {
    const { out } = await told("--days", "1");
    expect(out).toMatch(/The recording contains [^.]*: nothing says/);
    expect(out).not.toMatch(/The recording contains [^.]*Shower/);
  });
  it.each([
    [["--demand", "FILE", "--does-not-include", "sauna"], "no such load. Its loads are"],
    [["--does-not-include", "shower"], "is said of the file of --demand, and none is given"],
  ])("refuses %j", async (words, message) => {
    const { status, err } = await told(...words.map((word) => (word === "FILE" ? file() : word)));
    expect([status, err]).toEqual([64, expect.stringContaining(message)]);
  });
});

it("runs as many days as were recorded, however many", async () => {
  const { out } = await atTerminal(["simulate", house, "--demand", day("A per 1800 s on 1 line", 70)]);
  expect(out).toContain("70 days of building demand recorded from 2026-01-05");
});

describe("means longer than a minute", () => {
  const means = (): string => day("A per 1800 s on 1 line", 7);
  it("let nothing about the supply pass: words, data and exit status say that it cannot be told", async () => {
    const words = ["simulate", house, "--demand", means()];
    const { status, out } = await atTerminal(words);
    const [, supply = ""] = out.split("\nThe supply\n");
    const marks = (supply.split("\nThe load manager\n")[0] ?? "").match(/^[✓✗?·]/gm);
    expect(marks?.slice(0, 3)).toEqual(["?", "?", "?"]);
    const told = out.replace(/\s+/g, " ");
    expect(told).toMatch(
      /L1: whether the main fuse is safe cannot be told. .* means of 30 min.*10.0 A stood a minute of 13.2 A to 22.8 A .* Record the supply by the minute/,
    );
    const failing = told.split("If something fails")[1]?.split("Know this")[0] ?? "";
    expect(failing).not.toContain("✓");
    expect(status).not.toBe(0);
    const data = JSON.parse((await atTerminal([...words, "--json"])).out);
    expect(data.verdicts.supply[1]).toMatchObject({
      verdict: "cannot-tell",
      says: expect.stringContaining("L1: never over"),
    });
    expect(data.hidden).toMatchObject({ intervalS: 1800, lines: [{ line: "L1", highestMeanA: 10 }] });
    expect(data.trials.map(({ verdict }: { verdict: string }) => verdict)).not.toContain("pass");
  });
  it("let nothing about the supply pass in a report", async () => {
    const path = join(emptyFolder(), "report.html");
    await atTerminal(["report", house, "--demand", means(), "-o", path]);
    const html = readFileSync(path, "utf8");
    expect(html).toContain("<span>?</span> L1: never over");
    expect(html).not.toContain("<span>✓</span> L1");
    expect(html).toContain("from means of 30");
  });
  it("do not let a sweep end as if all were told", async () => {
    const { status } = await atTerminal([
      "sweep",
      house,
      "--demand",
      means(),
      "--margin",
      "4",
      "--read-every",
      "1",
    ]);
    expect(status).toBe(2);
  });
});

it("takes the building's current from the file for each line its own, and says that it was given beside the job", async () => {
  const path = day("L1 A per 1800 s,L1 quality,L2 A per 1800 s,L2 quality,L3 A per 1800 s");
  const text = readFileSync(path, "utf8").replace(",quality\n", ",L3 quality\n");
  writeFileSync(path, text.replaceAll(",10,recorded", ",10,recorded,11,recorded,12,recorded"));
  const words = ["simulate", hall, "--demand", path, "--days", "1"];
  const data = JSON.parse((await atTerminal([...words, "--json"])).out);
  expect(data.hidden.lines.map(({ highestMeanA }: { highestMeanA: number }) => highestMeanA)).toEqual([
    10, 11, 12,
  ]);
  const told = (await atTerminal(words)).out.replace(/\s+/g, " ");
  expect(told).toContain("was given beside the job");
  expect(told).not.toContain("shared equally");
});

it("refuses watts, and says how to import them", async () => {
  const { status, err } = await simulated(house, "W per 1800 s");
  expect([status, err]).toEqual([
    2,
    expect.stringContaining("holds W, and the simulation needs the current"),
  ]);
});

it("says nothing of equal sharing on a supply of one line", async () =>
  expect((await simulated(house, "A per 1800 s on 1 line")).out).not.toContain("shared equally"));

it("lets nothing about the supply pass on readings that are questionable, and refuses a file without any", async () => {
  const path = day("A per 1800 s on 1 line", 8);
  const good = readFileSync(path, "utf8");
  const told = async (text: string) => {
    writeFileSync(path, text);
    const { status, out, err } = await atTerminal(["simulate", house, "--demand", path, "--days", "8"]);
    return { status, said: `${out}${err}`.replace(/\s+/g, " ") };
  };
  const words = "too many readings are estimated or questionable";
  expect((await told(good.replaceAll(",recorded", ",questionable"))).said).toContain(words);
  expect((await told(good.replaceAll(",recorded", ",estimated"))).said).toContain(words);
  expect((await told(good)).said).not.toContain(words);
  expect(await told(good.replaceAll(",10,recorded", ",,absent"))).toEqual({
    status: 2,
    said: expect.stringContaining("holds no reading of L1 in its whole days"),
  });
});

it("ends a sweep as told only where delays bound the time over the limit", async () => {
  const job = JSON.parse(readFileSync(house, "utf8"));
  const cutOut = job.nodes.find(({ kind }: { kind: string }) => kind === "cut-out");
  const { overcurrent } = JSON.parse(readFileSync(hall, "utf8")).nodes.find(
    ({ kind }: { kind: string }) => kind === "cut-out",
  );
  // Of 63 A a curve is held, and of 60 A none.
  cutOut.overcurrent = { ...overcurrent, ratingA: { ...overcurrent.ratingA, value: 63 } };
  const folder = emptyFolder();
  const rows = Array.from(
    { length: 8 * 1440 },
    (_, at) => `${new Date(Date.UTC(2026, 0, 5) + at * 60_000).toISOString().slice(0, 19)}Z,20,recorded`,
  );
  writeFileSync(join(folder, "demand.csv"), `start UTC,A per 60 s on 1 line,quality\n${rows.join("\n")}\n`);
  const statusUnder = async (law: string) => {
    job.limiter.law = { state: "known", value: law, basis: "declared", on: "2026-11-01" };
    writeFileSync(join(folder, "job.json"), JSON.stringify(job));
    const words = ["--margin", "4", "--read-every", "1", "--fallback", "0", "--days", "8"];
    const asked = ["sweep", join(folder, "job.json"), "--demand", join(folder, "demand.csv"), ...words];
    return (await atTerminal(asked)).status;
  };
  expect([await statusUnder("direct"), await statusUnder("integrating")]).toEqual([0, 2]);
});
