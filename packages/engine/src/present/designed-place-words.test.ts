import { describe, expect, it } from "vitest";
import { designedPlaceWords } from "./designed-place-words.ts";

const place = {
  channel: "L2",
  transformer: "ct-l2",
  isOnNeutral: false,
  seesBuilding: "all",
  seesChargePoint: "all",
  seesGeneration: "all",
  misses: [],
} as const;

describe(designedPlaceWords, () => {
  it("says nothing where the design sees everything", () => expect(designedPlaceWords([place])).toEqual([]));
  it("names what is missed, a few by name and the rest by number", () => {
    const misses = Array.from({ length: 9 }, (_, index) => `load ${index + 1}`);
    expect(designedPlaceWords([place, { ...place, misses }])).toEqual([
      "The design itself misses load 1, load 2, load 3, load 4, load 5, load 6 and 3 more on channel L2: ct-l2 stands where the main fuse carries that and it does not. Readings cannot prove coverage there; move it upstream of the split.",
    ]);
  });
  it("says that a neutral carries the current back, and that no transformer shows nothing", () => {
    expect(designedPlaceWords([{ ...place, isOnNeutral: true }]).join()).toContain("on a neutral");
    expect(designedPlaceWords([{ ...place, transformer: null, misses: ["everything"] }])).toEqual([
      "The design has no transformer for channel L2: it shows nothing, and no reading can prove it.",
    ]);
  });
});
