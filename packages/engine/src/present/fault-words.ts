import type { ChainFault, FaultCatalogue, NamedFault } from "../proving/index.ts";
import { datumText } from "./format.ts";

/** A fault in words: its name, where it is, and how far off a setting stands. */
export function faultWords({ id, channels, fault }: NamedFault, catalogue: FaultCatalogue): string {
  const more = parameterWords(fault);
  const place = "channels" in fault ? ` on ${channels.join(" and ")}` : "";
  return `${catalogue[id].name}${place}${more === "" ? "" : ` (${more})`}`;
}

/** Faults of one hypothesis in words; none is a sound chain. */
export const faultsWords = (faults: readonly NamedFault[], catalogue: FaultCatalogue): string =>
  faults.length === 0
    ? "a sound chain"
    : faults.map((fault) => faultWords(fault, catalogue)).join(", together with ");

const number = (value: number, decimals: number): string =>
  datumText({ value, unit: "", decimals, rounding: "nearest" });

const times = (factor: number): string => `reads ${number(factor, factor < 0.1 ? 3 : 2)} times the current`;

function parameterWords(fault: ChainFault): string {
  switch (fault.id) {
    case "F04":
    case "F21":
      return fault.id === "F04" ? `it is on L${fault.line}` : `with L${fault.line}`;
    case "F12":
      return `channels show ${fault.order.map((line) => `L${line}`).join(", ")}`;
    case "F46":
      return `its L1, L2, L3 are fed from ${fault.order.map((line) => `L${line}`).join(", ")}`;
    case "F25":
      return times(fault.turns);
    case "F29":
    case "F30":
    case "F33":
      return times(fault.factor);
    case "F26":
      return times(1 / fault.ratio);
    case "F27":
      return times(fault.secondary);
    case "F28":
      return times(1 / fault.ratio ** 2);
    case "F32":
      return fault.factor === 0 ? "it reads nothing" : times(fault.factor);
    case "F58":
      return fault.kind === "float32" ? "floating-point number" : `whole number of ${fault.unit}`;
    case "F59":
      return `${fault.bits} bits`;
    case "F60":
      return `${fault.quantity === "all" ? "every quantity" : fault.quantity} times ${number(10 ** fault.exponent, Math.max(0, -fault.exponent))}`;
    case "F65":
      return fault.shares.every((share) => share === 0)
        ? "nothing at all"
        : fault.shares.includes(0)
          ? `nothing on ${fault.shares.flatMap((share, k) => (share === 0 ? [`L${k + 1}`] : [])).join(" and ")}`
          : "less than offered";
    default:
      return "";
  }
}
