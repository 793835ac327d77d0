import { numberText } from "./number-text.ts";

/** A highest current: rounded up, so that what exceeds a limit never reads as the limit. */
export const highestText = (currentA: number): string => numberText(currentA, 1, "up", "A");

/** A mean current, or a dash where there is none. */
export const meanText = (currentA: number | null): string =>
  currentA === null ? "–" : numberText(currentA, 1, "nearest", "A");
