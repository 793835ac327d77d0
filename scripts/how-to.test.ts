import { readFileSync } from "node:fs";
import { blankManagedJob, type Job, openJob } from "@underfuse/engine";
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
    const [{ recordings } = {}] = having("recordings");
    const problems = opened((job) => {
      job.nodes.push(load);
      job.cables.push(cable);
      job.demand.recordings.push(...recordings);
    });
    expect(problems).toEqual([]);
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
