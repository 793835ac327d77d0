import { describe, expect, it } from "vitest";
import { RandomStream } from "../chance/index.ts";
import { nightly } from "../testing/small-site.ts";
import { sessionsOfDay } from "./sessions.ts";

const habit = {
  ...nightly,
  chargesPerWeek: 3,
  arrivesSpreadS: 7200,
  leavesSpreadS: 1800,
  energySpread: 0.5,
  medianKwh: 15,
  randomDelayS: 600,
};
const random = new RandomStream(11);
const days = Array.from({ length: 7000 }, (_, day) => sessionsOfDay([habit], random, day));
const sessions = days.flat();

describe("sessionsOfDay", () => {
  it("has a car on three days in seven", () => {
    // A binomial share of 7000 days: three standard deviations are 0.018.
    expect(Math.abs(sessions.length / days.length - 3 / 7)).toBeLessThan(0.018);
  });
  it("wants 15 kWh in half of the sessions, and never more than the battery holds", () => {
    const under = sessions.filter(({ wantedKwh }) => wantedKwh < 15).length / sessions.length;
    // Three standard deviations of a share of a half of about 3000: 0.027.
    expect(Math.abs(under - 0.5)).toBeLessThan(0.027);
    const large = { ...habit, mostKwh: 20 };
    expect(
      Math.max(...days.flatMap((_, day) => sessionsOfDay([large], random, day)).map((s) => s.wantedKwh)),
    ).toBe(20);
  });
  it("begins on its own day and ends after it begins, the next morning as a rule", () => {
    for (const [day, there] of days.entries())
      for (const { startS, untilS } of there) {
        expect(startS).toBeGreaterThanOrEqual(day * 86_400);
        expect(startS).toBeLessThan((day + 1) * 86_400 + 600);
        expect(untilS - startS).toBeGreaterThanOrEqual(1800);
      }
    const next = sessions.filter(
      ({ startS, untilS }) => Math.floor(untilS / 86_400) > Math.floor(startS / 86_400),
    );
    expect(next.length / sessions.length).toBeGreaterThan(0.99);
  });
  it("leaves on its own day only after half an hour at least", () => {
    const until = (leavesS: number) =>
      sessionsOfDay([{ ...nightly, arrivesS: 7 * 3600, leavesS }], random, 0).map(({ untilS }) => untilS);
    expect([until(26_000), until(27_001)]).toEqual([[27_000], [27_001]]);
  });
  it("keeps a visit of two hours on its day, however far arrival and departure scatter", () => {
    const visit = {
      ...nightly,
      ...{ arrivesS: 10 * 3600, arrivesSpreadS: 7200, leavesS: 12 * 3600, leavesSpreadS: 1800 },
    };
    const stays = days.flatMap((_, day) =>
      sessionsOfDay([visit], random, day).map(({ startS, untilS }) => untilS - startS),
    );
    expect(stays.length).toBeGreaterThan(300);
    expect(Math.min(...stays)).toBe(1800);
    // Five hours early and an hour and a quarter late at the most: 2.5 standard deviations of either.
    expect(Math.max(...stays)).toBeLessThan((2 + 5 + 1.25) * 3600);
  });
  it("delays the start by up to the random delay, evenly", () => {
    const without = days.flatMap((_, day) => sessionsOfDay([{ ...habit, randomDelayS: 0 }], random, day));
    const delays = sessions.map(({ startS }, index) => startS - (without[index]?.startS ?? Number.NaN));
    expect(Math.min(...delays)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...delays)).toBeLessThanOrEqual(600);
    // Mean of U(0, 600 s) over about 3000: three standard errors are 10 s.
    expect(Math.abs(delays.reduce((a, b) => a + b, 0) / delays.length - 300)).toBeLessThan(10);
  });
  it("draws each car apart, and a day the same whatever was drawn before", () => {
    const two = sessionsOfDay([habit, habit], random, 40);
    expect(sessionsOfDay([habit], random, 40)).toEqual(two.filter(({ car }) => car === 0));
  });
});

describe("a draw far out", () => {
  const offS = (habit: Parameters<typeof sessionsOfDay>[0][number]) =>
    days.flatMap((_, day) =>
      sessionsOfDay([habit], random, day).map(({ startS, untilS }) => ({
        startS: startS - day * 86_400,
        untilS: untilS - day * 86_400,
      })),
    );
  it("comes and leaves two and a half standard deviations off at the most", () => {
    const steady = { ...nightly, arrivesS: 12 * 3600, arrivesSpreadS: 3600, leavesSpreadS: 600 };
    const times = offS(steady);
    const most = (values: readonly number[]) => Math.max(...values.map(Math.abs));
    // Of 7000 draws one in eighty lies further out and is brought back to just there.
    expect(most(times.map(({ startS }) => startS - 12 * 3600))).toBeCloseTo(2.5 * 3600, 6);
    expect(most(times.map(({ untilS }) => untilS - 86_400 - 7.5 * 3600))).toBeCloseTo(2.5 * 600, 6);
  });
  it("comes no earlier than the midnight its day begins with", () => {
    const late = { ...nightly, arrivesS: 600, arrivesSpreadS: 3600 };
    expect(Math.min(...offS(late).map(({ startS }) => startS))).toBe(0);
  });
  it("is not delayed into the last half hour of its stay", () => {
    const brief = { ...nightly, arrivesS: 7 * 3600, leavesS: 7 * 3600 + 1860, randomDelayS: 1800 };
    const delays = offS(brief).map(({ startS }) => startS - 7 * 3600);
    expect(Math.max(...delays)).toBe(60);
  });
});
