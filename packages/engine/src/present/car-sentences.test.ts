import { describe, expect, it } from "vitest";
import type { SiteOutcome } from "../simulation/index.ts";
import { carSentences } from "./car-sentences.ts";

const DAY_S = 86_400;
const session = (day: number, missingKwh: number, waitedS = 0): SiteOutcome["sessions"][number] => ({
  car: 0,
  startS: day * DAY_S + 64_800,
  untilS: (day + 1) * DAY_S,
  wantedKwh: 10 + day,
  deliveredKwh: 10 + day - missingKwh,
  isFull: missingKwh === 0,
  waitedS,
});
/** Four days, three of them with a car: 11 kWh full, 9 of 12 and 12 of 13 kWh. */
const outcome = {
  days: 4,
  sessions: [session(1, 0), session(2, 3, 60), session(3, 1, 90)],
  cutShort: 0,
  deliveredKwh: 32,
  missingKwh: 4,
  fullShare: 1 / 3,
  chargingH: 5,
  throttledH: 2,
  pausedH: 1,
  starts: 7,
} as unknown as SiteOutcome;
/** Spaces that do not break, as ordinary ones. */
const said = (changes: Partial<SiteOutcome> = {}) =>
  carSentences({ ...outcome, ...changes }).map(({ tone, text }) => [tone, text.replaceAll("\u00a0", " ")]);

describe("carSentences", () => {
  it("tells full sessions, energy a session and a day, the worst session, who waited, and the hours", () =>
    expect(said()).toEqual([
      [
        "fail",
        // 32 kWh over three sessions and over four days; a third of the sessions, rounded down.
        "Full when they left in 1 of 3 sessions (33 %). 32.0 kWh delivered, 10.7 kWh a session, 8.0 kWh a day.",
      ],
      ["none", "4.0 kWh missing in all; most in one session 3.0 kWh of 12.0 kWh (day 3)."],
      [
        "none",
        expect.stringContaining(
          "2 of 3 cars found their charge point taken and waited until the other left; 2 of those were not full",
        ),
      ],
      [
        "none",
        expect.stringContaining("charging 5.0 h, turned down 2.0 h, paused 1.0 h; charging began 7 times"),
      ],
    ]));
  it("passes when every session is full, and then speaks of nothing missing", () => {
    const full = said({ sessions: [session(1, 0)], fullShare: 1, missingKwh: 0 });
    expect(full.map(([tone]) => tone)).toEqual(["pass", "none"]);
    expect(full.flat().join()).not.toContain("missing");
  });
  it.each([
    [0.49, "fail"],
    [0.5, "none"],
  ] as const)("fails when fewer than half are full: %d", (fullShare, tone) =>
    expect(said({ fullShare })[0]?.[0]).toBe(tone),
  );
  it("never rounds a share of the sessions up", () =>
    expect(said({ fullShare: 0.998 })[0]?.[1]).toContain("(99 %)"));
  it.each([
    [1, "One session was under way"],
    [2, "2 sessions were under way"],
  ])("says that %d was cut short, also where no other came", (cutShort, words) => {
    expect(said({ cutShort }).at(-2)).toEqual(["none", expect.stringContaining(words)]);
    expect(said({ cutShort, sessions: [], fullShare: null })).toEqual([
      ["unknown", expect.stringContaining("No car came and left again")],
      ["none", expect.stringContaining(words)],
    ]);
  });
});
