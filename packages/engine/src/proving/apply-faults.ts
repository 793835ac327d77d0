import type { Complex } from "../quantities/index.ts";
import { type Chain, soundChain } from "./chain.ts";
import type { Fault, FaultId, FaultOf } from "./fault.ts";
import { exchangedRows, meanRow, permutedRows, scaledRow, sumOfRows, unitRow, withRows } from "./matrix.ts";

type Effect<Id extends FaultId> = (chain: Chain, fault: FaultOf<Id>) => Chain;

const MINUS: Complex = { re: -1, im: 0 };
const real = (re: number): Complex => ({ re, im: 0 });
const turned = (angleRad: number): Complex => ({ re: Math.cos(angleRad), im: Math.sin(angleRad) });
const rows = (channels: readonly number[]): number[] => channels.map((channel) => channel - 1);
const pair = (channels: readonly number[]): [number, number] => [
  (channels[0] as number) - 1,
  (channels[1] as number) - 1,
];

const window = (
  chain: Chain,
  channels: readonly number[],
  change: (row: readonly Complex[]) => readonly Complex[],
): Chain => ({ ...chain, window: withRows(chain.window, rows(channels), change) });
const negatedWindow = (chain: Chain, channels: readonly number[]): Chain =>
  window(chain, channels, (row) => scaledRow(row, MINUS));
const exchanged = (chain: Chain, channels: readonly number[]): Chain => ({
  ...chain,
  window: exchangedRows(chain.window, ...pair(channels)),
});
const secondary = (chain: Chain, channels: readonly number[], factor: Complex): Chain => ({
  ...chain,
  secondary: withRows(chain.secondary, rows(channels), (row) => scaledRow(row, factor)),
});
const taps = (
  chain: Chain,
  channels: readonly number[],
  change: (row: readonly Complex[], index: number) => readonly Complex[],
): Chain => ({ ...chain, taps: withRows(chain.taps, rows(channels), change) });
const zeroed = (values: readonly number[], channels: readonly number[]): readonly number[] =>
  values.map((value, index) => (channels.includes(index + 1) ? 0 : value));
const set = (chain: Chain, factor: number): Chain => ({ ...chain, setting: chain.setting * factor });
const steppedRows = (lines: number, by: number): number[] =>
  Array.from({ length: lines }, (_, k) => (k + by + lines) % lines);
const atSite = (chain: Chain, fault: Chain["site"][number]): Chain => ({
  ...chain,
  site: [...chain.site, fault],
});
const decoded = (chain: Chain, fault: Chain["decoding"][number]): Chain => ({
  ...chain,
  decoding: [...chain.decoding, fault],
});

/** Secondary leads the primary by atan x when a resistive burden hangs on an inductive branch, x = R/ωL. */
const underBurden = (x: number): Complex => {
  const size = 1 + x * x;
  return { re: 1 / size, im: x / size };
};

