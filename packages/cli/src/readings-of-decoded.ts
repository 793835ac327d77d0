import { type DecodedRow, LINES, READINGS_FORMAT } from "@underfuse/engine";

/** Fields of a reading that a register can fill. */
const FIELD_OF: Readonly<Record<string, string>> = {
  V: "volts",
  I: "amps",
  P: "watts",
  Q: "vars",
  PF: "powerFactor",
};
const TOTAL_OF: Readonly<Record<string, string>> = { P: "totalWatts", Q: "totalVars" };

export interface StepTaken {
  readonly step: unknown;
  /** Numbers that were decoded and are not in the step, with the reason. */
  readonly leftOut: readonly string[];
}

/** A step of readings from decoded numbers, and what of them is not in it. */
export function stepOf(
  rows: readonly DecodedRow[],
  about: {
    readonly id: string;
    readonly carA: number | null;
    readonly carLines: readonly string[];
    readonly load: { readonly line: string; readonly watts: number } | null;
  },
): StepTaken {
  const meter: Record<string, unknown> = {};
  const leftOut: string[] = [];
  const hasVoltage = rows.some(({ quantity, plausible }) => quantity === "V" && plausible === "yes");
  for (const { quantity, channel, value, plausible, why } of rows) {
    const name = `${quantity} ${channel}`;
    const isLine = LINES.some((line) => line === channel);
    const field = (isLine ? FIELD_OF : TOTAL_OF)[quantity];
    // A line that is dead beside one that is not is evidence of the chain, not of the decoding.
    const isEvidence = plausible !== "no" || (quantity === "V" && hasVoltage);
    if (field === undefined) leftOut.push(`${name}: readings have no place for it.`);
    else if (value === null) leftOut.push(`${name}: the meter has no number.`);
    else if (!isEvidence) leftOut.push(`${name}: ${why}`);
    else if (isLine) meter[channel] = { ...(meter[channel] as object | undefined), [field]: value };
    else meter[field] = value;
  }
  return {
    step: {
      id: about.id,
      ...(about.carA !== null && { chargePoint: { offeredA: about.carA, lines: about.carLines } }),
      ...(about.load !== null && { loads: [about.load] }),
      meter,
    },
    leftOut,
  };
}

/** A new file of readings with one step. */
export const newReadings = (step: unknown): unknown => ({
  format: READINGS_FORMAT,
  formatVersion: 1,
  steps: [step],
});
