import type { ChainDesign } from "./chain-design.ts";
import type { Fault, FaultId } from "./fault.ts";
import { LOOSE_SHARE } from "./reading-errors.ts";

/**
 * A fault as the diagnosis weighs it: one value of its parameters, how far they may lie from there, and
 * how common it is beside the others.
 */
export interface PossibleFault {
  readonly fault: Fault;
  /** Share of its kind's prior; the instances of one fault share it evenly. */
  readonly weight: number;
  /** Standard deviation of gain and angle of its channels about the stated value. [1], [rad] */
  readonly gainSd?: number;
  readonly angleSd?: number;
  /** Standard deviation of the current the car draws, relative: alike on all lines, and line by line. [1] */
  readonly carSd?: number;
  readonly carLineSd?: number;
  /** Standard deviation of channel voltages about the stated value. [V] */
  readonly voltageSdV?: number;
  /** Set where part of the building is hidden from the meter, or power may flow backwards. */
  readonly hidesLoad?: true;
  readonly mayExport?: true;
}

/** How common each fault is beside the others; see the fault catalogue for how it was chosen. */
export type FaultWeights = Readonly<Record<FaultId, number>>;

type Draft = Omit<PossibleFault, "weight">;

const DEGREE = Math.PI / 180;
const PRIMARY_RATIOS = [0.4, 0.5, 0.6, 2 / 3, 0.75, 0.8, 1.25, 4 / 3, 1.5, 5 / 3, 2, 2.5];
const LINE_ORDERS: readonly (readonly number[])[] = [
  [2, 1, 3],
  [1, 3, 2],
  [3, 2, 1],
  [2, 3, 1],
  [3, 1, 2],
];

/** Every single fault a chain of this design may have, with the values its parameters usually take. */
export function possibleFaults(design: ChainDesign, weights: FaultWeights): readonly PossibleFault[] {
  const drafts = [...anyChain(design), ...(design.lines === 3 ? threePhase(design) : singlePhase(design))];
  const counts = new Map<FaultId, number>();
  for (const { fault } of drafts) counts.set(fault.id, (counts.get(fault.id) ?? 0) + 1);
  return drafts.map((draft) => ({
    ...draft,
    weight: weights[draft.fault.id] / (counts.get(draft.fault.id) as number),
  }));
}

function anyChain(design: ChainDesign): Draft[] {
  const { lines, ratio, secondaryA } = design;
  const channels = Array.from({ length: lines }, (_, c) => [c + 1]);
  const all = channels.flat();
  const eachAndAll = lines === 1 ? channels : [...channels, all];
  return [
    ...channels.map((on): Draft => ({ fault: { id: "F01", channels: on } })),
    { fault: { id: "F03" } },
    ...channels.map((on): Draft => ({ fault: { id: "F13", channels: on } })),
    ...channels.map((on): Draft => ({ fault: { id: "F15", channels: on }, voltageSdV: 20 })),
    ...eachAndAll.map((on): Draft => ({ fault: { id: "F18", channels: on } })),
    ...eachAndAll.map((on): Draft => ({ fault: { id: "F19", channels: on } })),
    ...channels.map((on): Draft => ({ fault: { id: "F20", channels: on } })),
    ...channels.flatMap((on): Draft[] =>
      [1 / 2, 1 / 3].map((re) => ({
        fault: { id: "F24", channels: on, factor: { re, im: 0 } },
        gainSd: 0.06,
        angleSd: 4 * DEGREE,
      })),
    ),
    ...channels.flatMap((on): Draft[] =>
      [2, 3].map((turns) => ({ fault: { id: "F25", channels: on, turns } })),
    ),
    ...(ratio === null
      ? []
      : ([
          { fault: { id: "F26", ratio } },
          { fault: { id: "F28", ratio } },
          { fault: { id: "F33", factor: ratio } },
          { fault: { id: "F33", factor: 1 / ratio } },
        ] satisfies Draft[])),
    ...(secondaryA === null || secondaryA === 1
      ? []
      : ([{ fault: { id: "F27", secondary: secondaryA } }] satisfies Draft[])),
    ...PRIMARY_RATIOS.map((factor): Draft => ({ fault: { id: "F29", factor } })),
    { fault: { id: "F30", factor: 0.2 } },
    { fault: { id: "F30", factor: 5 } },
    ...eachAndAll.map((on): Draft => ({ fault: { id: "F31", channels: on, factor: 0 }, gainSd: 0.02 })),
    ...eachAndAll.flatMap((on): Draft[] =>
      [0, 1 / 3, 3].map((factor) => ({ fault: { id: "F32", channels: on, factor } })),
    ),
    ...channels.map(
      (on): Draft => ({
        fault: { id: "F34", channels: on, x: 0.12 },
        gainSd: 0.01,
        angleSd: 3 * DEGREE,
      }),
    ),
    ...channels.flatMap((on): Draft[] =>
      [0.35, 0.7, 1.3].map((x) => ({
        fault: { id: "F35", channels: on, x },
        gainSd: 0.02,
        angleSd: 7 * DEGREE,
      })),
    ),
    ...eachAndAll.flatMap((on): Draft[] =>
      [-3, 3].map((degrees) => ({
        fault: { id: "F36", channels: on, angleRad: degrees * DEGREE },
        angleSd: 1.5 * DEGREE,
      })),
    ),
    { fault: { id: "F37", limitA: design.primaryA ?? 100 } },
    { fault: { id: "F38", floorA: 0.01 * (design.primaryA ?? 60) } },
    ...channels.map((on): Draft => ({ fault: { id: "F39", channels: on, factor: LOOSE_SHARE } })),
    { fault: { id: "F44", amps: all.map(() => 0) }, mayExport: true },
    { fault: { id: "F45", share: 0 }, hidesLoad: true },
    { fault: { id: "F58", kind: "float32", unit: 1 } },
    ...[1, 0.1, 0.01].map((unit): Draft => ({ fault: { id: "F58", kind: "int32", unit } })),
    ...[1, 0.1, 10].map((unit): Draft => ({ fault: { id: "F59", bits: 16, unit } })),
    ...[1, 0.1, 0.01].map((unit): Draft => ({ fault: { id: "F59", bits: 32, unit } })),
    ...(["V", "I", "P", "Q", "all"] as const).flatMap((quantity): Draft[] =>
      [-3, -2, -1, 1, 2, 3].map((exponent) => ({ fault: { id: "F60", quantity, exponent } })),
    ),
    lines === 1
      ? { fault: { id: "F65", shares: [0.65] }, carSd: 0.2 }
      : { fault: { id: "F65", shares: all.map(() => 0.65) }, carSd: 0.15, carLineSd: 0.15 },
    { fault: { id: "F65", shares: all.map(() => 0) } },
  ];
}

