import { type Rounding, roundTo } from "../quantities/index.ts";
import type { Datum } from "../rules/index.ts";

/** A number with its unit, rounded as asked: the one place where a printed figure is rounded. */
export function withUnit(
  value: number,
  unit: string,
  decimals: number,
  rounding: Rounding = "nearest",
): string {
  return joinUnit(grouped(roundTo(value, rounding, decimals).toFixed(decimals)), unit);
}

/** A number in a working: five significant digits, no trailing zeros, no exponent between a millionth and a billion. */
export function inWorking(value: number, unit = ""): string {
  if (value === 0) return joinUnit("0", unit);
  const size = Math.floor(Math.log10(Math.abs(value)));
  if (!Number.isFinite(size)) return joinUnit(String(value), unit);
  if (size < -6 || size >= 9) return joinUnit(value.toExponential(4), unit);
  const decimals = Math.max(0, 4 - size);
  const digits = value.toFixed(decimals);
  return joinUnit(grouped(digits.includes(".") ? digits.replace(/\.?0+$/, "") : digits), unit);
}

const THIN_SPACE = "\u202f";
/** Digits in groups of three from ten thousand upwards. */
const grouped = (digits: string): string =>
  /^-?\d{5,}/.test(digits) ? digits.replace(/\d(?=(\d{3})+(?!\d))(?<!\.\d*)/g, `$&${THIN_SPACE}`) : digits;

const NO_BREAK_SPACE = "\u00a0";
const joinUnit = (digits: string, unit: string): string =>
  unit === "" ? digits : `${digits}${NO_BREAK_SPACE}${unit}`;

/** A length of time: seconds to ten minutes, then hours and whole minutes. @param durationS [s], from 0 */
export function durationWords(durationS: number, rounding: Rounding = "up"): string {
  if (durationS < 600) return withUnit(durationS, "s", Number.isInteger(durationS) ? 0 : 1, rounding);
  const minutes = roundTo(durationS / 60, rounding, 0);
  const hours = Math.floor(minutes / 60);
  const rest = withUnit(minutes % 60, "min", 0);
  if (hours === 0) return rest;
  return minutes % 60 === 0 ? withUnit(hours, "h", 0) : `${withUnit(hours, "h", 0)} ${rest}`;
}

/** A sentence from a message template and its data. Trailing zeros go, except where they carry the rounding. */
export function fill(template: string, data: Readonly<Record<string, Datum>>): string {
  return template.replace(/\{(\w+)\}/g, (place, name: string) => {
    const datum = data[name];
    return datum === undefined ? place : datumText(datum);
  });
}

export function datumText(datum: Datum): string {
  if (typeof datum === "string") return datum;
  const { value, unit, decimals, rounding } = datum;
  const digits = roundTo(value, rounding, decimals).toFixed(decimals);
  return joinUnit(grouped(digits.includes(".") ? digits.replace(/\.?0+$/, "") : digits), unit);
}
