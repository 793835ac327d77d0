import { describe, expect, it } from "vitest";
import { example } from "../testing/examples.ts";
import { changed } from "../testing/findings.ts";
import { opened } from "../testing/sketch.ts";
import { terminalSchedule } from "./terminal-schedule.ts";

describe(terminalSchedule, () => {
  it("lists both secondary wires of each transformer, every tap, and the pair", () => {
    const job = opened(changed({ bus: example("terraced-house").document.bus }));
    expect(terminalSchedule(job).map(({ wire }) => wire)).toEqual([
      "ct1 S1",
      "ct1 S2",
      "tap N",
      "tap L1",
      "D1",
      "D0",
      "common",
      "screen",
    ]);
  });

  it("has a tap for each line of three", () => {
    const { job, tree } = example("village-hall");
    const wires = terminalSchedule({ job, tree }).map(({ wire }) => wire);
    expect(wires).toEqual(expect.arrayContaining(["tap L1", "tap L2", "tap L3", "tap N"]));
  });

  it("says for every wire how it is checked", () => {
    for (const { check } of terminalSchedule(opened(changed({})))) expect(check).not.toBe("");
  });

  it("is empty without a chain", () =>
    expect(terminalSchedule(opened(changed({ metering: null })))).toEqual([]));
});