const singlePhase = (design: ChainDesign): Draft[] => [
  { fault: { id: "F22", channels: [1] } },
  ...(design.isOnThreePhaseSupply
    ? [-120, 120].map((degrees): Draft => ({ fault: { id: "F09", angleRad: degrees * DEGREE } }))
    : []),
];

function threePhase(_design: ChainDesign): Draft[] {
  const lines = [1, 2, 3];
  const pairs: readonly (readonly [number, number])[] = [
    [1, 2],
    [1, 3],
    [2, 3],
  ];
  const ordered: readonly (readonly [number, number])[] = lines.flatMap((i) =>
    lines.filter((j) => j !== i).map((j): [number, number] => [i, j]),
  );
  return [
    ...pairs.map((on): Draft => ({ fault: { id: "F02", channels: on } })),
    ...ordered.map(([c, line]): Draft => ({ fault: { id: "F04", channels: [c], line } })),
    ...pairs.map((on): Draft => ({ fault: { id: "F05", channels: on } })),
    { fault: { id: "F06" } },
    { fault: { id: "F07" } },
    ...ordered.map((on): Draft => ({ fault: { id: "F08", channels: on } })),
    ...pairs.map((on): Draft => ({ fault: { id: "F10", channels: on } })),
    ...[true, false].map((back): Draft => ({ fault: { id: "F11", back } })),
    ...LINE_ORDERS.map((order): Draft => ({ fault: { id: "F12", order } })),
    ...lines.map((c): Draft => ({ fault: { id: "F14", channels: [c] } })),
    { fault: { id: "F16" } },
    { fault: { id: "F17" }, voltageSdV: 60 },
    ...ordered.map(([c, line]): Draft => ({ fault: { id: "F21", channels: [c], line } })),
    ...lines.map((c): Draft => ({ fault: { id: "F23", channels: [c] } })),
    { fault: { id: "F40" } },
    { fault: { id: "F41" } },
    { fault: { id: "F42", copies: true } },
    { fault: { id: "F42", copies: false } },
    { fault: { id: "F43" } },
    ...LINE_ORDERS.map((order): Draft => ({ fault: { id: "F46", order } })),
    ...lines.map((c): Draft => ({ fault: { id: "F65", shares: lines.map((k) => (k === c ? 1 : 0)) } })),
    ...lines.map((c): Draft => ({ fault: { id: "F65", shares: lines.map((k) => (k === c ? 0 : 1)) } })),
  ];
}

const SETTINGS: ReadonlySet<FaultId> = new Set(["F26", "F27", "F28", "F29", "F30", "F33"]);
const MODES: ReadonlySet<FaultId> = new Set(["F41", "F42"]);
const DECODINGS: ReadonlySet<FaultId> = new Set(["F58", "F59", "F60"]);

const channelsOf = (fault: Fault): readonly number[] | null => ("channels" in fault ? fault.channels : null);

/** False for two faults that one chain cannot have together, or that together are one fault of another name. */
export function canBePaired(a: Fault, b: Fault): boolean {
  for (const one of [SETTINGS, MODES, DECODINGS]) if (one.has(a.id) && one.has(b.id)) return false;
  if (a.id !== b.id) return true;
  const [first, second] = [channelsOf(a), channelsOf(b)];
  return first !== null && second !== null && !first.some((channel) => second.includes(channel));
}
