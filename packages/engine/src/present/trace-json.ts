import type { JudgedTrace } from "../proving/index.ts";
import { claimSentence } from "./trace-view.ts";

/** A judged trace for other programs. A time or share without an upper end is null there. */
export const traceJson = (judged: JudgedTrace, remarks: readonly string[]): unknown => ({
  ...judged,
  remarks,
  lines: judged.lines.map((line) => ({
    ...line,
    claims: line.claims.map((claim) => ({ ...claim, sentence: claimSentence(claim) })),
  })),
});
