import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { promptControl } from "../testing/prompt-control.ts";
import type { ControlSettings } from "./control.ts";
import { createManager, decideBlind, decideOffers, type Manager, restartManager } from "./manager.ts";

const settings: ControlSettings = {
  ...promptControl,
  marginA: 2,
  fallbackA: null,
};

/** Points on L1, 32 A each, all asking. */
function managerOf(changed: Partial<ControlSettings> = {}, pointCount = 1, ratedA = 32): Manager {
  const each = Array.from({ length: pointCount }, (_, index) => index);
  return createManager(
    { ...settings, ...changed },
    {
      lineMask: Uint8Array.from(each, () => 1),
      maxA: Float64Array.from(each, () => ratedA),
      isAsking: Uint8Array.from(each, () => 1),
      arrival: Float64Array.from(each),
    },
  );
}

/** Decides with a building and cars on L1, and says what is offered. */
function decide(manager: Manager, buildingA: number, carsA: number, nowS: number): number[] {
  const reading = { totalA: Float64Array.of(buildingA + carsA, 0, 0), carsA: Float64Array.of(carsA, 0, 0) };
  decideOffers(manager, reading, nowS);
  return [...manager.offerA];
}

describe("the direct law", () => {
  it("offers what limit, margin and building leave, in whole steps, whatever the car takes", () => {
    expect(decide(managerOf(), 35.3, 0, 0)).toEqual([22]);
    expect(decide(managerOf(), 35.3, 20, 0)).toEqual([22]);
    expect(decide(managerOf({ offerStepA: 0.1 }), 35.3, 0, 0)[0]).toBeCloseTo(22.7, 12);
  });
  it("does not lose a step to rounding", () => {
    // 60 − 2 − 35.7 − … in binary is a little less than 22.3.
    expect(decide(managerOf({ offerStepA: 0.1, limitA: 58.3, marginA: 0.3 }), 35.7, 0, 0)[0]).toBeCloseTo(
      22.3,
      12,
    );
    expect(decide(managerOf({ limitA: 0.1 + 0.2 + 57.7, marginA: 0 }), 40, 0, 0)).toEqual([18]);
  });
  it("never offers more than the rating, nor less than the least offer", () => {
    expect(decide(managerOf(), 0, 0, 0)).toEqual([32]);
    expect(decide(managerOf(), 52, 0, 0)).toEqual([6]);
    expect(decide(managerOf(), 52.1, 0, 0)).toEqual([0]);
  });
  it("offers nothing to a point that does not ask", () => {
    const manager = managerOf({}, 2);
    manager.sharers.isAsking[0] = 0;
    expect(decide(manager, 30, 0, 0)).toEqual([0, 28]);
  });
});

it("takes the cars of each line off that line's total", () => {
  const manager = createManager(settings, {
    lineMask: Uint8Array.of(1, 2, 4),
    maxA: Float64Array.of(32, 32, 32),
    isAsking: Uint8Array.of(1, 1, 1),
    arrival: Float64Array.of(0, 1, 2),
  });
  // Of 60 A less a margin of 2 A the building leaves 58 − 30, 58 − 40 and 58 − 50.
  decideOffers(manager, { totalA: Float64Array.of(40, 45, 70), carsA: Float64Array.of(10, 5, 20) }, 0);
  expect([...manager.offerA]).toEqual([28, 18, 8]);
});

describe("falling and rising", () => {
  it("falls at once, and rises by the rise step once room has held", () => {
    const manager = managerOf({ riseHoldS: 10, riseStepA: 4 });
    expect(decide(manager, 30, 0, 0)).toEqual([28]);
    expect(decide(manager, 46, 28, 1)).toEqual([12]);
    expect(decide(manager, 30, 12, 2)).toEqual([12]);
    expect(decide(manager, 30, 12, 11.9)).toEqual([12]);
    expect(decide(manager, 30, 12, 12)).toEqual([16]);
    expect(decide(manager, 30, 16, 13)).toEqual([20]);
  });
  it("begins to wait again when the room was gone meanwhile", () => {
    const manager = managerOf({ riseHoldS: 10 });
    decide(manager, 46, 0, 0);
    expect(decide(manager, 30, 12, 5)).toEqual([12]);
    expect(decide(manager, 46, 12, 9)).toEqual([12]);
    expect(decide(manager, 30, 12, 10)).toEqual([12]);
    expect(decide(manager, 30, 12, 19)).toEqual([12]);
    expect(decide(manager, 30, 12, 20)).toEqual([28]);
  });
});

