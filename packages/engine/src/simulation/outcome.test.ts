import { describe, expect, it } from "vitest";
import { missingOf } from "./outcome.ts";

const session = { car: 0, startS: 0, untilS: 1, wantedKwh: 10, waitedS: 0 };

describe("missingOf", () => {
  it.each([
    ["a car that left early lacks the rest", 4, false, 6],
    ["one that stopped by itself lacks nothing, its last trickle left out", 9.9, true, 0],
    ["a step too much is nothing owed", 10.002, false, 0],
  ])("%s", (_what, deliveredKwh, isFull, missingKwh) =>
    expect(missingOf({ ...session, deliveredKwh, isFull })).toBe(missingKwh),
  );
});
