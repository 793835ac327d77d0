import { describe, expect, it } from "vitest";
import { assessedExample } from "../testing/examples.ts";
import { cableBodies } from "./cable-bodies.ts";
import { Choices } from "./choices.ts";

const bodiesOf = (name: "terraced-house" | "farmhouse") => {
  const { study } = assessedExample(name);
  return cableBodies(study, new Choices(study.figures)).map(({ id, carries }) => [id, carries]);
};

describe("cableBodies", () => {
  it("takes as tails only what carries all that the main fuse does, and each charge point's own cable", () =>
    // Behind the connector block the house and the charge point part.
    expect(bodiesOf("terraced-house")).toEqual([
      ["Cut-out to Meter", "supply"],
      ["Meter to Isolator", "supply"],
      ["Isolator to Connector block", "supply"],
      ["Charge point way to Charge point", 0],
    ]));
  it("ends at the board, behind which a distribution circuit carries a part", () =>
    expect(bodiesOf("farmhouse")).toEqual([
      ["Cut-out to Meter", "supply"],
      ["Meter to Main switch, time-delayed", "supply"],
      ["Main switch, time-delayed to House board", "supply"],
      ["Charge point way to Barn charge point", 0],
    ]));
});
