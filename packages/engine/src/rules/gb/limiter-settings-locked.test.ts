import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { limiterSettingsLocked } from "./limiter-settings-locked.ts";

describe(limiterSettingsLocked.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["by PIN", {}, ["pass locked"]],
    ["open, not a scheme", { "limiter.lock": known("none") }, ["pass openCaution caution"]],
    [
      "open, agreed with the operator",
      { "limiter.lock": known("none"), "limiter.isLimitationScheme": known(true) },
      ["fail open"],
    ],
    [
      "open, scheme or not is unknown",
      { "limiter.lock": known("none"), "limiter.isLimitationScheme": NOT_RECORDED },
      ["cannot-tell openCaution limiter.isLimitationScheme"],
    ],
    ["unknown", { "limiter.lock": NOT_RECORDED }, ["cannot-tell unknown limiter.lock"]],
    ["no load manager", { limiter: null }, ["not-applicable none"]],
  ])("%s", (_what, changes, says) => expect(said(limiterSettingsLocked.id, changes)).toEqual(says));
});
