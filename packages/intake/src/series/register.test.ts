import { describe, expect, it } from "vitest";
import { Notes } from "../notes.ts";
import { ABSENT, ESTIMATED, RECORDED } from "./quality.ts";
import { energyFromRegister } from "./register.ts";

const ABS = Number.NaN;
function energyOf(readings: readonly number[], quality = readings.map(() => RECORDED)) {
  const notes = new Notes();
  const channel = {
    values: Float64Array.from(readings),
    quality: Uint8Array.from(quality),
    duplicateCount: 0,
  };
  const placed = energyFromRegister(
    { startMs: 0, channels: [channel], lineOf: (slot) => slot + 2 },
    1800,
    notes,
  );
  const [{ values, quality: marks }] = placed.channels as readonly [(typeof placed.channels)[number]];
  return { values: [...values], marks: [...marks], notes };
}

describe("energyFromRegister", () => {
  it("puts what passed in a gap in no interval, and says how much it was", () => {
    const { values, marks, notes } = energyOf([10, 12, ABS, ABS, 20, 21]);
    expect(values).toEqual([2, ABS, ABS, ABS, 1]);
    expect(marks).toEqual([RECORDED, ABSENT, ABSENT, ABSENT, RECORDED]);
    expect(notes.remarks[0]?.says).toContain("8 kWh passed in a gap of the readings");
  });
  it("is estimated where either end of the interval is", () =>
    expect(energyOf([1, 2, 3, 4], [RECORDED, ESTIMATED, RECORDED, RECORDED]).marks).toEqual([
      ESTIMATED,
      ESTIMATED,
      RECORDED,
    ]));
  it.each([
    ["from its last tenth to its first", [9000, 9900, 100], [900, 200]],
    ["by no more than twice what another interval has", [9000, 9900, 900], [900, 1000]],
    ["and not by far more than any other interval has", [9880, 9900, 100], null],
    ["from its last tenth to its middle", [9000, 9900, 5000], null],
    ["from its middle to its first tenth", [5000, 100, 9000], null],
  ])("has rolled over only where it falls %s", (_what, readings, energy) => {
    const { values, notes } = energyOf(readings);
    if (energy === null) expect(notes.problems).toMatchObject([{ code: "REGISTER_FALLS" }]);
    else expect([values, notes.problems]).toEqual([energy, []]);
  });
});
