import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type SharingRule, type SharingTerms, shareRoom } from "./sharing.ts";

interface Asker {
  readonly lines: readonly number[];
  readonly maxA: number;
  readonly isAsking?: boolean;
  readonly arrival?: number;
}

function share(roomA: readonly number[], askers: readonly Asker[], terms: Partial<SharingTerms>): number[] {
  const shareA = new Float64Array(askers.length).fill(Number.NaN);
  shareRoom(
    Float64Array.from([0, 0, 0].map((_, line) => roomA[line] ?? 0)),
    {
      lineMask: Uint8Array.from(askers, ({ lines }) => lines.reduce((sum, line) => sum + 2 ** line, 0)),
      maxA: Float64Array.from(askers, ({ maxA }) => maxA),
      isAsking: Uint8Array.from(askers, ({ isAsking = true }) => Number(isAsking)),
      arrival: Float64Array.from(askers, ({ arrival }, index) => arrival ?? index),
    },
    { rule: "equal", minOfferA: 6, turn: 0, ...terms },
    shareA,
  );
  return [...shareA];
}

const onL1 = (...maxA: number[]): Asker[] => maxA.map((maxA) => ({ lines: [0], maxA }));
const close = (got: readonly number[], wanted: readonly number[]) => {
  expect(got.length).toBe(wanted.length);
  for (const [index, value] of got.entries()) expect(value).toBeCloseTo(wanted[index] as number, 9);
};

describe("max-min", () => {
  it("gives the published fair share: 2, 2.6, 2.7, 2.7 of 10 [keshav-1997]", () => {
    close(share([10], onL1(2, 2.6, 4, 5), { rule: "max-min", minOfferA: 0.5 }), [2, 2.6, 2.7, 2.7]);
  });
  it("comes to an end where the least room there is does not divide", () => {
    const room = [0, 2.5e-323, 3.5e-323];
    const askers: Asker[] = [0, 1, 2].map(() => ({ lines: [2], maxA: 6 }));
    close(share(room, askers, { rule: "max-min" }), [0, 0, 0]);
  });
  it("lets a point on a roomy line go on where another is stopped", () => {
    const askers: Asker[] = [
      { lines: [0], maxA: 32 },
      { lines: [1], maxA: 32 },
      { lines: [0, 1, 2], maxA: 16 },
    ];
    // L1 is full at 10 each; L2 then has 20 left for its own point.
    close(share([20, 30, 60], askers, { rule: "max-min" }), [10, 20, 10]);
  });
});

describe("equal", () => {
  it("a managed group of three 30 A stations on 80 A: two take 30 each, three 26.67 each", () => {
    close(share([80], onL1(30, 30), {}), [30, 30]);
    close(share([80], onL1(30, 30, 30), {}), [80 / 3, 80 / 3, 80 / 3]);
  });
  it("does not hand on what one cannot use", () => {
    close(share([40], onL1(10, 32), {}), [10, 20]);
  });
  it("takes the least over the lines of a point", () => {
    const askers: Asker[] = [
      { lines: [0], maxA: 32 },
      { lines: [0, 1, 2], maxA: 32 },
    ];
    close(share([20, 50, 15], askers, {}), [10, 10]);
    close(share([40, 50, 15], askers, {}), [20, 15]);
  });
});

describe("first-come", () => {
  it("serves in the order of arrival, whatever the numbering", () => {
    const askers: Asker[] = [
      { lines: [0], maxA: 32, arrival: 7 },
      { lines: [0], maxA: 20, arrival: 3 },
      { lines: [0], maxA: 32, arrival: 5 },
    ];
    close(share([50], askers, { rule: "first-come" }), [0, 20, 30]);
  });
  it("gives the next one the least offer where just that is left, and nothing below it", () => {
    close(share([26], onL1(20, 32), { rule: "first-come" }), [20, 6]);
    close(share([25.9], onL1(20, 32), { rule: "first-come" }), [20, 0]);
  });
  it("passes over one for whom too little is left, and goes on", () => {
    const askers: Asker[] = [
      { lines: [0], maxA: 16, arrival: 1 },
      { lines: [0, 1], maxA: 16, arrival: 2 },
      { lines: [1], maxA: 16, arrival: 3 },
    ];
    close(share([18, 20], askers, { rule: "first-come" }), [16, 0, 16]);
  });
});

describe("one point alone", () => {
  it.each(["equal", "max-min", "first-come"] as const)("gets the least room of its lines: %s", (rule) => {
    close(share([20, 12, 15], [{ lines: [0, 1, 2], maxA: 32 }], { rule }), [12]);
    close(share([20, 5.9, 15], [{ lines: [0, 1, 2], maxA: 32 }], { rule }), [0]);
    close(share([-3], onL1(32), { rule }), [0]);
  });
});

describe("turns, where there is less than the least offer for each", () => {
  it.each([
    [0, [10, 0, 0]],
    [1, [0, 10, 0]],
    [2, [0, 0, 10]],
    [3, [10, 0, 0]],
  ])("turn %d", (turn, wanted) => {
    for (const rule of ["equal", "max-min"] as const)
      close(share([10], onL1(32, 32, 32), { rule, turn }), wanted);
  });
  it("counts those who ask and goes round", () => {
    const askers = [...onL1(32, 32), { lines: [0], maxA: 32, isAsking: false }, ...onL1(32)];
    close(share([14], askers, { turn: 2 }), [7, 0, 0, 7]);
  });
  it("serves as many as the least offer goes round to, to the last ampere", () =>
    close(share([12], onL1(32, 32, 32), {}), [6, 6, 0]));
  it("passes over one whose lines are full and admits the next", () => {
    const askers: Asker[] = [
      { lines: [0], maxA: 32 },
      { lines: [0, 1], maxA: 32 },
      { lines: [1], maxA: 32 },
    ];
    close(share([7, 20], askers, { rule: "max-min", turn: 0 }), [7, 0, 20]);
  });
});

