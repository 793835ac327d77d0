import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import {
  blankManagedJob,
  FAILURES,
  type Job,
  openJob,
  parsePortfolio,
  parseRegisterMap,
  portfolioJsonSchema,
} from "@underfuse/engine";
import { readCleanSeries } from "@underfuse/intake";
import { GREAT_BRITAIN } from "@underfuse/knowledge";
import { describe, expect, it } from "vitest";
import { atTerminal, emptyFolder } from "../packages/cli/src/testing/at-terminal.ts";

const page = readFileSync("docs/how-to/describe-a-job.md", "utf8");
const snippets = [...page.matchAll(/```json\n([\s\S]*?)```/g)].map(([, text = ""]) =>
  JSON.parse(text.trimStart().startsWith("{") ? text : `{${text}}`),
);
const start = { id: "site", title: "Site", jurisdiction: "england", phases: 1 } as const;
const opened = (change: (job: Job) => void) => {
  const job = blankManagedJob(start);
  change(job);
  const open = openJob(JSON.stringify(job));
  return open.ok ? [] : open.problems;
};
type Fields = Record<string, never>;
const having = (key: string) => snippets.filter((snippet) => key in snippet);

describe("how to describe a job", () => {
  it("shows facts that a job takes", () => {
    expect(having("measuredZeOhm").length).toBe(2);
    for (const { measuredZeOhm } of having("measuredZeOhm"))
      expect(opened((job) => Object.assign(job.supply, { measuredZeOhm }))).toEqual([]);
    const [{ agreedExportLimitA } = {}] = having("agreedExportLimitA");
    expect(opened((job) => Object.assign(job.supply.operator, { agreedExportLimitA }))).toEqual([]);
  });
  it("shows a load, its cable and a recording that a job takes", () => {
    const [load, cable] = [having("purpose")[0], having("from").find((item) => "run" in item)];
    const recordings = having("recordings").flatMap((snippet) => snippet.recordings);
    expect(recordings.map(({ kind }) => kind)).toEqual(["interval-series", "recorded-maximum"]);
    const problems = opened((job) => {
      job.nodes.push(load);
      job.cables.push(cable);
      job.demand.recordings.push(...recordings);
    });
    expect(problems).toEqual([]);
  });
  it("lists every purpose of a load", () => {
    const listed = [...page.matchAll(/^\| `([a-z-]+)` +\|/gm)].map(([, word]) => word);
    const [problem] = opened((job) => job.nodes.push({ ...having("purpose")[0], purpose: "?" }));
    const allowed = problem?.message.replace(/^It must be one of: |\.$/g, "").split(", ");
    expect([...listed].sort()).toEqual(allowed?.sort());
  });
  it("shows a run in two parts, bonding, proofs, test results and failures that a job takes", () => {
    const [joint] = having("kind").filter(({ kind }) => kind === "connector-block");
    const [{ bonding }, { deadProofs }, { circuits }, { failures }] = [
      "bonding",
      "deadProofs",
      "circuits",
      "failures",
    ].map((key) => having(key)[0]) as [Fields, Fields, Fields, Fields];
    const problems = opened((job) => {
      const last = job.cables.find(({ to }) => to === "charge-point") as Job["cables"][number];
      job.nodes.push(joint);
      job.cables.push({ ...last, id: "joint-to-charge-point", from: "joint" });
      last.to = "joint";
      Object.assign(job.earthing, { bonding });
      Object.assign(job.tests, { deadProofs, circuits });
      Object.assign(job.limiter as object, { failures });
    });
    expect(problems).toEqual([]);
  });
  it("names every failure of the load manager", () => {
    for (const failure of FAILURES) expect(page).toContain(failure);
  });
  it("shows where a transformer sits", () => {
    const [ct] = having("conductor");
    expect(blankManagedJob(start).metering?.currentTransformers[0]).toMatchObject({
      id: ct.id,
      cable: ct.cable,
      conductor: ct.conductor,
      channel: ct.channel,
    });
  });
});

describe("how to decode registers", () => {
  it("shows a map that is one", () => {
    const text = readFileSync("docs/how-to/decode-registers.md", "utf8");
    const [, json = ""] = /```json\n([\s\S]*?)```/.exec(text) ?? [];
    expect(parseRegisterMap(json)).toMatchObject({ ok: true });
  });
});

