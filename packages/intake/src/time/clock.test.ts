import { describe, expect, it } from "vitest";
import { changeDays, otherDays, signOf } from "./clock.ts";
import { zoneOffsets } from "./zone.ts";

const offsets = zoneOffsets("Europe/London", {
  fromMs: Date.UTC(2023, 2, 1),
  untilMs: Date.UTC(2023, 10, 30),
});
if (offsets === null) throw new Error("no London");

/** The day of 2023 on which clocks change, with a reading at every place that `has` says, zero where `zeros` does. */
function day(
  which: "spring" | "autumn",
  has: (slot: number) => number,
  zeros: (slot: number) => boolean = () => false,
  zerosElsewhere: (slot: number) => number = () => 0,
) {
  if (offsets === null) throw new Error("no London");
  const [spring, autumn] = [...changeDays(offsets, 1800).values()];
  const found = which === "spring" ? spring : autumn;
  if (found === undefined) throw new Error("no change");
  for (let slot = 0; slot < 50; slot++) {
    found.counts[slot] = has(slot);
    found.zeros[slot] = has(slot) > 0 && zeros(slot) ? 1 : 0;
  }
  const others = otherDays(1800);
  others.readingCount = 28 * 48;
  for (let slot = 0; slot < 48; slot++) others.zeros[slot] = zerosElsewhere(slot);
  return signOf(found, others, 1800)?.shows;
}
const hour = (slot: number): boolean => slot === 2 || slot === 3;
const whole = (slot: number): number => (slot < 48 ? 1 : 0);

describe("what a day of change shows of the clock", () => {
  it("in spring, by the hour from one to two and the hour at the end", () => {
    expect(day("spring", whole)).toBe("runs on");
    expect(day("spring", (slot) => (hour(slot) ? 0 : whole(slot)))).toBe("wall");
    expect(day("spring", whole, hour)).toBe("wall");
    expect(day("spring", (slot) => (slot < 46 ? 1 : 0))).toBe("counted");
    expect(day("spring", whole, (slot) => slot >= 46)).toBe("counted");
  });
  it("nothing in spring where other days are zero at that hour, or at the end, too", () => {
    expect(day("spring", whole, hour, (slot) => (hour(slot) ? 28 : 0))).toBeUndefined();
    // Sundays alone.
    expect(day("spring", whole, hour, (slot) => (hour(slot) ? 4 : 0))).toBeUndefined();
    expect(
      day(
        "spring",
        whole,
        (slot) => slot >= 46,
        (slot) => (slot >= 46 ? 28 : 0),
      ),
    ).toBeUndefined();
    // One night without supply, and zeros at another hour, say nothing of this one.
    expect(day("spring", whole, hour, (slot) => (slot > 20 ? 28 : 1))).toBe("wall");
  });
  it("in autumn, by an hour twice or two half-hours more", () => {
    expect(day("autumn", (slot) => (hour(slot) ? 2 : whole(slot)))).toBe("wall");
    expect(day("autumn", () => 1)).toBe("counted");
    expect(day("autumn", whole)).toBeUndefined();
  });
  it("nothing where the day is incomplete, or zero beyond that hour", () => {
    expect(day("spring", (slot) => (hour(slot) || slot === 20 ? 0 : whole(slot)))).toBeUndefined();
    expect(day("spring", whole, () => true)).toBeUndefined();
    expect(day("spring", whole, (slot) => slot < 5)).toBeUndefined();
    expect(day("spring", () => 0)).toBeUndefined();
    expect(day("autumn", (slot) => (slot === 2 ? 2 : whole(slot)))).toBeUndefined();
  });
});