const rule = fc.constantFrom<SharingRule>("equal", "max-min", "first-come");
const lines = fc.subarray([0, 1, 2], { minLength: 1 });
const asker = fc.record({
  lines,
  maxA: fc.double({ min: 6, max: 40, noNaN: true }),
  isAsking: fc.boolean(),
});
const askers = fc.array(asker, { minLength: 1, maxLength: 7 });
const room = fc.array(fc.double({ min: -20, max: 90, noNaN: true }), { minLength: 3, maxLength: 3 });
/** Room and shares are some tens of amperes; sums of a few of them are right within some 1e-14. [A] */
const ROUNDING_A = 1e-9;

const carried = (askers: readonly Asker[], shares: readonly number[], line: number) =>
  askers.reduce((sum, asker, index) => sum + (asker.lines.includes(line) ? (shares[index] as number) : 0), 0);

describe("sharing, whatever the points", () => {
  it("never exceeds the room of a line, the most of a point, nor gives between nothing and the least offer", () => {
    fc.assert(
      fc.property(rule, room, askers, fc.nat(30), (rule, room, askers, turn) => {
        const shares = share(room, askers, { rule, turn });
        for (const line of [0, 1, 2])
          expect(carried(askers, shares, line)).toBeLessThanOrEqual(
            Math.max(0, room[line] as number) + ROUNDING_A,
          );
        for (const [index, share] of shares.entries()) {
          const { maxA, isAsking } = askers[index] as Asker;
          expect(share).toBeLessThanOrEqual(isAsking ? maxA + ROUNDING_A : 0);
          if (share !== 0) expect(share).toBeGreaterThanOrEqual(6 - ROUNDING_A);
        }
      }),
      { numRuns: 2000 },
    );
  });
  it("goes with the points when they are numbered otherwise", () => {
    const numbered = askers.chain((askers) =>
      fc.record({
        askers: fc.constant(askers.map((asker, arrival) => ({ ...asker, arrival }))),
        order: fc.shuffledSubarray([...askers.keys()], { minLength: askers.length }),
      }),
    );
    fc.assert(
      fc.property(rule, room, numbered, (rule, room, { askers, order }) => {
        const shares = share(room, askers, { rule });
        // Turns begin with a number, so they are left out: then somebody who asks gets nothing.
        fc.pre(
          rule === "first-come" || askers.every(({ isAsking }, index) => !isAsking || shares[index] !== 0),
        );
        const again = share(
          room,
          order.map((index) => askers[index] as Asker),
          { rule },
        );
        close(
          again,
          order.map((index) => shares[index] as number),
        );
      }),
      { numRuns: 2000 },
    );
  });
  it("max-min: nobody could have more without one who has no more than they having less", () => {
    fc.assert(
      fc.property(room, askers, fc.nat(30), (room, askers, turn) => {
        const shares = share(room, askers, { rule: "max-min", turn });
        for (const [index, mine] of shares.entries()) {
          const { maxA, lines } = askers[index] as Asker;
          if (mine === 0 || mine >= maxA - ROUNDING_A) continue;
          const isStopped = lines.some(
            (line) =>
              carried(askers, shares, line) >= (room[line] as number) - ROUNDING_A &&
              askers.every(
                (other, at) => !other.lines.includes(line) || (shares[at] as number) <= mine + ROUNDING_A,
              ),
          );
          expect(isStopped).toBe(true);
        }
      }),
      { numRuns: 2000 },
    );
  });
  it("equal: the least over the lines of the room divided by those admitted on it", () => {
    fc.assert(
      fc.property(room, askers, fc.nat(30), (room, askers, turn) => {
        const shares = share(room, askers, { rule: "equal", turn });
        const onLine = (line: number) =>
          askers.filter(({ lines }, index) => lines.includes(line) && shares[index] !== 0).length;
        for (const [index, mine] of shares.entries()) {
          if (mine === 0) continue;
          const { maxA, lines } = askers[index] as Asker;
          const each = Math.min(...lines.map((line) => (room[line] as number) / onLine(line)));
          expect(mine).toBeCloseTo(Math.min(maxA, each), 9);
        }
      }),
      { numRuns: 2000 },
    );
  });
  it("leaves nobody out who could still have the least offer", () => {
    fc.assert(
      fc.property(
        fc.constantFrom<SharingRule>("equal", "max-min"),
        room,
        askers,
        fc.nat(30),
        (rule, room, askers, turn) => {
          const shares = share(room, askers, { rule, turn });
          const admitted = (line: number) =>
            askers.filter(({ lines }, index) => lines.includes(line) && shares[index] !== 0).length;
          for (const [index, { lines, isAsking }] of askers.entries())
            if (isAsking && shares[index] === 0)
              expect(
                Math.min(...lines.map((line) => (room[line] as number) - 6 * admitted(line))),
              ).toBeLessThan(6 + ROUNDING_A);
        },
      ),
      { numRuns: 2000 },
    );
  });
  it("serves everyone in turn whose lines have the least offer at all", () => {
    fc.assert(
      fc.property(fc.constantFrom<SharingRule>("equal", "max-min"), room, askers, (rule, room, askers) => {
        const turns = Array.from({ length: askers.length }, (_, turn) => share(room, askers, { rule, turn }));
        for (const [index, { lines, isAsking }] of askers.entries())
          if (isAsking && lines.every((line) => (room[line] as number) >= 6))
            expect(Math.max(...turns.map((shares) => shares[index] as number))).toBeGreaterThanOrEqual(
              6 - ROUNDING_A,
            );
      }),
      { numRuns: 2000 },
    );
  });
});
