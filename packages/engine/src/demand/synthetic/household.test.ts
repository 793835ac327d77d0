import { describe, expect, it } from "vitest";
import { RandomStream } from "../../chance/index.ts";
import { demand } from "../../testing/knowledge.ts";
import { drawHousehold, type HouseholdKnown, householdSource } from "./household.ts";

const table = demand.appliances;
const COUNT = 4000;
const street = (known: HouseholdKnown = {}, seed = 1) => {
  const random = new RandomStream(seed);
  const source = householdSource(table, known);
  return Array.from({ length: COUNT }, (_, site) => drawHousehold(source, random, site));
};
const drawn = street();
/** Four standard errors of a share. */
const slack = (share: number) => 4 * Math.sqrt((share * (1 - share)) / COUNT);

describe("drawHousehold", () => {
  it.each(Object.entries(table.figures.rows))("owns as often as published: %s", (id, { ownedShare }) => {
    const owners = drawn.filter(({ appliances }) => appliances.some((appliance) => appliance.id === id));
    expect(Math.abs(owners.length / COUNT - ownedShare)).toBeLessThanOrEqual(slack(ownedShare));
  });
  it("has as many people as the shares say", () => {
    table.habits.households.peopleShares.forEach((share, index) => {
      const found = drawn.filter(({ people }) => people === index + 1).length / COUNT;
      expect(Math.abs(found - share)).toBeLessThan(slack(share));
    });
  });
  it("uses, on the mean over households, as often as published, and more with more people", () => {
    const row = table.figures.rows.kettle;
    const uses = street({ ownedShares: { kettle: 1 } }).map(({ people, use, appliances }) => ({
      people,
      perYear: 365 * use * (appliances.find(({ id }) => id === "kettle")?.usesPerDay ?? 0),
    }));
    const mean = (of: typeof uses) => of.reduce((sum, { perYear }) => sum + perYear, 0) / of.length;
    // Households differ by 45 %, so four standard errors are 2.8 %.
    expect(Math.abs(mean(uses) / (row?.usesPerYear ?? 0) - 1)).toBeLessThan(0.028);
    const by = (count: number) => mean(uses.filter(({ people }) => people === count));
    expect(by(1)).toBeLessThan(by(2));
    expect(by(2)).toBeLessThan(by(4));
  });
  it("leaves what nobody switches on as it is: cold appliances run alike in every household", () => {
    const perDay = drawn.flatMap(({ appliances }) =>
      appliances.filter(({ id }) => id === "fridge-freezer").map(({ usesPerDay }) => usesPerDay),
    );
    expect(new Set(perDay).size).toBe(1);
  });
  it("takes what is declared instead of drawing it", () => {
    const known = { people: 5, heatPumpShare: 1, ownedShares: { "electric-shower": 1, hob: 0 } };
    for (const { people, heatPump, appliances } of street(known).slice(0, 200)) {
      const owned = appliances.map(({ id }) => id);
      expect([people, heatPump !== null]).toEqual([5, true]);
      expect([owned.includes("electric-shower"), owned.includes("hob")]).toEqual([true, false]);
    }
  });
  it("a declaration changes nothing else of the household", () => {
    const without = street({ ownedShares: { "electric-shower": 0 } });
    const rest = (of: typeof drawn) =>
      of.map(({ people, appliances }) =>
        [people, ...appliances.map(({ id }) => id)].filter((id) => id !== "electric-shower"),
      );
    expect(rest(without)).toEqual(rest(drawn));
  });
  it("stands by with the standby of what it owns", () => {
    for (const { standbyW, appliances } of drawn.slice(0, 50)) {
      const sum = appliances.reduce((watts, { id }) => watts + (table.figures.rows[id]?.standbyW ?? 0), 0);
      expect(standbyW).toBe(sum);
    }
  });
});
