import type { Citation } from "../worked/index.ts";
import type { FaultId } from "./fault.ts";

/** Faults that change no single reading: they are seen on the bus or in time. */
export type ObservedFaultId =
  | "F47"
  | "F48"
  | "F49"
  | "F50"
  | "F51"
  | "F52"
  | "F53"
  | "F54"
  | "F55"
  | "F56"
  | "F57"
  | "F61"
  | "F62"
  | "F63"
  | "F64"
  | "F66";

/** What an electrician should know of one fault of the metering chain. */
export interface CatalogueEntry {
  /** Short, in the trade's words, without the channel: "current transformer reversed". */
  readonly name: string;
  /** What the readings look like, one sentence. */
  readonly looksLike: string;
  /** The check that parts it from what looks alike, one sentence. */
  readonly partedBy: string;
  /** What may hurt or burn, and the caution; null where the fault only misleads the load manager. */
  readonly danger: string | null;
  /** What to do about it, one or two sentences, in a safe order. */
  readonly cure: string;
  /** How common it is beside the others: under 1 very rare, 1 rare, 10 common. This project's own judgement; no statistics exist. */
  readonly weight: number;
  readonly citation: Citation;
}

export type FaultCatalogue = Readonly<Record<FaultId | ObservedFaultId, CatalogueEntry>>;
