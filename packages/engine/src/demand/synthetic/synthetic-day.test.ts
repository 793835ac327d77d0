import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { RandomStream } from "../../chance/index.ts";
import { householdMinutes } from "../../testing/household-minutes.ts";
import { demand } from "../../testing/knowledge.ts";
import type { ApplianceTable, HouseholdHabit } from "./appliances.ts";
import { DAY_MIN, DayCurve } from "./day-curve.ts";
import { drawHousehold, type HouseholdKnown, householdSource } from "./household.ts";
import { YEAR_DAYS } from "./season.ts";
import { fillDay, syntheticDay, syntheticDayCurrent } from "./synthetic-day.ts";

const table = demand.appliances;
const { lighting } = table.habits;
const ROWS = Object.entries({ ...table.figures.rows, lighting });
const ids = ROWS.map(([id]) => id);
const only = (...owned: string[]): HouseholdKnown => ({
  ownedShares: Object.fromEntries(ids.map((id) => [id, Number(owned.includes(id))])),
});
const withHouseholds = (change: Partial<HouseholdHabit>): ApplianceTable => ({
  ...table,
  habits: { ...table.habits, households: { ...table.habits.households, ...change } },
});
/** Neither heating nor hot water by electricity, nor a shower. */
const WITHOUT_HEAT = Object.fromEntries(
  ["storage-heaters", "other-heating", "cylinder-heater", "instantaneous-heater", "electric-shower"].map(
    (id) => [id, 0],
  ),
);

/** Looks at every day asked for of so many households. */
function look(
  known: HouseholdKnown,
  asked: {
    readonly sites: number;
    readonly days: (site: number) => readonly number[];
    readonly table?: ApplianceTable;
  },
  at: (activeJ: Int32Array, day: number, site: number) => void,
): void {
  const random = new RandomStream(1);
  const source = householdSource(asked.table ?? table, known);
  const curve = new DayCurve();
  for (let site = 0; site < asked.sites; site++) {
    const household = drawHousehold(source, random, site);
    for (const day of asked.days(site)) {
      fillDay({ household, random, day }, curve);
      at(curve.activeJ.subarray(0, DAY_MIN), day, site);
    }
  }
}
const everyDay = Array.from({ length: YEAR_DAYS }, (_, day) => day);
/** Every thirteenth day, from another day for each site: all seasons and all days of the week. */
const scattered = (site: number) => everyDay.filter((day) => day % 13 === site % 13);
const sum = (values: ArrayLike<number>) => {
  let total = 0;
  for (let index = 0; index < values.length; index++) total += values[index] as number;
  return total;
};
const quantile = (values: readonly number[], share: number) =>
  [...values].sort((a, b) => a - b)[Math.floor(share * values.length)] as number;
const highest = (values: ArrayLike<number>) => {
  let most = Number.NEGATIVE_INFINITY;
  for (let index = 0; index < values.length; index++) most = Math.max(most, values[index] as number);
  return most;
};
const lowest = (values: Int32Array | Float64Array) => -highest(values.map((value) => -value));
/** The highest mean of a half-hour. */
const highestHalfHour = (activeJ: ArrayLike<number>) =>
  highest(
    Array.from({ length: 48 }, (_, block) => {
      let inBlock = 0;
      for (let minute = 30 * block; minute < 30 * (block + 1); minute++) inBlock += activeJ[minute] as number;
      return inBlock / 30;
    }),
  );

const energyPerDayWh = (row: (typeof ROWS)[number][1]) =>
  (row.usesPerYear * row.useMin * (row.runningW - row.standbyW)) / 60 / YEAR_DAYS + 24 * row.standbyW;

