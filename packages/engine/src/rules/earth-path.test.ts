import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED, notApplicable } from "../job/index.ts";
import { type Changes, changed, said } from "../testing/findings.ts";
import { opened } from "../testing/sketch.ts";
import { earthPath } from "./earth-path.ts";

const tails = ["cut-out-to-meter", "meter-to-board"].map((id) => `cables[${id}].run.protective`);
const bare = (form: unknown): Changes =>
  Object.fromEntries(tails.map((path) => [path, { form, mm2: NOT_RECORDED }]));

describe("earthPath", () => {
  it.each([
    ["none", known("none")],
    ["not applicable", notApplicable("tails")],
  ])("tails with a protective conductor recorded as %s take the earthing conductor", (_what, form) => {
    expect(said("disconnection", bare(form))).toEqual(["pass designed", "pass measured"]);
    expect(said("disconnection", { ...bare(form), "earthing.earthingConductorMm2": NOT_RECORDED })).toEqual([
      "cannot-tell designUnknown earthing.earthingConductorMm2",
      "pass measured",
    ]);
  });
  it("gives the loop that tails with a separate conductor of that size have", () => {
    const { job, tree } = opened(changed(bare(known("none"))));
    const path = earthPath(tree, tree.pathTo("car").slice(1), job.earthing.earthingConductorMm2);
    const [first] = path;
    expect(typeof first?.run === "object" && first.run.protective).toMatchObject({
      form: { value: "separate" },
      mm2: { value: 16, path: "earthing.earthingConductorMm2" },
    });
  });
  it("a cable after the board needs one of its own", () => {
    const form = "cables[way-to-car].run.protective.form";
    expect(said("disconnection", { [form]: known("none") })[0]).toBe(`cannot-tell designUnknown ${form}`);
  });
  it("so does a leg after a split", () => {
    const job = changed(bare(known("none")));
    const split = {
      ...job,
      cables: job.cables.map((cable) =>
        cable.id === "board-to-house" ? { ...cable, from: "meter" } : cable,
      ),
    };
    expect(said("disconnection", {}, {}, split)[0]).toBe(`cannot-tell designUnknown ${tails[1]}.form`);
  });
});
