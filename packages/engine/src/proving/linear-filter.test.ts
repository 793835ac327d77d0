import { describe, expect, it } from "vitest";
import { LinearFilter } from "./linear-filter.ts";

function filterOf(variances: readonly number[]): LinearFilter {
  const filter = new LinearFilter(variances.length);
  filter.reset(variances.length);
  variances.forEach((variance, place) => {
    filter.setVariance(place, variance);
  });
  return filter;
}
function reads(filter: LinearFilter, row: readonly number[], value: number, noise: number): number {
  filter.row.fill(0);
  row.forEach((weight, place) => {
    filter.row[place] = weight;
  });
  const expected = row.reduce((sum, weight, place) => sum + weight * (filter.state[place] as number), 0);
  return filter.update(value, expected, noise);
}

describe("LinearFilter", () => {
  it("weighs one reading of one unknown as two normal distributions do", () => {
    const filter = filterOf([4]);
    // Prior 0 ± 2, reading 3 ± 1: mean 3·4/5, variance 4/5, density of 3 under variance 5.
    const log = reads(filter, [1], 3, 1);
    expect(filter.state[0]).toBeCloseTo(2.4, 12);
    expect(filter.variance(0)).toBeCloseTo(0.8, 12);
    expect(log).toBeCloseTo(-0.5 * (Math.log(2 * Math.PI * 5) + 9 / 5), 12);
    expect(filter.misfit).toBeCloseTo(9 / 5, 12);
  });

  it("comes to the same estimate and density in whichever order readings are taken", () => {
    const readings = [
      [[1, 1, 0], 5, 1],
      [[0, 1, -1], -2, 0.5],
      [[1, 0, 2], 4, 2],
    ] as const;
    const taken = (order: readonly number[]) => {
      const filter = filterOf([4, 9, 1]);
      filter.setCovariance(0, 1, 2);
      const log = order.reduce((sum, index) => {
        const [row, value, noise] = readings[index] as (typeof readings)[number];
        return sum + reads(filter, row, value, noise);
      }, 0);
      return [log, filter.misfit, ...filter.state, ...filter.covariance];
    };
    const [forwards, backwards] = [taken([0, 1, 2]), taken([2, 1, 0])];
    forwards.forEach((value, index) => {
      expect(value).toBeCloseTo(backwards[index] as number, 10);
    });
  });

  it("goes back to an estimate kept aside, misfit and all", () => {
    const filter = filterOf([4, 1]);
    reads(filter, [1, 1], 2, 1);
    const kept = filter.keepsake();
    filter.keep(kept);
    const before = [filter.misfit, ...filter.state, ...filter.covariance];
    reads(filter, [1, -1], 7, 1);
    expect([filter.misfit, ...filter.state, ...filter.covariance]).not.toEqual(before);
    filter.restore(kept);
    expect([filter.misfit, ...filter.state, ...filter.covariance]).toEqual(before);
  });
});
