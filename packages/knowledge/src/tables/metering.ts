import type { Citation, ClassLimitRow, MeteringTables } from "@underfuse/engine";
import { SUNSPEC } from "./sunspec-meters.ts";

const iec61869: Citation = {
  source: "iec61869-2",
  at: "ratio error and phase displacement by class",
  standing: "seen",
  seenAt: "reprint-transformer-classes",
  remark: "For a burden of 25 to 100 % of rated; classes 3 and 5 from 50 %.",
};
const directive: Citation = {
  source: "directive-2014-32",
  at: "Annex V, Table 2, from the transitional current up, +5 to +30 °C",
  standing: "seen",
  remark: "Rows' labels recalled.",
};
const iec62053: Citation = {
  source: "iec62053-21",
  at: "limits of percentage error, reference conditions",
  standing: "recalled",
};

const limits = (
  accuracyClass: string,
  rows: readonly (readonly [percent: number, ratioPercent: number, phaseMin: number | null])[],
): ClassLimitRow[] =>
  rows.map(([percent, ratioPercent, phaseMin]) => ({
    accuracyClass,
    percent,
    ratioPercent,
    phaseMin,
    citation: iec61869,
  }));

/** Current transformers, their leads, the meters behind them and what their registers mean. */
export const METERING: MeteringTables = {
  sunspec: SUNSPEC,
  classLimits: [
    ...limits("0.1", [
      [5, 0.4, 15],
      [20, 0.2, 8],
      [100, 0.1, 5],
    ]),
    ...limits("0.2", [
      [5, 0.75, 30],
      [20, 0.35, 15],
      [100, 0.2, 10],
    ]),
    ...limits("0.2S", [
      [1, 0.75, 30],
      [5, 0.35, 15],
      [20, 0.2, 10],
    ]),
    ...limits("0.5", [
      [5, 1.5, 90],
      [20, 0.75, 45],
      [100, 0.5, 30],
    ]),
    ...limits("0.5S", [
      [1, 1.5, 90],
      [5, 0.75, 45],
      [20, 0.5, 30],
    ]),
    ...limits("1", [
      [5, 3, 180],
      [20, 1.5, 90],
      [100, 1, 60],
    ]),
    ...limits("3", [[50, 3, null]]),
    ...limits("5", [[50, 5, null]]),
  ],
  leadResistance: (
    [
      [0.14, 138],
      [0.22, 99],
      [0.34, 56],
      [0.5, 39],
      [0.75, 26],
      [1, 19.5],
      [1.5, 13.3],
      [2.5, 7.98],
      [4, 4.95],
      [6, 3.3],
    ] as const
  ).map(([mm2, ohmPerKm]) => ({
    mm2,
    ohmPerKm,
    citation: {
      source: "iec60228",
      at: mm2 < 0.5 ? "VDE 0295, thin flexible conductors" : "Table 3, class 5, plain copper",
      standing: "seen",
      seenAt: "reprint-flexible-conductors",
    },
  })),
  meterClasses: [
    { meterClass: "A", percent: 3.5, citation: directive },
    { meterClass: "B", percent: 2, citation: directive },
    { meterClass: "C", percent: 0.7, citation: directive },
    { meterClass: "0.5", percent: 0.5, citation: iec62053 },
    { meterClass: "1", percent: 1, citation: iec62053 },
    { meterClass: "2", percent: 2, citation: iec62053 },
  ],
  ratedSecondary: (
    [
      ["1-A", 1],
      ["5-A", 5],
    ] as const
  ).map(([output, amps]) => ({
    output,
    amps,
    citation: {
      source: "iec61869-2",
      at: "rated secondary current",
      standing: "seen",
      seenAt: "reprint-transformer-classes",
    },
  })),
};
