import { describe, expect, it } from "vitest";
import { meantBy } from "./trade-words.ts";

describe("meantBy", () => {
  it.each<[word: string, allowed: string[], meant: string[]]>([
    ["PME", ["TN-S", "TN-C-S", "TT"], ["TN-C-S"]],
    ["TNCS", ["TN-S", "TN-C-S", "TT"], ["TN-C-S"]],
    ["RCBO", ["bs-en-60898", "bs-en-61009"], ["bs-en-61009"]],
    ["T & E", ["flat-twin-and-earth", "armoured"], ["flat-twin-and-earth"]],
    ["SWA", ["core", "separate", "armour", "none"], ["armour"]],
    ["Shower", ["lighting", "instantaneous-water-heater"], ["instantaneous-water-heater"]],
    ["shower", ["TN-S", "TT"], []],
    ["anything", ["TN-S", "TT"], []],
  ])("%s among %j: %j", (word, allowed, meant) => expect(meantBy(word, allowed)).toEqual(meant));
});
