import { chosenRow } from "../job/index.ts";
import type { Citation, Known, Quantity } from "../worked/index.ts";
import { type Device, isMiniatureBreaker } from "./max-loop-impedance.ts";
import type { ProtectionTables } from "./tables.ts";
import { timeCurrentBand, timeOnEdge } from "./time-current.ts";

/**
 * Longest time a device takes to clear a fault current: the slow edge of its band.
 *
 * A breaker beyond its tripping multiple is taken at 0.1 s. Unknown where the device has no printed
 * gates, or would not clear the current at all.
 *
 * @param citation Where the edge comes from: the knowledge's word for the method.
 */
export function clearingTime(
  device: Device,
  currentA: Known,
  tables: ProtectionTables,
  citation: Citation,
): Quantity {
  const facts = isMiniatureBreaker(device)
    ? { standard: device.standard, curve: device.curve, ratingA: device.ratingA }
    : { standard: device.standard, ratingA: device.ratingA };
  return chosenRow({ symbol: "t", label: "longest clearing time", unit: "s" }, facts, () => {
    const band = timeCurrentBand(device, tables);
    const value = band === null ? Number.POSITIVE_INFINITY : timeOnEdge(band.slow, currentA.value, "slow");
    return Number.isFinite(value)
      ? { value: Math.max(value, isMiniatureBreaker(device) ? 0.1 : 0), citation }
      : undefined;
  });
}
