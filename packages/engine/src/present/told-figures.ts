import { datumText, withUnit } from "./format.ts";

export const percent = (share: number, rounding: "up" | "down"): string =>
  withUnit(100 * share, "%", 0, rounding);
export const kwh = (value: number): string => withUnit(value, "kWh", 1);
export const amps = (value: number, decimals = 1): string => withUnit(value, "A", decimals, "up");
/** A current that is set, or may be set at most: to hundredths, and never told higher than it is. */
export const setAmps = (value: number): string =>
  datumText({ value, unit: "A", decimals: 2, rounding: "down" });
export const days = (count: number): string => `${count} ${count === 1 ? "day" : "days"}`;
export const hours = (value: number): string => withUnit(value, "h", 1);