/** What each fault does, in the order in which faults act: the table of docs/fault-model.md, row by row. */
const EFFECTS: { readonly [Id in FaultId]: Effect<Id> } = {
  F44: atSite,
  F65: atSite,
  F46: atSite,
  F17: atSite,

  F45: (chain, { share }) => ({ ...chain, meteredShare: chain.meteredShare * (1 - share) }),
  F18: (chain, { channels }) => ({ ...chain, seesChargePoint: zeroed(chain.seesChargePoint, channels) }),
  F19: (chain, { channels }) => ({
    ...chain,
    seesBuilding: zeroed(chain.seesBuilding, channels),
    seesGeneration: zeroed(chain.seesGeneration, channels),
  }),
  F04: (chain, { channels, line }) => window(chain, channels, () => unitRow(chain.lines, line - 1)),
  F05: (chain, { channels }) => exchanged(chain, channels),
  F06: (chain) => ({ ...chain, window: permutedRows(chain.window, steppedRows(chain.lines, 1)) }),
  F07: (chain) => ({ ...chain, window: permutedRows(chain.window, steppedRows(chain.lines, -1)) }),
  F08: (chain, { channels }) => negatedWindow(exchanged(chain, channels), channels.slice(0, 1)),
  F12: (chain, { order }) => ({
    ...chain,
    window: permutedRows(chain.window, rows(order)),
    taps: permutedRows(chain.taps, rows(order)),
  }),
  F20: (chain, { channels }) => window(chain, channels, (row) => scaledRow(row, real(0))),
  F21: (chain, { channels, line }) =>
    window(chain, channels, (row) => sumOfRows(row, unitRow(chain.lines, line - 1))),
  F22: (chain, { channels }) => window(chain, channels, () => [MINUS]),
  F23: (chain, { channels }) => window(chain, channels, (row) => row.map(() => MINUS)),
  F01: (chain, { channels }) => negatedWindow(chain, channels),
  F02: (chain, { channels }) => negatedWindow(chain, channels),
  F03: (chain) => ({ ...chain, window: chain.window.map((row) => scaledRow(row, MINUS)) }),
  F24: (chain, { channels, factor }) => window(chain, channels, (row) => scaledRow(row, factor)),
  F25: (chain, { channels, turns }) => window(chain, channels, (row) => scaledRow(row, real(turns))),

  F34: (chain, { channels, x }) => secondary(chain, channels, underBurden(x)),
  F35: (chain, { channels, x }) => secondary(chain, channels, underBurden(x)),
  F36: (chain, { channels, angleRad }) => secondary(chain, channels, turned(angleRad)),
  F39: (chain, { channels, factor }) => secondary(chain, channels, real(factor)),
  F31: (chain, { channels, factor }) => secondary(chain, channels, real(factor)),
  F32: (chain, { channels, factor }) => secondary(chain, channels, real(factor)),
  F40: (chain) => {
    const mean = meanRow(chain.secondary);
    return { ...chain, secondary: chain.secondary.map((row) => sumOfRows(row, mean, -1)) };
  },

  F09: (chain, { angleRad }) => taps(chain, [1], (row) => scaledRow(row, turned(angleRad))),
  F10: (chain, { channels }) => ({ ...chain, taps: exchangedRows(chain.taps, ...pair(channels)) }),
  F11: (chain, { back }) => ({
    ...chain,
    taps: permutedRows(chain.taps, steppedRows(chain.lines, back ? -1 : 1)),
  }),
  F13: (chain, { channels }) => taps(chain, channels, (row) => scaledRow(row, MINUS)),
  F14: (chain, { channels }) =>
    taps(chain, channels, (row, index) =>
      sumOfRows(row, chain.taps[(index + 1) % chain.lines] as readonly Complex[], -1),
    ),
  F15: (chain, { channels }) => taps(chain, channels, (row) => scaledRow(row, real(0))),
  F16: (chain) => {
    const mean = meanRow(chain.taps);
    return { ...chain, taps: chain.taps.map((row) => sumOfRows(row, mean, -1)) };
  },

  F26: (chain, { ratio }) => set(chain, 1 / ratio),
  F27: (chain, { secondary: rated }) => set(chain, rated),
  F28: (chain, { ratio }) => set(chain, 1 / (ratio * ratio)),
  F29: (chain, { factor }) => set(chain, factor),
  F30: (chain, { factor }) => set(chain, factor),
  F33: (chain, { factor }) => set(chain, factor),
  F37: (chain, { limitA }) => ({ ...chain, clipA: limitA }),
  F38: (chain, { floorA }) => ({ ...chain, floorA }),
  F41: (chain) => ({ ...chain, mode: "two-element" }),
  F42: (chain, { copies }) => ({ ...chain, mode: copies ? "first-line-copied" : "first-line" }),

  F43: decoded,
  F60: decoded,
  F59: decoded,
  F58: decoded,
};

const PLACE = new Map(Object.keys(EFFECTS).map((id, place) => [id, place]));
const placeOf = (fault: Fault): number => PLACE.get(fault.id) as number;

/** All faults that change readings, in the order in which they act. */
export const FAULT_IDS = Object.keys(EFFECTS) as readonly FaultId[];

/**
 * A sound chain with faults in it. The order of the list does not matter: faults act where they sit
 * between site and register, as docs/fault-model.md lists them.
 */
export const faultyChain = (lines: number, faults: readonly Fault[]): Chain =>
  (faults.length < 2 ? faults : [...faults].sort((a, b) => placeOf(a) - placeOf(b))).reduce(
    (chain, fault) => (EFFECTS[fault.id] as Effect<FaultId>)(chain, fault),
    soundChain(lines),
  );