describe("pausing", () => {
  const hesitant = { resumeExtraA: 4, resumeHoldS: 60, minimumOffS: 120 };
  const paused = () => {
    const manager = managerOf(hesitant);
    decide(manager, 30, 0, 0);
    expect(decide(manager, 30, 0, 60)).toEqual([28]);
    expect(decide(manager, 53, 28, 100)).toEqual([0]);
    return manager;
  };
  it("begins without having paused, and waits for the hold alone", () => {
    const manager = managerOf(hesitant);
    expect(decide(manager, 30, 0, 5)).toEqual([0]);
    expect(decide(manager, 30, 0, 64)).toEqual([0]);
    expect(decide(manager, 30, 0, 65)).toEqual([28]);
  });
  it("lasts its minimum, and until room to spare has held", () => {
    const manager = paused();
    decide(manager, 30, 0, 101);
    expect(decide(manager, 30, 0, 219)).toEqual([0]);
    expect(decide(manager, 30, 0, 220)).toEqual([28]);
  });
  it("goes on while the room is not to spare", () => {
    const manager = paused();
    expect(decide(manager, 48.5, 0, 300)).toEqual([0]);
    expect(decide(manager, 48.5, 0, 900)).toEqual([0]);
    expect(decide(manager, 48, 0, 1000)).toEqual([0]);
    expect(decide(manager, 48, 0, 1060)).toEqual([10]);
  });
});

describe("a pause", () => {
  const prompt = { marginA: 0, resumeHoldS: 0, minimumOffS: 0, riseHoldS: 0, resumeExtraA: 7, turnS: 10 };
  it("for want of room ends only with room to spare on the line", () => {
    const manager = managerOf(prompt);
    expect(decide(manager, 40, 0, 0)).toEqual([20]);
    expect(decide(manager, 55, 20, 1)).toEqual([0]);
    // 12 A are enough to charge with, but not 6 + 7.
    expect(decide(manager, 48, 0, 2)).toEqual([0]);
    expect(decide(manager, 47, 0, 3)).toEqual([13]);
  });
  it("is no wait of a car that has just come: it begins with the least offer", () =>
    expect(decide(managerOf(prompt), 54, 0, 0)).toEqual([6]));
  it("looks at the room of the line, not at the share: a charge point of 10 A resumes as well", () => {
    const manager = managerOf(prompt, 1, 10);
    expect(decide(manager, 40, 0, 0)).toEqual([10]);
    expect(decide(manager, 55, 10, 1)).toEqual([0]);
    expect(decide(manager, 47, 0, 2)).toEqual([10]);
  });
  it("by turn ends with the next turn", () => {
    const manager = managerOf(prompt, 2);
    // 10 A are too little for two: they take turns of ten seconds.
    expect(decide(manager, 50, 0, 0)).toEqual([10, 0]);
    expect(decide(manager, 50, 10, 10)).toEqual([0, 10]);
    expect(decide(manager, 50, 10, 20)).toEqual([10, 0]);
  });
  it("never parts two that both can have the least offer", () =>
    expect(decide(managerOf(prompt, 2), 40, 0, 0)).toEqual([10, 10]));
  it("that began blind asks for nothing to spare", () => {
    const manager = managerOf({ ...prompt, fallbackA: 0 });
    decide(manager, 40, 0, 0);
    decideBlind(manager, 1);
    expect([...manager.offerA]).toEqual([0]);
    expect(decide(manager, 53, 0, 2)).toEqual([7]);
  });
});

