import { readFileSync } from "node:fs";
import {
  blankManagedJob,
  FAILURES,
  type Job,
  openJob,
  parsePortfolio,
  parseRegisterMap,
  portfolioJsonSchema,
} from "@underfuse/engine";
import { GREAT_BRITAIN } from "@underfuse/knowledge";
import { describe, expect, it } from "vitest";

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
