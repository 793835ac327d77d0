import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { complex, LINE_ANGLE_RAD, LINES, polar } from "../quantities/index.ts";
import { soundChain } from "./chain.ts";
import { permutedRows, scaledRow } from "./matrix.ts";
import { predictReading } from "./predict-reading.ts";

interface Arrangement {
  readonly lineOfChannel: readonly number[];
  readonly signs: readonly number[];
  readonly P: readonly number[];
  readonly Q: readonly number[];
  readonly totalP: number;
  readonly totalQ: number;
}
const file = new URL("../../../../reference/faults/arrangements.json", import.meta.url);
const { arrangements }: { readonly arrangements: readonly Arrangement[] } = JSON.parse(
  readFileSync(file, "utf8"),
);

const voltageV = LINES.map((line) => polar(1, LINE_ANGLE_RAD[line]));
const none = LINES.map(() => complex(0));
const read = ({ lineOfChannel, signs }: Arrangement) => {
  const sound = soundChain(3);
  const permuted = permutedRows(
    sound.window,
    lineOfChannel.map((line) => line - 1),
  );
  const window = permuted.map((row, c) => scaledRow(row, complex(signs[c] as number)));
  return predictReading(
    { ...sound, window },
    { voltageV, buildingA: voltageV, chargePointA: none, generationA: none },
  );
};
const key = (values: readonly (number | null)[]): string =>
  values.map((value) => ((value ?? 0) + 0).toFixed(6).replace(/^-0\.0+$/, "0.000000")).join();

// Source: Senderovych, Scherbakova, Abramovitz, Electronics 2024, 13(8), 1501 for the method; the list was
// worked in plain complex arithmetic in reference/faults.
describe("the 48 ways of fitting three transformers to three channels", () => {
  it("reads as worked elsewhere", () => {
    for (const arrangement of arrangements) {
      const { P, Q, totalP, totalQ } = read(arrangement);
      const pairs = [
        ...P.map((value, c) => [value, arrangement.P[c]]),
        ...Q.map((value, c) => [value, arrangement.Q[c]]),
        [totalP, arrangement.totalP],
        [totalQ, arrangement.totalQ],
      ];
      // The list is rounded to nine decimals.
      for (const [ours, theirs] of pairs) expect(ours).toBeCloseTo(theirs as number, 8);
    }
  });

  it("gives 48 patterns by channel, but only 19 totals", () => {
    const readings = arrangements.map(read);
    expect(new Set(readings.map(({ P, Q }) => key([...P, ...Q]))).size).toBe(48);
    expect(new Set(readings.map(({ totalP, totalQ }) => key([totalP, totalQ]))).size).toBe(19);
  });
});
