import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { faultsAt, noFaults, type TimedFault, type TimedFaultEffect } from "./timed-fault.ts";

const FOREVER = { fromS: 0, untilS: Number.POSITIVE_INFINITY };
const now = (...effects: readonly TimedFaultEffect[]) => {
  const faults = noFaults(2);
  faultsAt(
    effects.map((effect) => ({ ...effect, ...FOREVER })),
    100,
    faults,
  );
  return faults;
};

describe("one effect at a time", () => {
  it.each([
    ["reading-frozen", { isFrozen: true }],
    ["bus-lost", { isReadingLost: true }],
    ["meter-lost", { isReadingLost: true }],
    ["manager-restarted", { isManagerOff: true }],
  ] as const)("%s", (kind, changed) => expect(now({ kind })).toEqual({ ...noFaults(2), ...changed }));
  it("turns one line round, loses one, multiplies all", () => {
    expect([...now({ kind: "transformer-reversed", line: 1 }).multiple]).toEqual([1, -1, 1]);
    expect([...now({ kind: "line-missing", line: 2 }).multiple]).toEqual([1, 1, 0]);
    expect([...now({ kind: "ratio-wrong", multiple: 0.5 }).multiple]).toEqual([0.5, 0.5, 0.5]);
  });
  it("jumps the clock, and lets one car ignore its offer", () => {
    expect(now({ kind: "clock-jump", jumpS: -3600 }).clockS).toBe(-3600);
    expect([...now({ kind: "car-ignores-offer", point: 1 }).isIgnored]).toEqual([0, 1]);
  });
});

describe("effects together", () => {
  it("multiply on a line, and add on the clock", () => {
    const faults = now(
      { kind: "transformer-reversed", line: 0 },
      { kind: "ratio-wrong", multiple: 2 },
      { kind: "transformer-reversed", line: 0 },
      { kind: "transformer-reversed", line: 1 },
      { kind: "clock-jump", jumpS: 100 },
      { kind: "clock-jump", jumpS: -40 },
    );
    expect([...faults.multiple]).toEqual([2, -2, 2]);
    expect(faults.clockS).toBe(60);
  });
});

describe("from when, until when", () => {
  const frozen: TimedFault = { kind: "reading-frozen", fromS: 100, untilS: 200 };
  it.each([
    [0, false, 100],
    [99.5, false, 100],
    [100, true, 200],
    [199.5, true, 200],
    [200, false, Number.POSITIVE_INFINITY],
  ])("at %d s: %s, until %d s", (timeS, isFrozen, untilS) => {
    const faults = noFaults(1);
    expect(faultsAt([frozen], timeS, faults)).toBe(untilS);
    expect(faults.isFrozen).toBe(isFrozen);
  });
  const kinds: readonly TimedFaultEffect[] = [
    { kind: "reading-frozen" },
    { kind: "bus-lost" },
    { kind: "manager-restarted" },
    { kind: "ratio-wrong", multiple: 3 },
    { kind: "line-missing", line: 1 },
    { kind: "clock-jump", jumpS: 7 },
    { kind: "car-ignores-offer", point: 0 },
  ];
  const fault = fc
    .record({ effect: fc.constantFrom(...kinds), fromS: fc.nat(50), lastsS: fc.nat(30) })
    .map(({ effect, fromS, lastsS }): TimedFault => ({ ...effect, fromS, untilS: fromS + lastsS }));
  it("nothing changes before the time it names, and all that has ended is undone", () => {
    fc.assert(
      fc.property(fc.array(fault, { maxLength: 6 }), (faults) => {
        const [seen, afresh] = [noFaults(1), noFaults(1)];
        let untilS = Number.NEGATIVE_INFINITY;
        for (let timeS = 0; timeS < 90; timeS++) {
          if (timeS >= untilS) untilS = faultsAt(faults, timeS, seen);
          faultsAt(
            faults.filter(({ fromS, untilS }) => fromS <= timeS && timeS < untilS),
            timeS,
            afresh,
          );
          expect(seen).toEqual(afresh);
        }
        expect(seen).toEqual(noFaults(1));
      }),
    );
  });
});
