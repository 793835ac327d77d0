/**
 * Codes of ESPI that decide what a reading is.
 *
 * Source: [naesb-espi] UomType, AccumulationKind, FlowDirectionKind, DataQualifierKind, QualityOfReading.
 *
 * @module
 */
import { ESTIMATED, QUESTIONABLE, RECORDED } from "../series/quality.ts";
import type { KeptUnit } from "../series/unit.ts";

/** Units that say what a building draws, as a series keeps them. */
export const UNIT_OF: Readonly<Record<number, KeptUnit>> = {
  72: { unit: "kWh", powerOfTen: -3 },
  38: { unit: "W", powerOfTen: 0 },
  5: { unit: "A", powerOfTen: 0 },
};

const UNIT_NAMES: Readonly<Record<number, string>> = {
  5: "A",
  29: "V",
  38: "W",
  61: "VA",
  63: "var",
  71: "VAh",
  72: "Wh",
  73: "varh",
  106: "Ah",
};
export const unitName = (uom: number): string => UNIT_NAMES[uom] ?? `unit ${uom}`;

export const FLOW = { import: 1, net: 4, export: 19 } as const;
const FLOW_NAMES: Readonly<Record<number, string>> = { 1: "taken in", 4: "net", 19: "sent out" };
export const flowName = (flow: number | undefined): string =>
  flow === undefined ? "direction not said" : (FLOW_NAMES[flow] ?? `direction ${flow}`);

export const ACCUMULATION = {
  register: 1,
  cumulative: 3,
  interval: 4,
  summation: 9,
  instantaneous: 12,
} as const;

/** A data qualifier of 8 makes a value the maximum of its interval, not its mean. */
export const MAXIMUM = 8;

const QUALITY: Readonly<Record<number, number>> = {
  0: RECORDED,
  7: ESTIMATED,
  8: ESTIMATED,
  9: ESTIMATED,
  10: QUESTIONABLE,
  11: ESTIMATED,
  12: ESTIMATED,
  13: QUESTIONABLE,
  14: RECORDED,
  15: ESTIMATED,
  16: QUESTIONABLE,
  17: RECORDED,
  18: RECORDED,
  19: RECORDED,
};
/** Quality that a code stands for; a code that is not known is questionable. */
export const qualityOfCode = (code: number): number => QUALITY[code] ?? QUESTIONABLE;
