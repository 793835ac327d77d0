import { describe, expect, it } from "vitest";
import { clockRule, ruleWords } from "./clock-rule.ts";

describe("clockRule", () => {
  it("unpacks the schema's own example, the third Friday of March at 01:45 [naesb-espi] DstRuleType", () => {
    const rule = clockRule(0x380a_1a8c);
    expect(rule).toEqual({ month: 3, operator: 4, dayOfMonth: 0, weekday: 5, secondS: 3600 + 2700 });
    expect(rule && ruleWords(rule)).toBe("the third Friday of March at 01:45");
  });
  it.each([
    [0x3e0e_1000, "the last Sunday of March at 01:00"],
    [0xae0e_2000, "the last Sunday of October at 02:00"],
    [0x8010_0000, "1 August at 00:00"],
    [0x9288_2000, "the Thursday on or after 8 September at 02:00"],
  ])("reads %i as %s", (word, words) => {
    const rule = clockRule(word);
    expect(rule && ruleWords(rule)).toBe(words);
  });
  it.each([
    ["clocks that never change", 0xffff_ffff],
    ["a month that does not exist", 0xd000_0000],
    ["no month", 0],
    ["a weekday that is missing", 0x3e00_1000],
    ["no number", Number.NaN],
  ])("has no rule for %s", (_what, word) => expect(clockRule(word)).toBeNull());
});
