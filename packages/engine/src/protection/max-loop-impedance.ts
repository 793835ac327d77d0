import { chosenRow, given, type Located, type OvercurrentDevice } from "../job/index.ts";
import { type Figures, type Quantity, step } from "../worked/index.ts";
import type { ProtectionTables } from "./tables.ts";

export type Device = Located<OvercurrentDevice>;
export type DisconnectionFigure = "minVoltageFactor" | "tripMultipleB" | "tripMultipleC" | "tripMultipleD";

const BREAKERS: readonly string[] = ["bs-en-60898", "bs-en-61009"];

/** True for a miniature breaker whose type B, C or D fixes its tripping band. */
export const isMiniatureBreaker = (device: Device): boolean =>
  device.standard.state === "known" && BREAKERS.includes(device.standard.value);

/**
 * Greatest earth fault loop impedance at which a device still disconnects in time.
 *
 *     breaker:  Zs = Cmin · U0 / (m · In)     m = 5, 10, 20 for B, C, D
 *     fuse:     as printed; times Cmin where the print leaves it out
 *
 * A breaker of types B, C, D trips at m · In within 0.1 s, so the value holds for every time asked; no
 * relaxed value is used for 5 s. A device without a printed value is unknown.
 *
 * Source: [bs7671] regulation 411.4.4 and Tables 41.2 to 41.4.
 */
export function maxLoopImpedance(
  device: Device,
  timeS: 0.4 | 5,
  u0: Quantity,
  tables: ProtectionTables,
  figures: Figures<DisconnectionFigure>,
): Quantity {
  const named = { symbol: "Zs_max", label: `greatest loop impedance for ${timeS} s`, unit: "Ω" };
  const Cmin = figures("minVoltageFactor");
  if (isMiniatureBreaker(device)) {
    return step({
      ...named,
      clause: "max-loop-impedance",
      formula: "Cmin * U0 / (m * In)",
      inputs: { Cmin, U0: u0, m: tripMultiple(device, figures), In: given(device.ratingA, "In") },
      compute: ({ Cmin, U0, m, In }) => (Cmin * U0) / (m * In),
    });
  }
  const find = (includesCmin: boolean) => (values: { standard: string; ratingA: number }) => {
    const row = tables.fuseZs.find(
      (item) =>
        item.standard === values.standard &&
        item.ratingA === values.ratingA &&
        item.timeS === timeS &&
        item.includesMinVoltageFactor === includesCmin,
    );
    return row && { value: row.zsOhm, citation: row.citation };
  };
  const facts = { standard: device.standard, ratingA: device.ratingA };
  const printed = chosenRow(named, facts, find(true));
  if (printed.kind !== "unknown") return printed;
  const withoutCmin = chosenRow(
    { ...named, symbol: "Z", label: `${named.label}, as printed without Cmin` },
    facts,
    find(false),
  );
  if (withoutCmin.kind === "unknown") return printed;
  return step({
    ...named,
    clause: "max-loop-impedance",
    formula: "Cmin * Z",
    inputs: { Cmin, Z: withoutCmin },
    compute: ({ Cmin, Z }) => Cmin * Z,
  });
}

/** Multiple of its rating at which a breaker certainly trips at once. */
export function tripMultiple(device: Device, figures: Figures<DisconnectionFigure>): Quantity {
  const names = { B: "tripMultipleB", C: "tripMultipleC", D: "tripMultipleD" } as const;
  return chosenRow(
    { symbol: "m", label: "tripping multiple", unit: "" },
    { standard: device.standard, curve: device.curve },
    ({ curve }) => {
      const figure = figures(names[curve]);
      return figure.kind === "figure" ? figure : undefined;
    },
  );
}