describe("the integrating law", () => {
  const integrating = { law: { kind: "integrating", gain: 0.5 } } as const;
  it("moves what the cars take by a share of the error", () => {
    const manager = managerOf({ ...integrating, marginA: 0 });
    manager.offerA[0] = 20;
    // 20 + 0.5 · (60 − 30 − 20) = 25.
    expect(decide(manager, 30, 20, 0)).toEqual([25]);
    expect(decide(manager, 55, 25, 1)).toEqual([15]);
  });
  it("keeps the margin under the limit", () => {
    const manager = managerOf({ ...integrating, marginA: 2 });
    manager.offerA[0] = 20;
    // 20 + 0.5 · (60 − 2 − 30 − 20) = 24.
    expect(decide(manager, 30, 20, 0)).toEqual([24]);
  });
  it("counts the whole room while nothing is offered, so that a pause ends when there is room", () => {
    const held = { riseHoldS: 0, resumeHoldS: 0, minimumOffS: 0, resumeExtraA: 0 };
    const manager = managerOf({ law: { kind: "integrating", gain: 0.1 }, marginA: 0, ...held });
    // 60 − 40 = 20 A are left; a tenth of that would be less than the least offer for ever.
    expect(decide(manager, 40, 0, 0)).toEqual([20]);
  });
  it("does not wind up while the car takes less than it is offered", () => {
    const manager = managerOf({ ...integrating, marginA: 0 });
    manager.offerA[0] = 30;
    // Offers no further above the cars than the least offer: 10 + 6 + 0.5 · (60 − 30 − 10) = 26.
    expect(decide(manager, 30, 10, 0)).toEqual([26]);
  });
});

describe("blind", () => {
  const blind = (changed: Partial<ControlSettings>, offerA: number) => {
    const manager = managerOf(changed);
    manager.offerA[0] = offerA;
    decideBlind(manager, 500);
    return [...manager.offerA];
  };
  it.each([
    ["takes the fallback", 10, 28, 10],
    ["takes it also when it offered less", 10, 6, 10],
    ["in whole steps", 10.7, 28, 10],
    ["not above the rating", 63, 28, 32],
    ["pauses for less than the least offer", 5.9, 28, 0],
    ["holds the last offer without one", null, 28, 28],
  ])("%s", (_what, fallbackA, offerA, wanted) => {
    expect(blind({ fallbackA }, offerA)).toEqual([wanted]);
  });
  it("gives nothing to a point that does not ask", () => {
    const manager = managerOf({ fallbackA: 10 }, 2);
    manager.sharers.isAsking[1] = 0;
    decideBlind(manager, 500);
    expect([...manager.offerA]).toEqual([10, 0]);
  });
  it.each([6, null])("counts afresh afterwards what has held, fallback %s A", (fallbackA) => {
    const manager = managerOf({ fallbackA, resumeHoldS: 60, riseHoldS: 60 });
    decide(manager, 52, 0, 0);
    decide(manager, 52, 0, 60);
    expect(decide(manager, 30, 0, 70)).toEqual([6]);
    decideBlind(manager, 100);
    expect(decide(manager, 30, 0, 110)).toEqual([6]);
    expect(decide(manager, 30, 0, 169)).toEqual([6]);
    expect(decide(manager, 30, 0, 170)).toEqual([28]);
  });
  it("begins a pause that lasts its minimum", () => {
    const manager = managerOf({ fallbackA: 0, minimumOffS: 120 });
    decide(manager, 30, 0, 0);
    decideBlind(manager, 100);
    expect(decide(manager, 30, 0, 219)).toEqual([0]);
    expect(decide(manager, 30, 0, 220)).toEqual([28]);
  });
});

it("forgets offers, holds and pauses when restarted", () => {
  const manager = managerOf({ resumeHoldS: 30, minimumOffS: 600 });
  decide(manager, 30, 0, 0);
  expect(decide(manager, 30, 0, 30)).toEqual([28]);
  decide(manager, 58, 28, 40);
  decide(manager, 30, 0, 50);
  restartManager(manager);
  expect([...manager.offerA]).toEqual([0]);
  expect(decide(manager, 30, 0, 60)).toEqual([0]);
  expect(decide(manager, 30, 0, 89)).toEqual([0]);
  expect(decide(manager, 30, 0, 90)).toEqual([28]);
});

