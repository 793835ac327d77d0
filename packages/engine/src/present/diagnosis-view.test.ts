import { GREAT_BRITAIN } from "@underfuse/knowledge";
import { describe, expect, it } from "vitest";
import { diagnose } from "../proving/index.ts";
import { jobWithChain } from "../testing/three-phase-chain.ts";
import { diagnosisView, measurementWords } from "./diagnosis-view.ts";

const totals = (kilowatts: readonly [number, number]) => {
  const result = diagnose(
    jobWithChain(1),
    {
      format: "underfuse-readings",
      formatVersion: 1,
      steps: [
        { id: "before", meter: { totalKilowatts: kilowatts[0] } },
        {
          id: "charging",
          chargePoint: { offeredA: 32, lines: ["L1"] },
          meter: { totalKilowatts: kilowatts[1] },
        },
      ],
    },
    GREAT_BRITAIN.faults,
  );
  if (!result.ok) throw new Error(result.reason);
  return diagnosisView(result.diagnosis, [], GREAT_BRITAIN.faults);
};

describe(diagnosisView, () => {
  it.each<readonly [number, number]>([
    [0.63, 8.13],
    [0.63, 0.66],
    [0.63, -6.9],
  ])("counts in its sentence as many as it lists, for %f and %f kW", (...kilowatts) => {
    const { sentences, causes } = totals(kilowatts);
    const [first] = causes;
    const listed = (first?.alike.length ?? 0) + (first?.moreAlike ?? 0);
    expect(listed).toBeGreaterThan(1);
    expect(sentences[0]).toMatch(new RegExp(`\\b${listed} (others|faults)\\b`));
  });
});

describe(measurementWords, () => {
  it("says, before a car charges on a chain that is not proved, what keeps the main fuse whole", () => {
    const words = measurementWords({ action: "charge", line: "L2", offeredA: 32, minutes: 2 });
    expect(words).toMatch(/^The load manager is not proved yet: switch large loads off/);
    expect(words).toContain("32 A, or as much as it takes, on L2 alone");
  });
});
