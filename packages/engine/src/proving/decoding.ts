import type { DecodedQuantity, FaultOf } from "./fault.ts";
import type { MeterReading } from "./meter-reading.ts";

type Shown = number | null;
type Change = (value: Shown) => Shown;

/** A reading after faults of decoding, which change numbers and not currents. */
export const decodedReading = (
  reading: MeterReading,
  faults: readonly FaultOf<"F43" | "F58" | "F59" | "F60">[],
): MeterReading => faults.reduce(decodedBy, reading);

function decodedBy(reading: MeterReading, fault: FaultOf<"F43" | "F58" | "F59" | "F60">): MeterReading {
  switch (fault.id) {
    case "F43": {
      const all = reading.I.reduce((sum: number, value) => sum + (value ?? 0), 0);
      return { ...reading, I: reading.I.map(() => all) };
    }
    case "F60":
      return changed(
        reading,
        quantitiesOf(fault.quantity),
        present((value) => value * 10 ** fault.exponent),
      );
    case "F59":
      return changed(
        reading,
        ["P", "Q"],
        present((value) => (value < 0 ? value + 2 ** fault.bits * fault.unit : value)),
      );
    case "F58":
      return changed(
        reading,
        ["V", "I", "P", "Q"],
        present(
          fault.kind === "float32"
            ? halvesExchangedFloat32
            : (value) => halvesExchangedInt32(value, fault.unit),
        ),
      );
  }
}

const present =
  (change: (value: number) => Shown): Change =>
  (value) =>
    value === null ? null : change(value);

const quantitiesOf = (quantity: DecodedQuantity): readonly ("V" | "I" | "P" | "Q")[] =>
  quantity === "all" ? ["V", "I", "P", "Q"] : [quantity];

function changed(
  reading: MeterReading,
  quantities: readonly ("V" | "I" | "P" | "Q")[],
  change: Change,
): MeterReading {
  const has = (name: "V" | "I" | "P" | "Q"): boolean => quantities.includes(name);
  return {
    ...reading,
    V: has("V") ? reading.V.map(change) : reading.V,
    I: has("I") ? reading.I.map(change) : reading.I,
    P: has("P") ? reading.P.map(change) : reading.P,
    Q: has("Q") ? reading.Q.map(change) : reading.Q,
    totalP: has("P") ? change(reading.totalP) : reading.totalP,
    totalQ: has("Q") ? change(reading.totalQ) : reading.totalQ,
  };
}

const bytes = new DataView(new ArrayBuffer(4));
const exchangedHalves = (): number => {
  const word = bytes.getUint32(0);
  return ((word << 16) | (word >>> 16)) >>> 0;
};

/** A number sent as a 32-bit float and read with its two registers exchanged; null when no number comes out. */
export function halvesExchangedFloat32(value: number): Shown {
  bytes.setFloat32(0, value);
  bytes.setUint32(0, exchangedHalves());
  const read = bytes.getFloat32(0);
  return Number.isFinite(read) ? read : null;
}

/** The same for a whole number of `unit`; null when it does not fit. */
export function halvesExchangedInt32(value: number, unit: number): Shown {
  const counts = Math.floor(value / unit + 0.5);
  if (counts < -(2 ** 31) || counts >= 2 ** 31) return null;
  bytes.setInt32(0, counts);
  bytes.setUint32(0, exchangedHalves());
  return bytes.getInt32(0) * unit;
}
