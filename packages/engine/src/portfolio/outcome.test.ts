import { describe, expect, it } from "vitest";
import { street } from "../testing/street.ts";
import { portfolioOutcome } from "./outcome.ts";
import type { StreetDay } from "./street-day.ts";

const day = (draw: number, dayIndex: number, lineA: number): StreetDay => ({
  draw,
  dayIndex,
  byNumber: [],
  lineA,
  minute: 0,
  minutesOver: lineA > 18 ? 3 : 0,
  energyJ: 0,
  carSessions: 0,
  carWantedJ: 0,
  carDeliveredJ: 0,
  homeMinutesOver: 0,
  homeMinutesOverByBuilding: 0,
});

describe("portfolioOutcome", () => {
  it("takes each street's highest, and of the streets the first, the tenth and the last but one of twenty", () => {
    const days = Array.from({ length: 20 }, (_, draw) => [day(draw, 0, 0.5), day(draw, 1, draw + 1)]).flat();
    const energyByMinuteJ = new Float64Array(1440);
    const blocks = [{ days, energyByMinuteJ, highestByMinuteJ: energyByMinuteJ }];
    const limited = street({ feeder: { lines: 3, voltageV: 230, limitA: 18 } });
    expect(portfolioOutcome(limited, blocks)).toMatchObject({
      lineA: { low: 1, middle: 10, high: 19 },
      minutesOver: { low: 0, middle: 0, high: 3 },
      drawsOverShare: 0.1,
    });
  });
  it("counts minutes above a home's limit among all minutes of all homes", () => {
    const over = { ...day(0, 0, 1), homeMinutesOver: 72, homeMinutesOverByBuilding: 36 };
    const energyByMinuteJ = new Float64Array(1440);
    const blocks = [{ days: [over, day(0, 1, 1)], energyByMinuteJ, highestByMinuteJ: energyByMinuteJ }];
    // 72 and 36 of 1440 minutes of ten homes on two days.
    expect(portfolioOutcome(street({ homes: 10 }), blocks)).toMatchObject({
      homeOverShare: 72 / 28_800,
      homeOverByBuildingShare: 36 / 28_800,
    });
  });
});
