import { copyFileSync, cpSync, existsSync, readFileSync, symlinkSync, writeFileSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import type { Job } from "@underfuse/engine";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { atTerminal, emptyFolder, exampleJob } from "./testing/at-terminal.ts";

const ESCAPE = "\u001b";
const house = exampleJob("terraced-house");

/** A job file with the given text in a folder of its own. */
function fileOf(text: string): string {
  const path = join(emptyFolder(), "job.json");
  writeFileSync(path, text);
  return path;
}
const changed = (change: (job: Job) => void): string => {
  const job: Job = JSON.parse(readFileSync(exampleJob("farmhouse"), "utf8"));
  change(job);
  return fileOf(JSON.stringify(job));
};

describe("assess", () => {
  it("says what fails and ends with 1", async () => {
    const { status, out } = await atTerminal(["assess", exampleJob("farmhouse")]);
    expect(status).toBe(1);
    expect(out).toContain("One check fails: voltage drop");
    expect(out).toMatch(/✗ {3}.*\n(.*\n)* {4}voltage-drop\//);
  });
  it("ends with 2 when nothing fails and something cannot be told", async () => {
    const { status, out } = await atTerminal(["assess", house]);
    expect(status).toBe(2);
    for (const heading of ["Survey", "Decide", "Size", "Fit", "Prove", "Hand over", "Options"])
      expect(out).toContain(`\n${heading}\n`);
  });
  it("reads the recording beside the job", async () => {
    const { out, err } = await atTerminal(["explain", house, "supply-carries-demand/building-L1"]);
    expect(err).toBe("");
    // Highest one-minute mean of 17 to 31 December 2006, by a search of the data file itself.
    expect(out).toContain("Imax = 39.4 A");
  });
  it("leaves out a recording it cannot read, and says so", async () => {
    const folder = emptyFolder();
    copyFileSync(house, join(folder, "job.json"));
    const { status, err } = await atTerminal(["assess", join(folder, "job.json")]);
    expect(status).toBe(2);
    expect(err).toContain('Recording "tails-logger", demand.csv: there is no such file. Check the');
    const out = (await atTerminal(["assess", join(folder, "job.json")])).out.replace(/\s+/g, " ");
    const [headline = ""] = out.split(" fail · ");
    expect(headline).toContain('"tails-logger" of L1 is left out: demand.csv: there is no such file');
    const explained = await atTerminal(["explain", join(folder, "job.json"), "recording-used"]);
    expect(explained.out).toContain("is left out: demand.csv: there is no such");
  });
  it("assesses as on another day", async () => {
    const edition = async (day: string) =>
      (await atTerminal(["explain", changed(withoutDates), "wiring-rules-edition", "--on", day])).out;
    const withoutDates = (job: Job) =>
      Object.assign(job.work, {
        signedOn: { state: "not-recorded" },
        designedOn: { state: "not-recorded" },
      });
    expect(await edition("2026-11-25")).not.toBe(await edition("2025-01-01"));
  });
  it("gives plain data", async () => {
    const { out } = await atTerminal(["assess", house, "--json"]);
    const { findings } = JSON.parse(out);
    expect(findings.length).toBeGreaterThan(40);
    expect(findings[0]).toMatchObject({ id: expect.any(String), verdict: expect.any(String) });
  });
});

describe("what is printed", () => {
  const commands = ["assess", "missing", "options"].flatMap((command) =>
    ["terraced-house", "village-hall", "farmhouse"].map((name) => [command, exampleJob(name)]),
  );
  it.each(commands)("%s %s fits eighty columns and holds no colour", async (command, job) => {
    const { out } = await atTerminal([command, job]);
    expect(out.split("\n").filter((line) => [...line].length > 80)).toEqual([]);
    expect(out).not.toContain(ESCAPE);
  });
  it("fits eighty columns when every finding is explained", async () => {
    const { out: json } = await atTerminal(["assess", exampleJob("village-hall"), "--json"]);
    const rules = new Set<string>(
      JSON.parse(json).findings.map(({ id }: { id: string }) => id.split("/")[0]),
    );
    for (const rule of rules) {
      const { out, status } = await atTerminal(["explain", exampleJob("village-hall"), rule]);
      expect(status).toBe(0);
      expect(out.split("\n").filter((line) => [...line].length > 80)).toEqual([]);
    }
  });
  it("is coloured on a terminal that wants it, and the words are the same", async () => {
    const { out: plain } = await atTerminal(["assess", house]);
    const { out } = await atTerminal(["assess", house], { isColourful: true });
    expect(out).toContain(ESCAPE);
    expect(out.replaceAll(new RegExp(`${ESCAPE}\\[\\d+m`, "g"), "")).toBe(plain);
  });
});

describe("explain", () => {
  it("takes a rule for all its findings", async () => {
    const { out } = await atTerminal(["explain", house, "main-bonding"]);
    expect(out).toContain("main-bonding/water");
    expect(out).toContain("main-bonding/gas");
  });
  it("lists what there is when the finding is not there", async () => {
    const { status, err } = await atTerminal(["explain", house, "voltage-drop/nowhere"]);
    expect(status).toBe(64);
    expect(err).toContain('There is no finding "voltage-drop/nowhere". Near it:\n  voltage-drop/car\n');
  });
});

describe("recordings too long for this machine", () => {
  it("are left out beyond what a job's recordings may hold together", async () => {
    const path = changed((job) => {
      const recording = {
        kind: "interval-series",
        line: "L1",
        columns: { delimiter: ";", date: "d", dateOrder: "year-month-day", time: "t", current: "i" },
        unit: "A",
        file: "log.csv",
        intervalS: 1,
        labels: "start",
        from: "2026-01-01",
        until: "2026-11-30",
      } as const;
      job.demand.recordings = [
        { ...recording, id: "first", doesNotInclude: [] },
        { ...recording, id: "second", doesNotInclude: [] },
      ];
    });
    writeFileSync(join(dirname(path), "log.csv"), "d;t;i\n2026-02-01;00:00;20\n");
    const { err } = await atTerminal(["assess", path]);
    expect(err).not.toContain('"first"');
    expect(err.replaceAll(/\s+/g, " ")).toContain('Recording "second", log.csv: the days');
  });
});

describe("report", () => {
  it("writes one page and says where", async () => {
    const path = join(emptyFolder(), "report.html");
    const { status, out } = await atTerminal(["report", house, "-o", path]);
    expect(status).toBe(0);
    expect(out).toBe(`Report written to ${path}\n`);
    expect(readFileSync(path, "utf8")).toMatch(/^<!doctype html>/);
  });
  it("serves the page it wrote", async () => {
    const path = join(emptyFolder(), "report.html");
    let served = "";
    const { out } = await atTerminal(["report", house, "-o", path, "--serve"], {
      serve: async (page) => {
        served = page;
        return "http://127.0.0.1:4000/";
      },
    });
    expect(served).toBe(readFileSync(path, "utf8"));
    expect(out).toContain("http://127.0.0.1:4000/");
  });
  it("is never written over the job or a recording of it, by whatever name", async () => {
    const folder = emptyFolder();
    cpSync(dirname(house), folder, { recursive: true });
    const [job, recording, link] = ["job.json", "demand.csv", "link.html"].map((name) => join(folder, name));
    symlinkSync(job as string, link as string);
    const before = [job, recording].map((path) => readFileSync(path as string, "utf8"));
    for (const output of [job, recording, link, join(folder, "..", basename(folder), "job.json")]) {
      const { status, err } = await atTerminal(["report", job as string, "-o", output as string]);
      expect(status).toBe(64);
      expect(err).toMatch(/is (the job file itself|a recording of the job) and is left as it is/);
    }
    expect([job, recording].map((path) => readFileSync(path as string, "utf8"))).toEqual(before);
  });
  it("says so when there is nowhere to write", async () => {
    const { status, err } = await atTerminal(["report", house, "-o", join(emptyFolder(), "no", "r.html")]);
    expect(status).toBe(64);
    expect(err).toContain("Choose another place.");
  });
});

describe("new and schema", () => {
  it("begins a job that opens, and never writes over a file", async () => {
    const path = join(emptyFolder(), "new.json");
    const words = ["new", path, "--title", "Corner shop", "--in", "scotland", "--phases", "3"];
    expect(await atTerminal(words)).toMatchObject({
      status: 0,
      out: expect.stringContaining(`Written to ${path}`),
    });
    const written = readFileSync(path, "utf8");
    expect(JSON.parse(written)).toMatchObject({ id: "corner-shop", site: { jurisdiction: "scotland" } });
    expect((await atTerminal(["assess", path])).status).toBe(2);
    expect(await atTerminal(words)).toMatchObject({
      status: 64,
      err: expect.stringContaining("is there already and is left as it is"),
    });
    expect(readFileSync(path, "utf8")).toBe(written);
  });
  it.each([
    ["empty", ""],
    ["blank", "  "],
    ["on two lines", "Corner\nshop"],
    ["with a control character", "Corner\u001b[2Jshop"],
    ["of 501 characters", "x".repeat(501)],
  ])("refuses a title that is %s, and writes nothing", async (_what, title) => {
    const path = join(emptyFolder(), "new.json");
    const { status, err } = await atTerminal(["new", path, "--title", title]);
    expect(status).toBe(64);
    expect(err).toContain("That title cannot be used, and nothing was written.");
    expect(existsSync(path)).toBe(false);
  });
  it("takes a title of 500 characters", async () => {
    const path = join(emptyFolder(), "new.json");
    expect((await atTerminal(["new", path, "--title", "x".repeat(500)])).status).toBe(0);
    expect((await atTerminal(["assess", path])).status).toBe(2);
  });
  it("prints the format", async () => {
    const { out } = await atTerminal(["schema"]);
    expect(JSON.parse(out)).toMatchObject({ $schema: "https://json-schema.org/draft/2020-12/schema" });
  });
});

describe("a job that cannot be read", () => {
  const refusals: [what: string, path: () => string, says: RegExp][] = [
    ["no file", () => join(emptyFolder(), "job.json"), /there is no such file\. Check the name\./],
    ["a folder", emptyFolder, /that is a folder\. Name a file in it\./],
    ["an empty file", () => fileOf(""), /line 1, column 1[\s\S]*JSON_SYNTAX/],
    ["not JSON", () => fileOf("{ format: 1 }"), /line 1, column 3[\s\S]*JSON_SYNTAX/],
    ["a number that is none", () => fileOf('{ "a": NaN }'), /line 1, column 8[\s\S]*JSON_SYNTAX/],
    ["another document", () => fileOf('{ "format": "letter" }'), /NOT_A_JOB/],
    ["a list", () => fileOf("[]"), /NOT_A_JOB/],
    ["a depth bomb", () => fileOf("[".repeat(100_000)), /nested deeper[\s\S]*JSON_TOO_DEEP/],
    ["a key that reaches into prototypes", () => fileOf('{ "__proto__": {} }'), /JSON_FORBIDDEN_KEY/],
    ["a key twice", () => fileOf('{ "id": 1, "id": 2 }'), /stands twice[\s\S]*JSON_DUPLICATE_KEY/],
    ["a newer format", () => changed((job) => Object.assign(job, { formatVersion: 7 })), /newer version/],
    ["fifty megabytes", () => fileOf(`"${"x".repeat(50_000_000)}"`), /Check that this is the job file/],
    ["a hundred megabytes", () => fileOf(`"${"x".repeat(100_000_000)}"`), /the file has 100000002 bytes/],
    [
      "a node twice",
      () => changed((job) => job.nodes.push(job.nodes[3] as Job["nodes"][number])),
      /TREE_DUPLICATE_ID/,
    ],
    [
      "a cable of negative length",
      () =>
        changed((job) => {
          for (const { run } of job.cables)
            if (typeof run === "object") Object.assign(run.lengthM, { value: -3 });
        }),
      /run\.lengthM\.value\n {4}found: -3\n {4}It must be at least 0\./,
    ],
  ];
  it.each(refusals)(
    "%s: a message with its cure, no trace, the file as it was",
    async (_what, make, says) => {
      const path = make();
      const before = contents(path);
      const { status, out, err } = await atTerminal(["assess", path]);
      expect(status).toBe(64);
      expect(out).toBe("");
      expect(err).toMatch(says);
      expect(err).not.toMatch(/\n\s+at |fault, not the job's/);
      expect(err.length).toBeLessThan(1000);
      expect(contents(path) === before).toBe(true);
    },
  );
  it("lets nothing in it act on the terminal", async () => {
    const { err } = await atTerminal(["assess", fileOf(`{ "${ESCAPE}[2J": 1`)]);
    expect(err).not.toContain(ESCAPE);
    const { err: unknownField } = await atTerminal([
      "assess",
      changed((job) => Object.assign(job, { [`a${ESCAPE}[2J`]: 1, title: `${ESCAPE}]0;x` })),
    ]);
    expect(unknownField).toContain("\\u001b[2J");
    expect(unknownField).not.toContain(ESCAPE);
  });
  it("is refused in words whatever bytes it holds", async () => {
    const folder = emptyFolder();
    await fc.assert(
      fc.asyncProperty(fc.uint8Array({ maxLength: 300 }), async (bytes) => {
        const path = join(folder, "job.json");
        writeFileSync(path, bytes);
        const { status, err } = await atTerminal(["assess", path]);
        expect(status).toBe(64);
        expect(err).toMatch(/cannot be opened[\s\S]*\[[A-Z_]+\]\n$/);
      }),
      { numRuns: 200 },
    );
  });
});

describe("a command that cannot be read", () => {
  const wrong: [words: string[], says: RegExp][] = [
    [["asses", house], /unknown command 'asses'/],
    [["assess"], /missing required argument 'job'/],
    [["assess", house, "--on", "2026-02-30"], /year-month-day/],
    [["assess", house, "--colour"], /unknown option/],
    [["new", "x.json", "--phases", "2"], /1, 3/],
    [["report", house], /--output/],
  ];
  it.each(wrong)("%j ends with 64 and a cure", async (words, says) => {
    const { status, err } = await atTerminal(words);
    expect(status).toBe(64);
    expect(err).toMatch(says);
  });
  it("shows help with nothing asked, and the exit statuses in it", async () => {
    const { out, err } = await atTerminal(["--help"]);
    expect(out + err).toContain("Exit status: 0 every check passes");
  });
});

const contents = (path: string): string | null => {
  try {
    return readFileSync(path, "latin1");
  } catch {
    return null;
  }
};