it("takes turns by the clock", () => {
  const manager = managerOf({ turnS: 900 }, 2);
  expect(decide(manager, 48, 0, 0)).toEqual([10, 0]);
  expect(decide(manager, 48, 10, 899)).toEqual([10, 0]);
  expect(decide(manager, 48, 10, 900)).toEqual([0, 10]);
  expect(decide(manager, 48, 10, 1800)).toEqual([10, 0]);
});

it.each([
  ["a rise", { riseHoldS: 25 }, 100, 125],
  ["the end of a pause", { resumeHoldS: 25, minimumOffS: 40 }, 50, 90],
])("waits for %s no longer than need be", (_what, changed, firstA, untilS) => {
  const manager = managerOf({ ...changed, fallbackA: 6 });
  decideBlind(manager, 0);
  decide(manager, firstA === 100 ? 52 : 60, 6, 50);
  const room = { totalA: Float64Array.of(30, 0, 0), carsA: new Float64Array(3) };
  expect(decideOffers(manager, room, firstA)).toBe(untilS);
  const offers = [...manager.offerA];
  decideOffers(manager, room, untilS);
  expect([...manager.offerA]).not.toEqual(offers);
});

describe("a settled decision", () => {
  const setting = fc.record({
    sharing: fc.constantFrom("equal" as const, "max-min" as const, "first-come" as const),
    riseHoldS: fc.integer({ min: 0, max: 20 }),
    riseStepA: fc.integer({ min: 1, max: 40 }),
    resumeExtraA: fc.integer({ min: 0, max: 6 }),
    resumeHoldS: fc.integer({ min: 0, max: 30 }),
    minimumOffS: fc.integer({ min: 0, max: 60 }),
    turnS: fc.integer({ min: 30, max: 100 }),
  });
  it("leads to the same offers until the time it says, whether decided again meanwhile or not", () => {
    let [settledCount, waitedCount] = [0, 0];
    fc.assert(
      fc.property(
        setting,
        fc.integer({ min: 1, max: 3 }),
        fc.array(fc.integer({ min: 0, max: 60 }), { minLength: 1, maxLength: 6 }),
        fc.integer({ min: 1, max: 2000 }),
        (changed, pointCount, buildings, laterS) => {
          const manager = managerOf(changed, pointCount);
          for (const [index, buildingA] of buildings.entries()) decide(manager, buildingA, 0, index * 7);
          const nowS = buildings.length * 7;
          const reading = {
            totalA: Float64Array.of(buildings[0] as number, 0, 0),
            carsA: new Float64Array(3),
          };
          const untilS = decideOffers(manager, reading, nowS);
          const offers = [...manager.offerA];
          const atS = untilS === Number.POSITIVE_INFINITY ? nowS + laterS : Math.ceil(untilS) - 1;
          if (atS <= nowS) return;
          settledCount++;
          decideOffers(manager, reading, (nowS + atS) >> 1);
          expect([...manager.offerA]).toEqual(offers);
          decideOffers(manager, reading, atS);
          expect([...manager.offerA]).toEqual(offers);
          if (untilS === Number.POSITIVE_INFINITY) return;
          waitedCount++;
        },
      ),
      { numRuns: 2000 },
    );
    expect(settledCount).toBeGreaterThan(100);
    expect(waitedCount).toBeGreaterThan(100);
  });
  it("offers nothing, or a whole number of steps from the least offer to the rating, within the room", () => {
    fc.assert(
      fc.property(
        setting,
        fc.integer({ min: 1, max: 4 }),
        fc.array(fc.integer({ min: -200, max: 800 }), { minLength: 1, maxLength: 12 }),
        (changed, pointCount, tenths) => {
          const manager = managerOf(changed, pointCount);
          for (const [index, tenth] of tenths.entries()) {
            const offers = decide(manager, tenth / 10, 0, index * 11);
            const roomA = Math.max(0, 58 - tenth / 10);
            expect(offers.reduce((sum, offerA) => sum + offerA, 0)).toBeLessThanOrEqual(roomA + 1e-9);
            for (const offerA of offers)
              if (offerA !== 0) {
                expect(Number.isInteger(offerA)).toBe(true);
                expect(offerA).toBeGreaterThanOrEqual(6);
                expect(offerA).toBeLessThanOrEqual(32);
              }
          }
        },
      ),
      { numRuns: 1000 },
    );
  });
});
