import type { Rounding } from "../../quantities/index.ts";
import { withUnit } from "../format.ts";

/** How many of something there are. */
export const countText = (count: number, noun: string): string =>
  `${numberText(count, 0)} ${noun}${count === 1 ? "" : "s"}`;

const SUPERSCRIPTS = "⁰¹²³⁴⁵⁶⁷⁸⁹";
const raised = (exponent: number): string =>
  String(exponent).replace(/./g, (sign) => (sign === "-" ? "⁻" : (SUPERSCRIPTS[Number(sign)] ?? sign)));

/**
 * A number as short as a plot wants it: digits up to a million, powers of ten beyond that and where the
 * decimals allowed would leave nothing of it.
 */
export function numberText(
  value: number,
  decimals: number,
  rounding: Rounding = "nearest",
  unit = "",
): string {
  const size = Math.abs(value);
  if (size === 0 || (size < 1e6 && size >= 10 ** -decimals)) return withUnit(value, unit, decimals, rounding);
  const [digits = "", exponent = ""] = value.toExponential(2).split("e");
  const mantissa = Number(digits);
  const power = `10${raised(Number(exponent))}`;
  const number = mantissa === 1 ? power : mantissa === -1 ? `-${power}` : `${mantissa}×${power}`;
  return unit === "" ? number : `${number}\u00a0${unit}`;
}
