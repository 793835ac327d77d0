import { expect, it } from "vitest";
import { durationText } from "./durations.ts";

it.each([
  [600, "10 minutes"],
  [60, "1 minute"],
  [1800, "30 minutes"],
  [3600, "1 hour"],
  [86_400, "1 day"],
  [90, "90\u00a0s"],
  [0.25, "0.25\u00a0s"],
])("%d s is %s", (durationS, expected) => expect(durationText(durationS)).toBe(expected));
