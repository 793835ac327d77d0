import { numberText } from "./number-text.ts";

/** A length of time in the largest unit that leaves it whole. */
export function durationText(durationS: number): string {
  for (const [name, sizeS] of [
    ["day", 86_400],
    ["hour", 3600],
    ["minute", 60],
  ] as const) {
    const count = durationS / sizeS;
    if (Number.isInteger(count)) return `${numberText(count, 0)} ${name}${count === 1 ? "" : "s"}`;
  }
  return numberText(durationS, Number.isInteger(durationS) ? 0 : 2, "nearest", "s");
}
