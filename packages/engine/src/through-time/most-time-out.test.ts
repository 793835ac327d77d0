import { expect, it } from "vitest";
import { soundJob } from "../testing/sound-job.ts";
import { plannedSite, studied } from "../testing/studied.ts";
import { mostTimeOutS } from "./most-time-out.ts";

const study = studied(soundJob());
const { plan } = plannedSite(study);

/** A mean of 1 s, readings 5 s apart, 3 s of command, a car that waits 2 s and falls from 32 A by 8 A a second. */
const withReading = (readEveryS: number) => ({
  ...plan,
  control: { ...plan.control, averageS: 1, readEveryS, decideEveryS: 0, commandS: 3 },
  cars: plan.cars.map((car) => ({
    ...car,
    onboardA: 32,
    response: { ...car.response, deadS: 2, fallAPerS: 8 },
  })),
});

it.each([
  // 60 s are allowed at most, and 1 + 5 + 3 + 2 + 4 = 15 s of the way are not the time-out's.
  ["what the way leaves of the longest time allowed", 5, 45],
  // 60 − (1 + 25 + 3 + 2 + 4) = 25 s still reach to the next reading; a second more between readings leaves 24 of 26.
  ["one that just outlasts the time between readings", 25, 25],
  ["none where the way leaves less than that", 26, null],
])("%s", (_what, readEveryS, mostS) => expect(mostTimeOutS(study, withReading(readEveryS))).toBe(mostS));
