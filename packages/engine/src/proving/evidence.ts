import { halvesExchangedFloat32, halvesExchangedInt32 } from "./decoding.ts";
import type { FaultOf } from "./fault.ts";

/**
 * One step of a test as numbers: what was done, and what was read. NaN = not read. Index = line − 1.
 */
export interface EvidenceStep {
  /** Current the car should draw on each line. [A] */
  readonly carA: readonly number[];
  /** Power of loads of known size switched on, on each line. [W] */
  readonly loadW: readonly number[];
  /** False once generation is known to be off or absent. */
  readonly mayExport: boolean;
  readonly V: readonly number[];
  readonly I: readonly number[];
  readonly P: readonly number[];
  readonly Q: readonly number[];
  readonly totalP: number;
  readonly totalQ: number;
  /** Clamp-meter readings of the main fuse's current on each line. [A] */
  readonly clampA: readonly number[];
}

/** Steps in order, with the least digit of each kind of reading. */
export interface Evidence {
  readonly lines: 1 | 3;
  readonly steps: readonly EvidenceStep[];
  readonly resolution: { readonly V: number; readonly I: number; readonly P: number; readonly Q: number };
  /** True when the car's own current was read, so that its power is known better than by what was offered. */
  readonly carIsMeasured: boolean;
}

/** Readings as they were before a decoding fault changed them, and what that does to their densities. */
export interface UndoneEvidence {
  readonly evidence: Evidence;
  /** Logarithm of the change of scale, over all readings. */
  readonly logScale: number;
}

/** False for numbers no register of a sound meter holds: what exchanged halves of a float look like. */
export const isShowable = (value: number): boolean =>
  Number.isNaN(value) || value === 0 || (Math.abs(value) > 1e-6 && Math.abs(value) < 1e9);

type Undo = (value: number) => number;

/**
 * Takes a decoding fault out of the readings; null where no number of the sound chain reads so, and the
 * very same readings where it changes none of them.
 */
export function withoutDecoding(
  evidence: Evidence,
  fault: FaultOf<"F58" | "F59" | "F60">,
): UndoneEvidence | null {
  const keep: Undo = (value) => value;
  const undo = undoing(fault);
  const affects = (name: "V" | "I" | "P" | "Q"): boolean =>
    fault.id === "F60"
      ? fault.quantity === "all" || fault.quantity === name
      : fault.id === "F58" || name === "P" || name === "Q";
  const by = (name: "V" | "I" | "P" | "Q"): Undo => (affects(name) ? undo : keep);
  let changed = 0;
  let differs = false;
  let impossible = false;
  const through = (name: "V" | "I" | "P" | "Q") => (value: number) => {
    if (Number.isNaN(value)) return value;
    const undone = by(name)(value);
    if (!isShowable(undone)) impossible = true;
    if (affects(name)) changed++;
    if (undone !== value) differs = true;
    return undone;
  };
  const steps = evidence.steps.map((step) => ({
    ...step,
    V: step.V.map(through("V")),
    I: step.I.map(through("I")),
    P: step.P.map(through("P")),
    Q: step.Q.map(through("Q")),
    totalP: through("P")(step.totalP),
    totalQ: through("Q")(step.totalQ),
  }));
  if (impossible) return null;
  if (!differs) return { evidence, logScale: 0 };
  const exponent = fault.id === "F60" ? fault.exponent : 0;
  const scale = (name: "V" | "I" | "P" | "Q"): number => (affects(name) ? 10 ** -exponent : 1);
  const { resolution } = evidence;
  return {
    evidence: {
      ...evidence,
      steps,
      resolution: {
        V: resolution.V * scale("V"),
        I: resolution.I * scale("I"),
        P: resolution.P * scale("P"),
        Q: resolution.Q * scale("Q"),
      },
    },
    logScale: -exponent * Math.LN10 * changed,
  };
}

/** A whole number of registers' units: nothing else can come out of a whole number. */
const isMultiple = (value: number, unit: number): boolean =>
  value === 0 || (Math.abs(value / unit) > 0.5 && Math.abs(value / unit - Math.round(value / unit)) < 1e-6);

function undoing(fault: FaultOf<"F58" | "F59" | "F60">): Undo {
  switch (fault.id) {
    case "F60":
      return (value) => value * 10 ** -fault.exponent;
    case "F59": {
      const span = 2 ** fault.bits * fault.unit;
      return (value) => (value > span / 2 && value <= span ? value - span : value);
    }
    case "F58":
      return fault.kind === "float32"
        ? (value) => halvesExchangedFloat32(value) ?? Number.POSITIVE_INFINITY
        : (value) =>
            isMultiple(value, fault.unit)
              ? (halvesExchangedInt32(value, fault.unit) ?? Number.POSITIVE_INFINITY)
              : Number.POSITIVE_INFINITY;
  }
}
