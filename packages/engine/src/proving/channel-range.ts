import type { Evidence, EvidenceStep } from "./evidence.ts";
import type { ObservationModel } from "./observation-model.ts";

const isNothing = (value: number): boolean => value === 0 || Number.isNaN(value);

/** True where a channel shows nothing and its hypothesis has a least current it can show. */
export const isSilent = ({ floorA }: ObservationModel, { P, Q, I }: EvidenceStep, c: number): boolean =>
  floorA > 0 &&
  isNothing(P[c] as number) &&
  isNothing(Q[c] as number) &&
  isNothing(I[c] as number) &&
  !(Number.isNaN(P[c]) && Number.isNaN(Q[c]) && Number.isNaN(I[c]));

/** True where the channel stays at one highest value, near the one beyond which it cannot go. */
export function isClipped(
  { clipA }: ObservationModel,
  { steps }: Evidence,
  { I }: EvidenceStep,
  c: number,
): boolean {
  const value = I[c] as number;
  if (clipA === Number.POSITIVE_INFINITY || Number.isNaN(value)) return false;
  let most = 0;
  let atMost = 0;
  for (const step of steps) most = Math.max(most, step.I[c] as number);
  for (const step of steps) if ((step.I[c] as number) > 0.995 * most) atMost++;
  return atMost > 1 && most > 0.5 * clipA && most < 1.5 * clipA && value > 0.995 * most;
}
