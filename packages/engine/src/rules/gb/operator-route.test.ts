import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../../job/index.ts";
import { type Changes, said } from "../../testing/findings.ts";
import { operatorRoute } from "./operator-route.ts";

describe(operatorRoute.id, () => {
  it.each<[what: string, changes: Changes, says: string[]]>([
    [
      "60 A on the threshold: notify",
      { limiter: null, "demand.recordings[log].maximumA": known(28) },
      ["pass notify notify-after"],
    ],
    [
      "60.1 A: apply",
      { limiter: null, "demand.recordings[log].maximumA": known(28.1) },
      ["cannot-tell apply apply-first supply.operator.answer"],
    ],
    [
      "managed under it, unmanaged over it: the two straddle",
      { "limiter.limitA": known(60), "demand.recordings[log].maximumA": known(40) },
      ["cannot-tell straddles apply-first supply.operator.answer supply.operator.acceptsLimiter"],
    ],
    [
      "the same, and the operator counts the managed demand",
      {
        "limiter.limitA": known(60),
        "demand.recordings[log].maximumA": known(40),
        "supply.operator.acceptsLimiter": known(true),
      },
      ["pass notifyManaged notify-after"],
    ],
    [
      "the same, and it does not",
      {
        "limiter.limitA": known(60),
        "demand.recordings[log].maximumA": known(40),
        "supply.operator.acceptsLimiter": known(false),
      },
      ["cannot-tell straddles apply-first supply.operator.answer"],
    ],
    [
      "managed over the threshold",
      { "demand.recordings[log].maximumA": known(40) },
      ["cannot-tell apply apply-first supply.operator.answer"],
    ],
    [
      "over the fuse without a load manager",
      { limiter: null, "demand.recordings[log].maximumA": known(70) },
      ["cannot-tell aboveFuse apply-first supply.operator.answer"],
    ],
    [
      "over the fuse even managed",
      { "demand.recordings[log].maximumA": known(101) },
      ["cannot-tell managedAboveFuse apply-first supply.operator.answer"],
    ],
    [
      "other premises",
      { "site.premises": known("shop-or-office") },
      ["cannot-tell otherPremises apply-first supply.operator.answer"],
    ],
    [
      "looped",
      { "supply.isLooped": known(true) },
      ["cannot-tell looped contact-operator supply.operator.answer"],
    ],
    [
      "unmetered",
      { "supply.isUnmetered": known(true) },
      ["cannot-tell unmetered contact-operator supply.operator.answer"],
    ],
    [
      "fuse unknown beats looped",
      { "supply.isLooped": known(true), "nodes[cut-out].overcurrent.ratingA": NOT_RECORDED },
      ["cannot-tell fuseUnknown contact-operator nodes[cut-out].overcurrent.ratingA"],
    ],
    [
      "danger beats everything",
      {
        "supply.serviceConcerns": known(["exposed-live-metal"]),
        "supply.operator.answer": known("may-proceed"),
      },
      ["fail unsafe stop"],
    ],
    [
      "not looked at",
      { "supply.serviceConcerns": NOT_RECORDED },
      ["cannot-tell lookAtService supply.serviceConcerns"],
    ],
    [
      "looped or not, nobody knows",
      { "supply.isLooped": NOT_RECORDED },
      ["cannot-tell serviceUnknown supply.isLooped"],
    ],
    [
      "the operator said yes",
      { "supply.operator.answer": known("may-proceed"), "demand.recordings[log].maximumA": known(90) },
      ["pass answered"],
    ],
    [
      "the operator said yes, and nobody has looked at the service",
      { "supply.operator.answer": known("may-proceed"), "supply.serviceConcerns": NOT_RECORDED },
      ["cannot-tell lookAtService supply.serviceConcerns"],
    ],
    [
      "the operator said yes, looped or not",
      { "supply.operator.answer": known("may-proceed"), "supply.isLooped": NOT_RECORDED },
      ["cannot-tell serviceUnknown supply.isLooped"],
    ],
    ["the operator said no", { "supply.operator.answer": known("may-not-proceed") }, ["fail refused"]],
    [
      "demand unknown",
      { "nodes[car].ratedA": NOT_RECORDED },
      ["cannot-tell demandUnknown nodes[car].ratedA"],
    ],
  ])("not live yet: %s", (_what, changes, says) =>
    expect(said(operatorRoute.id, { "work.energisedOn": NOT_RECORDED, ...changes })).toEqual(says),
  );
  it.each<[what: string, changes: Changes, says: string[]]>([
    ["where a notice afterwards is enough", {}, ["pass notify notify-after"]],
    [
      "with the answer",
      { "supply.isLooped": known(true), "supply.operator.answer": known("may-proceed") },
      ["pass answered"],
    ],
    [
      "over the fuse",
      { "demand.recordings[log].maximumA": known(101) },
      ["cannot-tell managedAboveFuse apply-first supply.operator.answer", "fail inService"],
    ],
    [
      "over the threshold",
      { "demand.recordings[log].maximumA": known(40) },
      ["cannot-tell apply apply-first supply.operator.answer", "fail inService"],
    ],
    [
      "looped, the operator not asked",
      { "supply.isLooped": known(true) },
      ["cannot-tell looped contact-operator supply.operator.answer", "fail inService"],
    ],
    [
      "against the operator's answer",
      { "supply.operator.answer": known("may-not-proceed") },
      ["fail refused", "fail inService"],
    ],
    [
      "over the threshold, the service not looked at",
      { "demand.recordings[log].maximumA": known(40), "supply.serviceConcerns": NOT_RECORDED },
      ["cannot-tell lookAtService supply.serviceConcerns", "fail inService"],
    ],
    [
      "over the fuse, looped or not nobody knows",
      { "demand.recordings[log].maximumA": known(101), "supply.isLooped": NOT_RECORDED },
      ["cannot-tell serviceUnknown supply.isLooped", "fail inService"],
    ],
    [
      "looped, the service not looked at",
      { "supply.isLooped": known(true), "supply.serviceConcerns": NOT_RECORDED },
      ["cannot-tell lookAtService supply.serviceConcerns", "fail inService"],
    ],
    [
      "while the fuse is not known: nothing fails for want of a fact",
      { "nodes[cut-out].overcurrent.ratingA": NOT_RECORDED },
      ["cannot-tell fuseUnknown contact-operator nodes[cut-out].overcurrent.ratingA"],
    ],
  ])("in service %s", (_what, changes, says) => expect(said(operatorRoute.id, changes)).toEqual(says));
});
