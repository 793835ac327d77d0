import { GREAT_BRITAIN } from "@underfuse/knowledge";
import { describe, expect, it } from "vitest";
import { BUS_OBSERVATIONS, type BusObservation, busCauses } from "./bus-causes.ts";

const first = (...observed: BusObservation[]) => busCauses(observed, GREAT_BRITAIN.faults)[0]?.id;

describe(busCauses, () => {
  // Source: signatures of the fault catalogue; idle voltage and termination from MODBUS over Serial Line V1.02.
  it.each<[observed: BusObservation[], id: string]>([
    [["no-reply", "idle-voltage-negative"], "F47"],
    [["damaged-frames", "damaged-frames-fewer-when-slower"], "F48"],
    [["idle-voltage-below-200-mv", "resistance-40-ohm-or-less"], "F49"],
    [["idle-voltage-below-200-mv"], "F50"],
    [["damaged-frames", "errors-with-machines"], "F51"],
    [["damaged-frames-from-one-address"], "F52"],
    [["exception-1"], "F56"],
    [["exception-2"], "F57"],
    [["exception-11"], "F55"],
    [["values-stand-still"], "F61"],
    [["values-ramp-after-a-step"], "F62"],
    [["powers-disagree-while-changing"], "F63"],
    [["cycle-longer-than-control"], "F64"],
    [["car-follows-late"], "F66"],
  ])("%s", (observed, id) => expect(first(...observed)).toBe(id));

  it("leaves wrong speed, parity, address and a reversed pair together while nothing but silence is known", () => {
    expect(
      busCauses(["no-reply"], GREAT_BRITAIN.faults)
        .map(({ id }) => id)
        .sort(),
    ).toEqual(expect.arrayContaining(["F47", "F53", "F54", "F55"]));
  });

  it("adds up to one, and says nothing of nothing", () => {
    for (const observation of BUS_OBSERVATIONS) {
      const sum = busCauses([observation], GREAT_BRITAIN.faults).reduce(
        (total, { probability }) => total + probability,
        0,
      );
      expect(sum).toBeGreaterThan(0.8);
      expect(sum).toBeLessThanOrEqual(1 + 1e-9);
    }
    expect(busCauses([], GREAT_BRITAIN.faults)).toEqual([]);
  });
});