describe("one appliance by itself", () => {
  it.each(ROWS)("%s: the energy of a year is what is published of it", (id, row) => {
    const daysWh: number[] = [];
    const alike = withHouseholds({ useByPeople: [1, 1, 1, 1, 1], spread: 0 });
    look(only(id), { sites: 150, days: scattered, table: alike }, (activeJ) =>
      daysWh.push(sum(activeJ) / 3600),
    );
    const mean = sum(daysWh) / daysWh.length;
    const spread = Math.sqrt(sum(daysWh.map((wh) => (wh - mean) ** 2)) / daysWh.length);
    const published = energyPerDayWh(row);
    // Four standard errors. An appliance in use for a quarter of the day is sometimes wanted while it runs to
    // the end of its circle: up to four per cent are lost.
    const error = spread / Math.sqrt(daysWh.length);
    expect(mean - published).toBeLessThan(4 * error);
    expect(published - mean).toBeLessThan(4 * error + 0.04 * published);
  });
  it("on the mean over busy and idle days is used as often as published", () => {
    const uneven = withHouseholds({ useByPeople: [1, 1, 1, 1, 1], spread: 0, dailySpread: 0.8 });
    const daysWh: number[] = [];
    look(only("kettle"), { sites: 150, days: scattered, table: uneven }, (activeJ) =>
      daysWh.push(sum(activeJ) / 3600),
    );
    const published = energyPerDayWh(table.figures.rows.kettle as (typeof ROWS)[number][1]);
    // Days differ by 95 %: four standard errors of 4200 are 6 %. Without its correction the mean would be 38 % too high.
    expect(Math.abs(sum(daysWh) / daysWh.length / published - 1)).toBeLessThan(0.06);
  });
  it.each(ROWS)("%s: never draws more than in use, nor less than standby", (id, row) => {
    const heatedW = table.habits.rows[id]?.heatedFirst?.powerW ?? 0;
    // Powers are whole watts.
    const most = Math.max(row.runningW, heatedW + row.standbyW) + 0.5;
    look(only(id), { sites: 20, days: scattered }, (activeJ) => {
      expect(highest(activeJ) / 60).toBeLessThanOrEqual(most);
      expect(lowest(activeJ) / 60).toBeGreaterThanOrEqual(row.standbyW);
    });
  });
  it("has habits and published figures of the same appliances", () =>
    expect(Object.keys(table.habits.rows).sort()).toEqual(Object.keys(table.figures.rows).sort()));
  it("an electric shower shows as 9 kW for minutes", () => {
    const peaksW: number[] = [];
    look(only("electric-shower"), { sites: 40, days: scattered }, (activeJ) =>
      peaksW.push(highest(activeJ) / 60),
    );
    const used = peaksW.filter((watts) => watts > 0);
    // 0.8 uses a day by a Poisson law leave 45 % of days without any, spread by the households a little more.
    expect(used.length / peaksW.length).toBeGreaterThan(0.4);
    expect(used.length / peaksW.length).toBeLessThan(0.65);
    // The shortest use is a minute and a half, which may fall on two minutes, three quarters of each.
    expect(Math.min(...used)).toBeGreaterThanOrEqual(0.75 * 9000);
    expect(quantile(used, 0.5)).toBe(9000);
  });
});

describe("when things are used", () => {
  const meanWh = (id: string, days: readonly number[]) => {
    let [joules, count] = [0, 0];
    look(only(id), { sites: 200, days: () => days }, (activeJ) => {
      joules += sum(activeJ);
      count++;
    });
    return joules / 3600 / count;
  };
  it("a tumble dryer runs more in winter, by its swing", () => {
    const [winter, summer] = [everyDay.slice(0, 28), everyDay.slice(182, 210)];
    // (1 + 0.4) / (1 − 0.4), and the same weather of chance in both; ten per cent for 5600 days of a third of a use.
    expect(meanWh("tumble-dryer", winter) / meanWh("tumble-dryer", summer)).toBeCloseTo(1.4 / 0.6, 0);
  });
  it("a vacuum cleaner runs more at the weekend", () => {
    const weekend = everyDay.filter((day) => day % 7 >= 5);
    const week = everyDay.filter((day) => day % 7 === 1);
    const { weekendUse } = table.habits.hours.chores;
    expect(meanWh("vacuum", weekend) / meanWh("vacuum", week)).toBeCloseTo(
      weekendUse / ((7 - 2 * weekendUse) / 5),
      1,
    );
  });
  it("night heaters run at night and cold appliances at any hour", () => {
    const byHour = (id: string) => {
      const hours = new Float64Array(24);
      look(only(id), { sites: 60, days: () => everyDay.slice(0, 14) }, (activeJ) => {
        for (let minute = 0; minute < DAY_MIN; minute++) {
          const hour = Math.floor(minute / 60);
          hours[hour] = (hours[hour] as number) + (activeJ[minute] as number);
        }
      });
      return hours;
    };
    const night = byHour("storage-heaters");
    expect(sum(night.subarray(12, 20)) / sum(night)).toBeLessThan(0.01);
    const cold = byHour("fridge-freezer");
    // 14,000 cycles over 24 hours: four standard errors of an hour's share are well below a tenth.
    expect(highest(cold) / lowest(cold)).toBeLessThan(1.1);
  });
});

