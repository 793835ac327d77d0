import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import type { Job } from "@underfuse/engine";
import { describe, expect, it } from "vitest";
import { atTerminal, emptyFolder, exampleJob } from "./testing/at-terminal.ts";

const house = exampleJob("terraced-house");
const hall = exampleJob("village-hall");
const currents = join(dirname(hall), "currents.csv");
const farm = exampleJob("farmhouse");
const changed = (change: (job: Job) => void): string => {
  const job: Job = JSON.parse(readFileSync(farm, "utf8"));
  change(job);
  const path = join(emptyFolder(), "job.json");
  writeFileSync(path, JSON.stringify(job));
  return path;
};

describe("simulate", () => {
  it("runs the recorded days, adds the shower they lack, and tells cars, supply and manager", async () => {
    const { out, err } = await atTerminal(["simulate", house]);
    expect(err).toBe("");
    const told = out.replace(/\s+/g, " ");
    expect(told).toContain("15 days of building demand recorded from 2006-12-17");
    expect(told).toContain("does not contain Shower: drawn on top from published use");
    expect(told).toContain("After a load step at most 13.7 s over the limit");
    expect(told).toContain("no time-current band is held for this main fuse");
    expect(out.split("\n").filter((line) => [...line].length > 80)).toEqual([]);
  });
  it("draws a dwelling that nobody recorded, and says that it is not this one", async () => {
    const { out } = await atTerminal(["simulate", farm, "--days", "3"]);
    expect(out.replace(/\s+/g, " ")).toContain("It is a plausible dwelling, not this one");
  });
  it("takes an imported recording of three lines", async () => {
    const { status, out } = await atTerminal([
      "simulate",
      hall,
      "--demand",
      currents,
      "--days",
      "2",
      "--json",
    ]);
    const { lines, building, trials } = JSON.parse(out);
    expect(lines).toHaveLength(3);
    expect(building).toMatchObject({ kind: "recorded", from: "2026-01-05", intervalS: 300 });
    expect(trials).toHaveLength(21);
    expect([0, 1, 2]).toContain(status);
  });
  it("tries the designed fallback of all charge points together, not each of them alone", async () => {
    const job: Job = JSON.parse(readFileSync(hall, "utf8"));
    const unset = { state: "not-recorded" } as const;
    Object.assign(job.limiter ?? {}, { fallbackA: unset, limitA: unset });
    for (const node of job.nodes)
      if (node.kind === "cut-out") Object.assign(node.overcurrent.ratingA, { value: 100 });
    const path = join(emptyFolder(), "job.json");
    writeFileSync(path, JSON.stringify(job));
    const { out } = await atTerminal(["simulate", path, "--demand", currents, "--days", "1", "--json"]);
    // 100 A less 3 %, less 56.088 A that the building may draw: 40.912 A for the two that share L3, in whole amperes.
    expect(JSON.parse(out).trials[0].fallbackA).toBe(20);
  });
  it("gives the same for the same seed, and other cars for another", async () => {
    const sessions = async (seed: string) =>
      JSON.parse((await atTerminal(["simulate", house, "--days", "20", "--seed", seed, "--json"])).out)
        .sessions;
    expect(await sessions("3")).toEqual(await sessions("3"));
    expect(await sessions("3")).not.toEqual(await sessions("4"));
  });
  it("says how far seeds spread", async () => {
    const { out } = await atTerminal(["simulate", house, "--days", "20", "--seeds", "4"]);
    expect(out.replace(/\s+/g, " ")).toMatch(/4 seeds, .* sessions that ended full \d+ % \(from \d+ % to/);
  });
  it("writes the sessions as a table, never over another file", async () => {
    const path = join(emptyFolder(), "sessions.csv");
    expect((await atTerminal(["simulate", house, "--csv", path])).err).toBe("");
    const [head, ...rows] = readFileSync(path, "utf8").trim().split("\n");
    expect(head).toBe(
      "car,from day,from date,from time,until day,until date,until time,wanted kWh,delivered kWh,full",
    );
    expect(rows[0]).toMatch(
      /^a car at Charge point,\d+,2006-12-\d\d,\d\d:\d\d:\d\d,\d+,2006-12-\d\d,\d\d:\d\d:\d\d,\d+\.\d{3},\d+\.\d{3},(yes|no)$/,
    );
    expect(rows.length).toBeGreaterThan(3);
    const again = await atTerminal(["simulate", house, "--csv", path]);
    expect([again.status, again.err]).toEqual([64, expect.stringContaining("is there already")]);
    expect(again.out).toContain("The cars");
  });
  it("stops when asked, and tells the days that are finished", async () => {
    let stop = (): void => undefined;
    let nowMs = 0;
    const running = atTerminal(["simulate", house, "--year"], {
      onStop: (call) => {
        stop = call;
        return () => undefined;
      },
      nowMs: () => {
        nowMs += 30;
        if (nowMs > 300) stop();
        return nowMs;
      },
    });
    const { status, out } = await running;
    expect(out.replace(/\s+/g, " ")).toMatch(/Stopped after \d+ of 365 days; what is told holds for those/);
    expect(status).toBe(130);
  });
  it("stops among seeds when asked, shows which one runs, and keeps those that are done", async () => {
    let stop = (): void => undefined;
    const { status, out, err } = await atTerminal(["simulate", house, "--days", "2", "--seeds", "50"], {
      onStop: (call) => {
        stop = call;
        return () => undefined;
      },
      isErrTerminal: true,
      err: (text) => {
        if (text.includes("Seed 4 of 50")) stop();
      },
      nowMs: (
        (nowMs) => () =>
          (nowMs += 200)
      )(0),
    });
    expect([status, err]).toEqual([130, ""]);
    const told = out.replace(/\s+/g, " ");
    expect(told).toContain("3 seeds, each with other cars");
    expect(told).toContain("Stopped after 3 of 50 seeds.");
  });
  it("draws nothing in place of a recording that cannot be read", async () => {
    const folder = emptyFolder();
    const job: Job = JSON.parse(readFileSync(house, "utf8"));
    const path = join(folder, "job.json");
    writeFileSync(path, JSON.stringify(job));
    writeFileSync(join(folder, "demand.csv"), "Date;Time;Global_intensity\n17/12/2006;00:00;many\n");
    for (const command of ["simulate", "sweep"]) {
      const { status, out, err } = await atTerminal([command, path]);
      expect([status, out]).toEqual([2, ""]);
      expect(err.replace(/\s+/g, " ")).toContain(
        'recording "tails-logger", demand.csv: line 2: "many" is no current in amperes. Correct it',
      );
    }
  });
  it("runs a year or so many days, not both", async () => {
    const { status, err } = await atTerminal(["simulate", house, "--days", "3", "--year"]);
    expect([status, err]).toEqual([64, expect.stringContaining("cannot be used with")]);
  });
  it("leaves off reading a demand file that is refused", async () => {
    let read = 0;
    const endless = async function* () {
      for (; read < 100; read++) yield new Uint8Array(1 << 18);
    };
    const { status, err } = await atTerminal(["simulate", house, "--demand", "x.csv"], {
      readChunks: endless,
    });
    expect([status, err]).toEqual([64, expect.stringContaining("a very long line")]);
    expect(read).toBeLessThan(10);
  });
  it.each([
    [
      "a job without a fuse rating",
      () =>
        changed(({ nodes }) => {
          const cutOut = nodes.find(({ kind }) => kind === "cut-out") as {
            overcurrent: { ratingA: unknown };
          };
          cutOut.overcurrent.ratingA = { state: "not-recorded" };
        }),
      "nothing can be simulated before this is known: overcurrent device rating (nodes[cut-out].overcurrent.ratingA)",
      2,
    ],
    [
      "one line without a recording and without the kind of premises",
      () =>
        changed((job) => {
          job.site.premises = { state: "not-recorded" };
        }),
      "depends on site.premises, the kind of premises, which is not recorded: record it",
      2,
    ],
    [
      "a shop without a recording",
      () =>
        changed((job) => {
          job.site.premises = {
            state: "known",
            value: "shop-or-office",
            basis: "declared",
            on: "2026-11-20",
          };
        }),
      "only a dwelling can be drawn instead; site.premises is shop-or-office",
      2,
    ],
    ["three lines without a recording", () => hall, "there is no recording of L1, L2, L3", 2],
  ] as const)("%s: says what is missing", async (_what, job, message, wanted) => {
    const { status, err } = await atTerminal(["simulate", job()]);
    expect([status, err.replace(/\s+/g, " ")]).toEqual([wanted, expect.stringContaining(message)]);
  });
  it.each([
    ["no such file", "nowhere.csv", "there is no such file"],
    [
      "another table",
      join(dirname(house), "demand.csv"),
      "This command reads what underfuse import FILE --csv OUT writes",
    ],
  ])("refuses %s as demand", async (_what, file, message) => {
    const { status, err } = await atTerminal(["simulate", house, "--demand", file]);
    expect([status, err.replace(/\s+/g, " ")]).toEqual([64, expect.stringContaining(message)]);
  });
  it("refuses energies, and says how to import them", async () => {
    const path = join(emptyFolder(), "energy.csv");
    writeFileSync(path, "start UTC,kWh per 1800 s,quality\n2026-01-05T00:00:00Z,0.5,recorded\n");
    const { status, err } = await atTerminal(["simulate", house, "--demand", path]);
    expect([status, err.replace(/\s+/g, " ")]).toEqual([
      2,
      expect.stringContaining("Import it again with --amperes"),
    ]);
  });
  it("refuses a year of five days", async () => {
    const { status, err } = await atTerminal(["simulate", house, "--year", "--days", "5"]);
    expect([status, err]).toEqual([64, expect.stringContaining("cannot be used with")]);
  });
  it.each(["0", "1.5", "-1", "0x10", "many"])("refuses %s days", async (days) => {
    const { status, err } = await atTerminal(["simulate", house, "--days", days]);
    expect([status, err]).toEqual([64, expect.stringContaining("Write a whole number of days")]);
  });
});

describe("sweep", () => {
  it("shows what differs, recommends, and tries the fallbacks", async () => {
    const { status, out } = await atTerminal([
      "sweep",
      house,
      "--days",
      "40",
      "--margin",
      "0,4",
      "--read-every",
      "1,10",
    ]);
    // Nobody holds a band for the fuse of this house, so nothing passes.
    expect(status).toBe(2);
    expect(out).toMatch(/8 settings over 40 days .* they do 4 different\s+things/);
    expect(out).toContain("←");
    const told = out.replace(/\s+/g, " ");
    expect(told).toContain("Set 56 A, a margin of 4 A under 60 A, and a reading every 1 s.");
    expect(told).toContain("2 its delays alone may be over too long");
    expect(told).toContain("less margin than the metering chain needs");
    expect(told).toContain("Fallback, with the bus broken");
    // A minute of time-out and the way to the car are more than the minute allowed; 9.7 s of average, reading, command and car leave 50.
    expect(told).toMatch(/0 A, breaking as it rises most: over for up to 6\d s, .*? over too long/);
    expect(told).toContain("Set 50 s or less.");
    expect(told).toContain("as it stands none of these is safe with the bus broken");
    expect(told).toContain("No time-current band is held for this main fuse");
    expect(told).toContain("does not contain Shower: drawn on top from published use");
    expect(out.split("\n").filter((line) => [...line].length > 80)).toEqual([]);
  });
  it("refuses readings that are too slow for a load step", async () => {
    const { status, out } = await atTerminal([
      "sweep",
      house,
      "--year",
      "--margin",
      "0",
      "--read-every",
      "30",
    ]);
    expect(status).toBe(1);
    expect(out.replace(/\s+/g, " ")).toContain("No setting here is safe. Refused: 2 over too long.");
  });
  it("recommends nothing under which no car ever charges", async () => {
    const words = ["--days", "3", "--margin", "58", "--read-every", "5", "--fallback", "0"];
    const { status, out } = await atTerminal(["sweep", house, ...words]);
    expect(status).toBe(1);
    expect(out.replace(/\s+/g, " ")).toContain("No car charges under the settings that are not refused");
  });
  it("recommends nothing from days without a car", async () => {
    const { status, out } = await atTerminal([
      "sweep",
      house,
      "--days",
      "1",
      "--seed",
      "2",
      "--margin",
      "0,4",
    ]);
    expect(status).toBe(1);
    expect(out.replace(/\s+/g, " ")).toContain(
      "No car came and left again in these days, so no setting can be recommended",
    );
  });
  it("gives every setting as data and as a table", async () => {
    const path = join(emptyFolder(), "sweep.csv");
    const { out } = await atTerminal([
      "sweep",
      house,
      "--days",
      "3",
      "--fallback",
      "0",
      "--json",
      "--csv",
      path,
    ]);
    const { settings, recommendation, askedCount, building } = JSON.parse(out);
    expect(settings).toHaveLength(36);
    expect([askedCount, building.adds]).toEqual([36, ["Shower"]]);
    // Which fallback is told apart: the one swept beside it was never needed.
    expect(recommendation.setting).toEqual({ setA: 50, limitA: 60, marginA: 10, readEveryS: 5 });
    expect(readFileSync(path, "utf8").trim().split("\n")).toHaveLength(37);
  });
  it.each([
    [["--margin", "1,,2"], "Write amperes from 0 to 1000 with commas"],
    [["--read-every", "0"], "Write seconds from 0.05 to 3600"],
    [["--limit", "2000"], "Write amperes from 0 to 1000"],
    [["--fallback", "0,3"], "Write 0 for a pause, or 6 and more"],
  ])("refuses %j", async (words, message) => {
    const { status, err } = await atTerminal(["sweep", house, ...words]);
    expect([status, err]).toEqual([64, expect.stringContaining(message)]);
  });
  it("refuses more settings than it can hold", async () => {
    const many = Array.from({ length: 1100 }, (_, index) => index / 10).join();
    const { status, err } = await atTerminal(["sweep", house, "--margin", many]);
    expect([status, err.replace(/\s+/g, " ")]).toEqual([64, expect.stringContaining("at most 4096")]);
  });
});

describe("a sweep that is stopped", () => {
  it("tells the settings that are done and ends with 130", async () => {
    let stop = (): void => undefined;
    const { status, out } = await atTerminal(["sweep", house, "--days", "3"], {
      onStop: (call) => {
        stop = call;
        return () => undefined;
      },
      isErrTerminal: true,
      err: (text) => {
        if (text.includes("Sweeping")) stop();
      },
      threadCount: 1,
      nowMs: (
        (nowMs) => () =>
          (nowMs += 200)
      )(0),
    });
    expect(status).toBe(130);
    expect(out.replace(/\s+/g, " ")).toMatch(/Stopped: \d+ of \d+ settings over 3 days/);
  });
});

describe("a report through time", () => {
  const page = async (...words: readonly string[]) => {
    const path = join(emptyFolder(), "report.html");
    const printed = await atTerminal(["report", ...words, "-o", path]);
    return { ...printed, html: existsSync(path) ? readFileSync(path, "utf8") : "" };
  };
  it("takes a recording as simulate does", async () => {
    const { html } = await page(hall, "--demand", currents);
    expect(html).toContain("of building demand, 14 of them recorded from 2026-01-05");
    expect(html).toContain("Energy per night");
  });
  it("says why there is none, and what to supply", async () => {
    const { html } = await page(hall);
    expect(html).toMatch(
      /<h2>Through time<\/h2>\s*<p>Not simulated: There is no recording of L1, L2, L3[^<]*--demand/,
    );
  });
  it("writes over no recording that is given", async () => {
    const path = join(emptyFolder(), "demand.csv");
    writeFileSync(path, readFileSync(currents));
    const { status, err } = await atTerminal(["report", hall, "--demand", path, "-o", path]);
    expect([status, err]).toEqual([64, expect.stringContaining("is the recording and is left as it is")]);
    expect(readFileSync(path, "utf8")).toBe(readFileSync(currents, "utf8"));
  });
  it("shows how far it is, and writes nothing when it is stopped", async () => {
    const stops = new Set<() => void>();
    let messages = "";
    const path = join(emptyFolder(), "report.html");
    const { status } = await atTerminal(["report", house, "-o", path], {
      onStop: (call) => {
        stops.add(call);
        return () => stops.delete(call);
      },
      isErrTerminal: true,
      err: (text) => {
        messages += text;
        if (text.includes("Simulating nights")) for (const stop of stops) stop();
      },
      nowMs: (
        (nowMs) => () =>
          (nowMs += 200)
      )(0),
    });
    expect(messages).toContain("Simulating days [");
    expect(messages).toContain("Stopped before it was done. Nothing was written.");
    expect([status, existsSync(path), stops.size]).toEqual([130, false, 0]);
  });
});

describe("options", () => {
  it("show how far they are on a terminal", async () => {
    const { err } = await atTerminal(["options", house], {
      isErrTerminal: true,
      nowMs: (
        (nowMs) => () =>
          (nowMs += 200)
      )(0),
    });
    expect(err).toContain("Simulating nights [");
  });
  it("say what they give the cars", async () => {
    const { out } = await atTerminal(["options", house]);
    expect(out.replace(/\s+/g, " ")).toMatch(
      /Energy per night [\d.]+ kWh, mornings full \d+ % \(\d+ sessions in 365 days simulated, from 15 recorded days\)/,
    );
    const data = JSON.parse((await atTerminal(["options", house, "--json"])).out);
    expect(data[0].nights).toMatchObject({ days: 365, sessions: expect.any(Number) });
  });
  it("stay silent about nights that cannot be run", async () => {
    const { out } = await atTerminal(["options", hall]);
    expect(out).not.toContain("Energy per night");
    expect(existsSync(currents)).toBe(true);
  });
  it("take a recording as simulate does", async () => {
    const { out } = await atTerminal(["options", hall, "--demand", currents]);
    expect(out.replace(/\s+/g, " ")).toMatch(/Energy per night .* from 14 recorded days/);
  });
});
