import { halvesExchangedFloat32, halvesExchangedInt32 } from "./decoding.ts";
import type { Evidence } from "./evidence.ts";
import type { FaultOf } from "./fault.ts";

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
 * Logarithm of the change of scale of one reading. Of the floats with exchanged halves that look like a
 * reading, one in 65536 falls on any one number: what looked like a reading to begin with seldom is one.
 */
function logChange(fault: FaultOf<"F58" | "F59" | "F60">, value: number, resolution: number): number {
  if (fault.id === "F60") return -fault.exponent * Math.LN10;
  if (fault.id === "F59" || value === 0) return 0;
  if (fault.kind === "int32") return Math.log(fault.unit / resolution);
  return isShowable(value) ? -16 * Math.LN2 : 0;
}

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
  let logScale = 0;
  let differs = false;
  let impossible = false;
  const through = (name: "V" | "I" | "P" | "Q", isWeighed: boolean) => (value: number) => {
    if (Number.isNaN(value)) return value;
    const undone = by(name)(value);
    if (!isShowable(undone)) impossible = true;
    if (isWeighed && affects(name)) logScale += logChange(fault, value, evidence.resolution[name]);
    if (undone !== value) differs = true;
    return undone;
  };
  const steps = evidence.steps.map((step) => ({
    ...step,
    V: step.V.map(through("V", true)),
    I: step.I.map(through("I", true)),
    P: step.P.map(through("P", true)),
    Q: step.Q.map(through("Q", true)),
    totalP: through("P", step.P.some(Number.isNaN))(step.totalP),
    totalQ: through("Q", step.P.some(Number.isNaN))(step.totalQ),
  }));
  if (impossible) return null;
  if (!differs) return { evidence, logScale: 0 };
  const exponent = fault.id === "F60" ? fault.exponent : 0;
  const scale = (name: "V" | "I" | "P" | "Q"): number => (affects(name) ? 10 ** -exponent : 1);
  const { resolution } = evidence;
  // A whole number was rounded to its unit before it was sent, whatever the display makes of it since.
  const unit = fault.id === "F58" && fault.kind === "int32" ? fault.unit : null;
  const least = {
    V: unit ?? resolution.V * scale("V"),
    I: unit ?? resolution.I * scale("I"),
    P: unit ?? resolution.P * scale("P"),
    Q: unit ?? resolution.Q * scale("Q"),
  };
  return { evidence: { ...evidence, steps, resolution: least }, logScale };
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
