import type { Complex } from "../quantities/index.ts";

/**
 * A fault that changes readings, as docs/fault-model.md defines it.
 *
 * Channels and lines are numbered from 1. A fault is a value: what it does stands in `apply-faults.ts`,
 * what an electrician should know of it in the knowledge's fault catalogue.
 */
export type Fault =
  | { readonly id: ChannelFaultId; readonly channels: readonly number[] }
  | { readonly id: WholeFaultId }
  | { readonly id: "F04" | "F21"; readonly channels: readonly [number]; readonly line: number }
  | { readonly id: "F24"; readonly channels: readonly number[]; readonly factor: Complex }
  | { readonly id: "F25"; readonly channels: readonly number[]; readonly turns: number }
  | { readonly id: "F31" | "F32" | "F39"; readonly channels: readonly number[]; readonly factor: number }
  | { readonly id: "F34" | "F35"; readonly channels: readonly number[]; readonly x: number }
  | { readonly id: "F36"; readonly channels: readonly number[]; readonly angleRad: number }
  | { readonly id: "F09"; readonly angleRad: number }
  | { readonly id: "F11"; readonly back: boolean }
  | { readonly id: "F12" | "F46"; readonly order: readonly number[] }
  | { readonly id: "F26" | "F28"; readonly ratio: number }
  | { readonly id: "F27"; readonly secondary: number }
  | { readonly id: "F29" | "F30" | "F33"; readonly factor: number }
  | { readonly id: "F37"; readonly limitA: number }
  | { readonly id: "F38"; readonly floorA: number }
  | { readonly id: "F42"; readonly copies: boolean }
  | { readonly id: "F44"; readonly amps: readonly number[] }
  | { readonly id: "F45"; readonly share: number }
  | { readonly id: "F58"; readonly kind: "float32" | "int32"; readonly unit: number }
  | { readonly id: "F59"; readonly bits: 16 | 32; readonly unit: number }
  | { readonly id: "F60"; readonly quantity: DecodedQuantity; readonly exponent: number }
  | { readonly id: "F65"; readonly shares: readonly number[] };

/** Faults that need nothing but the channels they stand on. */
type ChannelFaultId =
  | "F01"
  | "F02"
  | "F05"
  | "F08"
  | "F10"
  | "F13"
  | "F14"
  | "F15"
  | "F18"
  | "F19"
  | "F20"
  | "F22"
  | "F23";

/** Faults of the whole chain that need no parameter. */
type WholeFaultId = "F03" | "F06" | "F07" | "F16" | "F17" | "F40" | "F41" | "F43";

export type FaultId = Fault["id"];
export type FaultOf<Id extends FaultId> = Id extends FaultId ? Narrowed<Fault, Id> : never;
type Narrowed<F extends Fault, Id extends FaultId> = F extends Fault
  ? Id extends F["id"]
    ? F & { readonly id: Id }
    : never
  : never;
export type DecodedQuantity = "V" | "I" | "P" | "Q" | "all";