describe("a heat pump", () => {
  it("takes about 3,500 kWh a year, most in the cold, and never more than its input", () => {
    const byDayWh = new Float64Array(YEAR_DAYS);
    let mostW = 0;
    const known = { ...only(), heatPumpShare: 1 };
    look(known, { sites: 3, days: () => everyDay }, (activeJ, day) => {
      byDayWh[day] = (byDayWh[day] as number) + sum(activeJ) / 3600 / 3;
      mostW = Math.max(mostW, highest(activeJ) / 60);
    });
    expect(mostW).toBe(table.habits.heatPump.inputW);
    // Its own figure, recalled as usual; one year's weather moves it by a few per cent.
    expect(sum(byDayWh) / 1000).toBeGreaterThan(3200);
    expect(sum(byDayWh) / 1000).toBeLessThan(3800);
    expect(sum(byDayWh.subarray(0, 30))).toBeGreaterThan(10 * sum(byDayWh.subarray(182, 212)));
  });
  it("runs all day when the cold asks for more than it has, and at no more than its input", () => {
    const { heatPump } = table.habits;
    const freezing = { ...table, habits: { ...table.habits, heatPump: { ...heatPump, baseC: 500 } } };
    look({ ...only(), heatPumpShare: 1 }, { sites: 1, days: () => [0], table: freezing }, (activeJ) => {
      expect(highest(activeJ) / 60).toBe(heatPump.inputW);
      expect(sum(activeJ) / 3600).toBe(24 * heatPump.inputW);
    });
  });
  it("shares the weather: two sites want the same energy on the same day", () => {
    const wh = new Map<number, number[]>();
    look({ ...only(), heatPumpShare: 1 }, { sites: 2, days: () => everyDay.slice(0, 60) }, (activeJ, day) =>
      wh.set(day, [...(wh.get(day) ?? []), sum(activeJ) / 3600]),
    );
    for (const [one, other] of wh.values()) expect(one).toBe(other);
  });
});

describe("a dwelling", () => {
  it("takes, on the mean over all, the 3,200 to 3,300 kWh a year that the figures were published for", () => {
    const published = sum(ROWS.map(([, row]) => (row.ownedShare * energyPerDayWh(row) * YEAR_DAYS) / 1000));
    expect(published).toBeGreaterThan(3200);
    expect(published).toBeLessThan(3300);
    const perSiteKwh = new Float64Array(800);
    look({}, { sites: 800, days: scattered }, (activeJ, _day, site) => {
      perSiteKwh[site] = (perSiteKwh[site] as number) + sum(activeJ) / 3.6e6;
    });
    const yearsKwh = [...perSiteKwh].map((kwh, site) => (kwh * YEAR_DAYS) / scattered(site).length);
    const mean = sum(yearsKwh) / yearsKwh.length;
    const spread = Math.sqrt(sum(yearsKwh.map((kwh) => (kwh - mean) ** 2)) / yearsKwh.length);
    // Four standard errors: a few dwellings with storage heaters take four times the mean.
    expect(Math.abs(mean - published)).toBeLessThan((4 * spread) / Math.sqrt(yearsKwh.length));
  });
  it("has a load factor of about 0.1 [Wright and Firth 2007], without electric heat and shower", () => {
    const factors: number[] = [];
    look({ ownedShares: WITHOUT_HEAT }, { sites: 200, days: scattered }, (activeJ) =>
      factors.push(sum(activeJ) / DAY_MIN / highest(activeJ)),
    );
    // "About 0.1" is one figure: 0.05 to 0.15.
    expect(quantile(factors, 0.5)).toBeGreaterThan(0.05);
    expect(quantile(factors, 0.5)).toBeLessThan(0.15);
  });
  it("a shower lowers it further", () => {
    const median = (shower: number) => {
      const factors: number[] = [];
      const known = { ownedShares: { ...WITHOUT_HEAT, "electric-shower": shower } };
      look(known, { sites: 100, days: scattered }, (activeJ) =>
        factors.push(sum(activeJ) / DAY_MIN / highest(activeJ)),
      );
      return quantile(factors, 0.5);
    };
    expect(median(1)).toBeLessThan(0.8 * median(0));
  });
  it("one hundred together peak between the lowest and the highest class measured in London, per dwelling", () => {
    const random = new RandomStream(8);
    const source = householdSource(table, {
      ownedShares: { "storage-heaters": 0, "other-heating": 0 },
    });
    const households = Array.from({ length: 100 }, (_, site) => drawHousehold(source, random, site));
    const curve = new DayCurve();
    let highestW = 0;
    for (const day of everyDay.filter((day) => day < 60 || day > 333)) {
      const feederJ = new Float64Array(DAY_MIN);
      for (const household of households) {
        fillDay({ household, random, day }, curve);
        for (let minute = 0; minute < DAY_MIN; minute++)
          feederJ[minute] = (feederJ[minute] as number) + (curve.activeJ[minute] as number);
      }
      highestW = Math.max(highestW, highestHalfHour(feederJ) / 60 / 100);
    }
    // Low Carbon London: diversified half-hour peaks of 0.54 to 1.78 kW by class; operators plan with 2 kW.
    expect(highestW).toBeGreaterThan(540);
    expect(highestW).toBeLessThan(1780);
  });
});

