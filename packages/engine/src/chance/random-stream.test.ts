import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { philox4x32 } from "./philox.ts";
import { RandomStream, STREAM_PURPOSES, type StreamPurpose } from "./random-stream.ts";

const word = fc.integer({ min: 0, max: 0xffff_ffff });
const purpose = fc.constantFrom(...(Object.keys(STREAM_PURPOSES) as StreamPurpose[]));
const seed = fc.maxSafeNat();
const draw = (random: RandomStream, count: number) => Array.from({ length: count }, () => random.word());

describe("RandomStream", () => {
  it("gives the words of its place: block, day, site and purpose as counter, the seed as key", () => {
    fc.assert(
      fc.property(seed, purpose, word, word, (seed, purpose, site, day) => {
        const [first, second] = [new Uint32Array(4), new Uint32Array(4)];
        const key = Uint32Array.of(Number(BigInt(seed) & 0xffff_ffffn), Number(BigInt(seed) >> 32n));
        philox4x32(Uint32Array.of(0, day, site, STREAM_PURPOSES[purpose]), key, first);
        philox4x32(Uint32Array.of(1, day, site, STREAM_PURPOSES[purpose]), key, second);
        expect(draw(new RandomStream(seed).start(purpose, { site, day }), 8)).toEqual([...first, ...second]);
      }),
    );
  });
  it("gives a place the same numbers whatever was drawn before", () => {
    fc.assert(
      fc.property(seed, purpose, word, word, fc.nat(9), (seed, purpose, site, day, before) => {
        const random = new RandomStream(seed);
        draw(random.start("appliances", { site: 7, day: 7 }), before);
        expect(draw(random.start(purpose, { site, day }), 6)).toEqual(
          draw(new RandomStream(seed).start(purpose, { site, day }), 6),
        );
      }),
    );
  });
  it("gives different numbers as soon as seed, purpose, site or day differ", () => {
    const first = (seed: number, purpose: StreamPurpose, site: number, day: number) =>
      new RandomStream(seed).start(purpose, { site, day }).word();
    const base = first(1, "car-day", 2, 3);
    expect(first(2, "car-day", 2, 3)).not.toBe(base);
    expect(first(1 + 2 ** 32, "car-day", 2, 3)).not.toBe(base);
    expect(first(1, "household", 2, 3)).not.toBe(base);
    expect(first(1, "car-day", 3, 2)).not.toBe(base);
    expect(first(1, "car-day", 2, 4)).not.toBe(base);
  });
  it("numbers its purposes apart", () => {
    const numbers = Object.values(STREAM_PURPOSES);
    expect(new Set(numbers).size).toBe(numbers.length);
  });
  it("stays strictly between 0 and 1, even for the extreme words", () => {
    class Extreme extends RandomStream {
      readonly fixed: number;
      constructor(fixed: number) {
        super(0);
        this.fixed = fixed;
      }
      override word(): number {
        return this.fixed;
      }
    }
    expect(new Extreme(0).uniform()).toBeGreaterThan(0);
    expect(new Extreme(0xffff_ffff).uniform()).toBeLessThan(1);
  });
  it("is uniform: mean, variance, each decile, and no memory from one number to the next", () => {
    const random = new RandomStream(11).start("household", { site: 0, day: 0 });
    const count = 200_000;
    const values = Float64Array.from({ length: count }, () => random.uniform());
    const mean = values.reduce((sum, value) => sum + value, 0) / count;
    const spread = values.reduce((sum, value) => sum + (value - 0.5) ** 2, 0) / count;
    // Four standard errors of each estimate: a sound generator fails one seed in 16,000.
    expect(Math.abs(mean - 0.5)).toBeLessThan(4 * Math.sqrt(1 / 12 / count));
    expect(Math.abs(spread - 1 / 12)).toBeLessThan(4 * Math.sqrt(1 / 180 / count));
    for (let decile = 0; decile < 10; decile++) {
      const share = values.filter((value) => Math.floor(value * 10) === decile).length / count;
      expect(Math.abs(share - 0.1)).toBeLessThan(4 * Math.sqrt((0.1 * 0.9) / count));
    }
    let lagged = 0;
    for (let index = 1; index < count; index++)
      lagged += ((values[index] as number) - 0.5) * ((values[index - 1] as number) - 0.5);
    expect(Math.abs(lagged / count)).toBeLessThan((4 * (1 / 12)) / Math.sqrt(count));
  });
  it("shows no link between neighbouring sites and days", () => {
    const random = new RandomStream(5);
    const count = 200;
    const first = (site: number, day: number) => random.start("car-day", { site, day }).uniform() - 0.5;
    let [bySite, byDay] = [0, 0];
    for (let site = 0; site < count; site++) {
      for (let day = 0; day < count; day++) {
        bySite += first(site, day) * first(site + 1, day);
        byDay += first(site, day) * first(site, day + 1);
      }
    }
    // Four standard errors of a mean of 40,000 products of independent numbers.
    const bound = (4 * (1 / 12)) / count;
    expect(Math.abs(bySite / count ** 2)).toBeLessThan(bound);
    expect(Math.abs(byDay / count ** 2)).toBeLessThan(bound);
  });
  it.each([
    ["a negative seed", () => new RandomStream(-1), "seed"],
    ["a broken seed", () => new RandomStream(0.5), "seed"],
    ["a seed too large to be exact", () => new RandomStream(2 ** 53), "seed"],
    ["a site below zero", () => new RandomStream(0).start("car-day", { site: -1, day: 0 }), "site"],
    [
      "a day that is no number",
      () => new RandomStream(0).start("car-day", { site: 0, day: Number.NaN }),
      "day",
    ],
  ])("refuses %s", (_what, call, name) =>
    expect(call).toThrow(
      expect.objectContaining({ code: "OUT_OF_DOMAIN", details: expect.objectContaining({ name }) }),
    ),
  );
});
