import { GREAT_BRITAIN } from "@underfuse/knowledge";
import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../job/index.ts";
import { type Changes, changed } from "../testing/findings.ts";
import { opened } from "../testing/sketch.ts";
import { isKnown } from "../worked/index.ts";
import { assess } from "./assess.ts";
import type { OptionKind } from "./options.ts";

/** An option in short: rate, route, reason. */
function option(kind: OptionKind, changes: Changes): string {
  const inputs = { onIso: "2026-11-25", series: new Map() };
  const found = assess(opened(changed(changes)), GREAT_BRITAIN, inputs).options.find(
    (item) => item.kind === kind,
  );
  const rate = found?.chargePointA;
  return `${rate && isKnown(rate) ? rate.value : "–"} ${found?.route} ${found?.reason}`;
}
const building = (maximumA: number, more: Changes = {}): Changes => ({
  "demand.recordings[log].maximumA": known(maximumA),
  ...more,
});
const shop = { "site.premises": known("shop-or-office") };

describe("the full rate, managed", () => {
  it("is routed no worse than unmanaged while the demand is no higher", () => {
    expect(option("full-rate", {})).toBe("32 notify-after fits");
    expect(option("managed", {})).toBe("32 notify-after held");
  });
  it.each<[what: string, changes: Changes, says: string]>([
    ["not counted by the operator", {}, "32 apply-first held"],
    ["counted", { "supply.operator.acceptsLimiter": known(true) }, "32 notify-after held"],
  ])("held under the threshold while unmanaged is above it: %s", (_what, more, says) =>
    expect(option("managed", building(40, { "limiter.limitA": known(60), ...more }))).toBe(says),
  );
});

describe("a lower rate", () => {
  it.each<[what: string, changes: Changes, says: string]>([
    ["is not wanted where the full rate may be notified afterwards", {}, "– not-needed fullRateFits"],
    ["is the highest that may be notified afterwards", building(40), "20 notify-after fits"],
    ["may be the least a car can be offered", building(54), "6 notify-after fits"],
    ["gains nothing where none may be and the full rate fits", building(54.1), "– not-possible noneNotified"],
    [
      "is the highest that fits where none may be notified",
      building(55, { "nodes[cut-out].overcurrent.ratingA": known(80) }),
      "25 apply-first fitsAboveThreshold",
    ],
    ["has no room", building(95), "– not-possible noRoom"],
    ["cures no building that is too much by itself", building(101), "– not-possible buildingExceeds"],
    ["elsewhere than in a dwelling: the highest that fits", building(80, shop), "20 apply-first fits"],
    ["elsewhere, and the full rate fits", building(40, shop), "– not-needed fullRateFits"],
    ["cannot be told", { "nodes[cut-out].overcurrent.ratingA": NOT_RECORDED }, "– cannot-tell unknown"],
  ])("%s", (_what, changes, says) => expect(option("lower-rate", changes)).toBe(says));
});
