import type { JobOnTree } from "../supply/index.ts";
import { isKnown, type Quantity } from "../worked/index.ts";

/** One setting to make, with its reason; value null while a fact is missing. */
export interface SettingRow {
  readonly device: "meter" | "bus" | "load manager";
  readonly setting: string;
  readonly value: string | null;
  readonly reason: string;
}

/** What the assessment worked out for the load manager. [A] */
export interface WorkedSettings {
  readonly limit: Quantity;
  readonly margin: Quantity;
  readonly fallback: Quantity | null;
}

const amps = (quantity: Quantity | null): string | null =>
  quantity !== null && isKnown(quantity) ? `${Math.floor(quantity.value * 10 + 1e-6) / 10} A` : null;

/**
 * Every setting of meter, bus and load manager.
 *
 * Bus values are the defaults of MODBUS over Serial Line V1.02 (2.5.1, 3.2, 3.4.5, 3.4.6) where the job says
 * nothing else.
 */
export function settingsSheet(open: JobOnTree, worked: WorkedSettings): readonly SettingRow[] {
  return [...meterRows(open.job), ...busRows(open.job), ...managerRows(open, worked)];
}

function meterRows({ metering }: JobOnTree["job"]): SettingRow[] {
  const first = metering?.currentTransformers[0];
  if (first === undefined) return [];
  const { output, ratedPrimaryA, primaryTurns } = first;
  const secondary =
    output.state !== "known" ? null : output.value === "5-A" ? 5 : output.value === "1-A" ? 1 : 0;
  const primary =
    ratedPrimaryA.state === "known" && primaryTurns.state === "known"
      ? ratedPrimaryA.value / primaryTurns.value
      : null;
  const shown = (value: number): string => String(Math.round(value * 1000) / 1000);
  if (secondary === 0)
    return [
      {
        device: "meter",
        setting: "rated primary current",
        value: primary === null ? null : `${shown(primary)} A`,
        reason: "the transformers give volts or milliamperes; plate, divided by the turns",
      },
    ];
  const known = primary !== null && secondary !== null;
  return [
    {
      device: "meter",
      setting: "ratio, where the meter wants one number",
      value: known ? shown(primary / secondary) : null,
      reason: "rated primary over rated secondary, divided by the turns",
    },
    {
      device: "meter",
      setting: "ratio, where it wants both currents",
      value: known ? `${shown(primary)} A / ${secondary} A` : null,
      reason:
        "the same; typing the primary where the plain ratio is wanted reads five times too much with 5 A",
    },
  ];
}

function busRows({ bus }: JobOnTree["job"]): SettingRow[] {
  if (bus === null || (bus.kind.state === "known" && bus.kind.value !== "rs-485")) return [];
  const parity = bus.parity.state === "known" ? bus.parity.value : "even";
  const isLong = bus.lengthM.state !== "known" || bus.lengthM.value > 10;
  return [
    {
      device: "bus",
      setting: "address",
      value: bus.address.state === "known" ? String(bus.address.value) : null,
      reason: "1 to 247, one for each device on the line",
    },
    {
      device: "bus",
      setting: "speed",
      value: `${bus.speedBd.state === "known" ? bus.speedBd.value : 19_200} Bd`,
      reason:
        bus.speedBd.state === "known"
          ? "as recorded; the same at both ends"
          : "the default; the same at both ends",
    },
    {
      device: "bus",
      setting: "parity and stop bits",
      value: parity === "none" ? "none, two stop bits" : `${parity}, one stop bit`,
      reason: "eleven bits a character; many devices know only none with one stop bit: then both ends alike",
    },
    {
      device: "bus",
      setting: "termination",
      value: isLong ? "both ends: 120 Ω in series with 1 nF, or 150 Ω" : "none needed on so short a line",
      reason:
        "at the two ends and nowhere else; with resistors in series with 1 nF the polarisation keeps its voltage",
    },
    {
      device: "bus",
      setting: "polarisation",
      value: "450 to 650 Ω, D1 up and D0 down, at one place",
      reason: "keeps D1 above D0 by more than 0.2 V while nobody sends",
    },
    {
      device: "bus",
      setting: "register map, word order and sign",
      value: null,
      reason: "from the meter's manual; proved by voltages between 216 and 253 V and by a load step",
    },
  ];
}

const wholeAmps = (currentA: number): number => Math.floor(currentA + 1e-9);

/** What a recorded fallback is beside the one worked out; those that share the fullest line add up. */
function recordedWords(
  { tree }: Pick<JobOnTree, "tree">,
  { fallbackA, chargePoints }: NonNullable<JobOnTree["job"]["limiter"]>,
  fallback: Quantity | null,
): string {
  if (fallbackA.state !== "known" || fallback === null || !isKnown(fallback)) return "";
  const lines = chargePoints.flatMap((id) => tree.linesAt(id));
  const most = Math.max(1, ...lines.map((line) => lines.filter((other) => other === line).length));
  return fallbackA.value * most <= wholeAmps(fallback.value)
    ? `; ${fallbackA.value} A each is recorded and is no more: keep it`
    : `; ${fallbackA.value} A each is recorded and is more: lower it`;
}

function managerRows(open: JobOnTree, { limit, margin, fallback }: WorkedSettings): SettingRow[] {
  const { limiter } = open.job;
  if (limiter === null) return [];
  return [
    {
      device: "load manager",
      setting: "limit, per line",
      value: amps(limit),
      reason: `the supply's limit less a margin of ${amps(margin) ?? "a size not known yet"} for what the chain may misread`,
    },
    {
      device: "load manager",
      setting: "fallback, all its charge points together, per line",
      value: fallback !== null && isKnown(fallback) ? `${wholeAmps(fallback.value)} A` : null,
      reason: `what is left beside the building at its most, when no reading comes, in whole amperes; it rests on the demand above${recordedWords(open, limiter, fallback)}`,
    },
  ];
}
