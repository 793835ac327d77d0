import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { limiterResponse } from "./limiter-response.ts";

describe(limiterResponse.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["15 s", { "limiter.responseS": known(15) }, ["pass quick"]],
    ["15.1 s", { "limiter.responseS": known(15.1) }, ["pass slow caution"]],
    ["60 s", { "limiter.responseS": known(60) }, ["pass slow caution"]],
    ["60.1 s", { "limiter.responseS": known(60.1) }, ["fail tooSlow"]],
    ["not timed", { "limiter.responseS": NOT_RECORDED }, ["cannot-tell unknown limiter.responseS"]],
    ["no load manager", { limiter: null }, ["not-applicable none"]],
  ])("%s", (_what, changes, says) => expect(said(limiterResponse.id, changes)).toEqual(says));
});