describe("how to plan a street", () => {
  const street = readFileSync("docs/how-to/plan-a-street.md", "utf8");
  const shown = /```json\n([\s\S]*?)```/.exec(street)?.[1] ?? "";
  it("shows the example, which opens", () => {
    expect(JSON.parse(shown)).toEqual(JSON.parse(readFileSync("examples/street/portfolio.json", "utf8")));
    expect(parsePortfolio(shown, GREAT_BRITAIN.demand.appliances).ok).toBe(true);
  });
  it("explains every field of the format", () => {
    type Node = { readonly properties?: Readonly<Record<string, Node>> };
    const { properties = {} } = portfolioJsonSchema() as Node;
    const { cars, format: _format, formatVersion: _version, title: _title, ...rest } = properties;
    const explained = [...street.matchAll(/^\| `(\w+)` +\|/gm)].map(([, name]) => name);
    expect(explained.toSorted()).toEqual(
      [...Object.keys(rest), ...Object.keys(cars?.properties ?? {})].toSorted(),
    );
  });
});

describe("how to run a site through its days", () => {
  const simulate = readFileSync("docs/how-to/simulate-a-site.md", "utf8");
  const shown = [...simulate.matchAll(/```json\n([\s\S]*?)```/g)].map(([, text = ""]) =>
    JSON.parse(`{${text}}`),
  );
  it("shows settings and cars that a job takes", () => {
    const problems = opened((job) => {
      Object.assign(job.limiter as object, shown[0].limiter);
      job.cars = shown[1].cars.map((car: Job["cars"][number]) => ({ ...car, chargePoint: "charge-point" }));
    });
    expect(shown).toHaveLength(2);
    expect(problems).toEqual([]);
  });
});

describe("how to import a recording", () => {
  const text = readFileSync("docs/how-to/import-a-recording.md", "utf8");
  const tables = [...text.matchAll(/```csv\n([\s\S]*?)```/g)].map(([, table = ""]) => table);
  const commands = [...text.matchAll(/^ {4}npx underfuse import (\S+)(.*)$/gm)].map(
    ([, file = "", options = ""]) => ({
      file,
      options: options.trim().split(" ").filter(Boolean),
    }),
  );
  /** Tables in the order of the page; the last is the clean form of the second. */
  const files: Readonly<Record<string, string>> = {
    "day-rows.csv": tables[0] ?? "",
    "readings.csv": tables[1] ?? "",
    "logger.csv": tables[2] ?? "",
  };
  const folder = emptyFolder();
  for (const [name, table] of Object.entries(files)) writeFileSync(join(folder, name), table);
  const run = (file: string, options: readonly string[]) =>
    atTerminal([
      "import",
      join(folder, file),
      ...options.map((word) => (word.endsWith(".csv") ? join(folder, word) : word)),
    ]);

  it("shows tables that its commands import", async () => {
    const shown = commands.filter(({ file }) => file in files);
    expect(shown.map(({ file }) => file)).toEqual([
      "day-rows.csv",
      "readings.csv",
      "logger.csv",
      "readings.csv",
      "readings.csv",
    ]);
    for (const { file, options } of shown)
      expect(await run(file, options)).toMatchObject({ status: 0, err: "" });
  });
  it("shows the clean form as it is written, and as currents by what was stated", () => {
    expect(readFileSync(join(folder, "clean.csv"), "utf8")).toBe(tables[3]);
    const amperes = readCleanSeries(readFileSync(join(folder, "amperes.csv"), "utf8"));
    // 0.12 kWh in half an hour is 240 W.
    expect(amperes.ok && amperes.series.channels[0]?.values[0]).toBe(240 / (230 * 0.95));
  });
  it("says which questions the logger's table raises", async () => {
    const asked = async (options: readonly string[]): Promise<readonly string[]> => {
      const { status, out } = await run("logger.csv", ["--json", ...options]);
      expect(status).toBe(2);
      return JSON.parse(out)
        .questions.map(({ id }: { id: string }) => id)
        .sort();
    };
    expect(await asked([])).toEqual(["dateOrder", "unit", "value"]);
    const first = ["--value", "I", "--unit", "A", "--date-order", "day/month/year"];
    expect(await asked(first)).toEqual(["clock", "labels"]);
  });
});