describe("beside fifteen measured days of one house", () => {
  /** Highest minute of a day over its highest half-hour. */
  const measured: number[] = [];
  const synthetic: number[] = [];
  beforeAll(() => {
    const { currentA } = householdMinutes();
    for (let day = 0; day < 15; day++) {
      const minutes = currentA
        .subarray(day * DAY_MIN, (day + 1) * DAY_MIN)
        .map((current) => (Number.isNaN(current) ? 0 : current));
      measured.push(highest(minutes) / highestHalfHour(minutes));
    }
    // What the measured house is known to have: water and rooms heated by electricity, gas for cooking, no shower.
    const owned = {
      "cylinder-heater": 1,
      "other-heating": 1,
      "tumble-dryer": 1,
      dishwasher: 1,
      "washing-machine": 1,
    };
    const lacking = { hob: 0, "electric-shower": 0, "storage-heaters": 0 };
    look(
      { people: 4, ownedShares: { ...owned, ...lacking } },
      { sites: 100, days: () => everyDay.slice(350, 365) },
      (activeJ) => synthetic.push(highest(activeJ) / highestHalfHour(activeJ)),
    );
  });
  it("the peak stands as high over the half-hour: each median lies in the other's range from 5 to 95 %", () => {
    expect(measured).toHaveLength(15);
    for (const [one, other] of [
      [measured, synthetic],
      [synthetic, measured],
    ] as const) {
      expect(quantile(one, 0.5)).toBeGreaterThan(quantile(other, 0.05));
      expect(quantile(one, 0.5)).toBeLessThan(quantile(other, 0.95));
    }
  });
  it("and the medians are within a fifth: that is as well as fifteen days of one house can tell", () =>
    expect(Math.abs(quantile(synthetic, 0.5) / quantile(measured, 0.5) - 1)).toBeLessThan(0.2));
});

describe("the same seed, site and day", () => {
  it("give the same day, whatever was drawn before", () => {
    const source = householdSource(table, { heatPumpShare: 0.5 });
    const dayOf = (random: RandomStream, site: number, day: number) => {
      const into = new Float64Array(DAY_MIN);
      syntheticDay({ household: drawHousehold(source, random, site), random, day }, into);
      return into;
    };
    fc.assert(
      fc.property(fc.maxSafeNat(), fc.nat(9999), fc.nat(9999), fc.nat(9999), (seed, site, day, other) => {
        const used = new RandomStream(seed);
        dayOf(used, other, day);
        expect(dayOf(used, site, day)).toEqual(dayOf(new RandomStream(seed), site, day));
      }),
      { numRuns: 30 },
    );
  });
  it("another seed, site or day gives another", () => {
    const source = householdSource(table);
    const energy = (seed: number, site: number, day: number) => {
      const random = new RandomStream(seed);
      const into = new Float64Array(DAY_MIN);
      syntheticDay({ household: drawHousehold(source, random, site), random, day }, into);
      return sum(into);
    };
    expect(new Set([energy(1, 1, 1), energy(2, 1, 1), energy(1, 2, 1), energy(1, 1, 2)]).size).toBe(4);
  });
});

describe("current", () => {
  const filled = (id: string, voltageV: number) => {
    const random = new RandomStream(4);
    const household = drawHousehold(householdSource(table, only(id)), random, 0);
    const [amps, watts] = [new Float64Array(DAY_MIN), new Float64Array(DAY_MIN)];
    syntheticDayCurrent({ household, random, day: 0 }, voltageV, amps);
    syntheticDay({ household, random, day: 0 }, watts);
    return { amps, watts };
  };
  it("is power over voltage and power factor", () => {
    const { amps, watts } = filled("fridge-freezer", 230);
    expect(highest(watts)).toBe(190);
    // The reactive part is a whole number of var: half of one in 142.
    expect(Math.abs(highest(amps) - 190 / 0.8 / 230)).toBeLessThan(0.5 / 230);
  });
  it("is power over voltage where there is no reactive part", () => {
    const { amps, watts } = filled("kettle", 240);
    expect(highest(amps)).toBeCloseTo(highest(watts) / 240, 12);
  });
  it.each([
    ["a day of 1439 minutes", 1439, 230, "into.length"],
    ["a voltage of zero", 1440, 0, "voltageV"],
  ])("refuses %s", (_what, length, voltageV, name) => {
    const random = new RandomStream(4);
    const household = drawHousehold(householdSource(table), random, 0);
    expect(() =>
      syntheticDayCurrent({ household, random, day: 0 }, voltageV, new Float64Array(length)),
    ).toThrow(expect.objectContaining({ code: "OUT_OF_DOMAIN", details: expect.objectContaining({ name }) }));
  });
});
