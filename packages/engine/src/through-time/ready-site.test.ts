import { expect, it } from "vitest";
import { NOT_RECORDED } from "../job/index.ts";
import { setAt } from "../testing/set-at.ts";
import { soundJob } from "../testing/sound-job.ts";
import { studied } from "../testing/studied.ts";
import { readySite } from "./ready-site.ts";

it("is the plan of a job that can be run", () => expect(readySite(studied(soundJob())).ok).toBe(true));

it("names what must be known before, with its place", () => {
  const unknown = setAt(soundJob(), "supply.nominalVoltageV", NOT_RECORDED);
  expect(readySite(studied(unknown))).toEqual({
    ok: false,
    because: expect.stringMatching(/before this is known: .*\(supply\.nominalVoltageV\)/),
  });
});

it("is refused without a charge point", () => {
  const job = soundJob();
  const without = {
    ...job,
    nodes: job.nodes.filter(({ kind }) => kind !== "charge-point"),
    cables: job.cables.filter(({ to }) => to !== "car"),
    limiter: null,
  };
  expect(readySite(studied(without))).toEqual({
    ok: false,
    because: "the job has no charge point to simulate.",
  });
});
