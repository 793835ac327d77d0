import { describe, expect, it } from "vitest";
import { demand } from "../../testing/knowledge.ts";
import { DAY_HOURS } from "./appliances.ts";
import { dayPattern, secondOfDay } from "./day-pattern.ts";

const { hours } = demand.appliances.habits;
const COUNT = 24_000;
const sharesByHour = (quantilesS: Float64Array) => {
  const shares = new Float64Array(24);
  for (let index = 0; index < COUNT; index++) {
    const hour = Math.floor(secondOfDay(quantilesS, (index + 0.5) / COUNT) / 3600);
    shares[hour] = (shares[hour] as number) + 1 / COUNT;
  }
  return shares;
};

describe("dayPattern", () => {
  it.each(DAY_HOURS)("%s: each hour gets the share of its weight", (name) => {
    const { weekdayS, weekendS } = dayPattern(hours[name]);
    for (const [quantilesS, weights] of [
      [weekdayS, hours[name].weekday],
      [weekendS, hours[name].weekend],
    ] as const) {
      expect(weights).toHaveLength(24);
      const whole = weights.reduce((sum, weight) => sum + weight, 0);
      sharesByHour(quantilesS).forEach((share, hour) => {
        // Straight lines between 256 quantiles blur an hour's two edges by one part each at the most.
        expect(Math.abs(share - (weights[hour] as number) / whole)).toBeLessThan(2 / 256);
      });
    }
  });
  it.each(DAY_HOURS)("%s: seven days hold seven mean days of uses", (name) => {
    const { weekdayUse, weekendUse } = dayPattern(hours[name]);
    expect(5 * weekdayUse + 2 * weekendUse).toBeCloseTo(7, 12);
  });
  it("stays within the day at both ends", () => {
    const { weekdayS } = dayPattern(hours.drinks);
    expect(secondOfDay(weekdayS, 2 ** -33)).toBeGreaterThanOrEqual(0);
    expect(secondOfDay(weekdayS, 1 - 2 ** -33)).toBeLessThan(86_400);
    expect(secondOfDay(dayPattern(hours.night).weekdayS, 1 - 2 ** -33)).toBeLessThanOrEqual(3600);
  });
});
