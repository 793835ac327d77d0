import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parseJob } from "../parse-job.ts";
import { FORMAT_VERSION } from "../schema/job.ts";

const folder = new URL("fixtures/", import.meta.url);

describe("jobs ever written", () => {
  const versions = Array.from({ length: FORMAT_VERSION }, (_, index) => index + 1);
  it("have one saved for every format", () => {
    expect(readdirSync(folder).sort()).toEqual(versions.map((version) => `format-${version}.json`));
  });
  it.each(versions)("of format %i still open, and come up to the present one", (version) => {
    const text = readFileSync(new URL(`format-${version}.json`, folder), "utf8");
    expect(JSON.parse(text).formatVersion).toBe(version);
    const result = parseJob(text);
    expect(result.ok ? result.job.formatVersion : result.problems).toBe(FORMAT_VERSION);
  });
});
