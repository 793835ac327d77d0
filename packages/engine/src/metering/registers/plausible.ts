import type { DecodeLimits } from "./decode-limits.ts";
import type { DumpCheck } from "./dump-checks.ts";
import type { ChannelNumbers } from "./identity.ts";
import type { MeterValue } from "./register-map.ts";

/** Whether one number can be what it says, and why. */
export interface Plausibility {
  readonly plausible: "yes" | "no" | "cannot-tell";
  /** One sentence; empty where there is nothing to add. */
  readonly why: string;
}

/** Rounding of a power factor shown in thousandths. [1] */
const PF_ROUNDING = 0.001;

/**
 * A number by itself and beside its channel.
 *
 * Voltage, frequency and power factor have bounds of their own. Currents and powers have hardly any: they are
 * held to be right only where their channel agrees with itself.
 */
export function plausibilityOf(
  { quantity, channel, value }: MeterValue,
  checks: readonly DumpCheck[],
  limits: DecodeLimits,
): Plausibility {
  if (value === null) return no("cannot-tell", "The registers hold no number: the meter has none to give.");
  switch (quantity) {
    case "V":
      return ofVoltage(value, limits);
    case "f":
      return isWithin(value, limits.frequencyHz)
        ? YES
        : no("no", `A supply has ${limits.frequencyHz.join(" to ")} Hz. Check type, scale and address.`);
    case "PF":
      if (Math.abs(value) > 1 + PF_ROUNDING)
        return no("no", "A power factor lies between −1 and 1. Check type, scale and address.");
      break;
    case "I":
      if (limits.mostA !== null && Math.abs(value) > limits.mostA)
        return no(
          "no",
          `There is no more than ${limits.mostA} A to be had here. Check scale and word order.`,
        );
      break;
    case "energy-import":
    case "energy-export":
      return no(
        "cannot-tell",
        value < 0
          ? "A register of energy does not count below nothing. Check type and word order."
          : "Compare with the meter's own display.",
      );
  }
  return besideOthers(quantity, channel, checks);
}

function besideOthers(
  quantity: keyof ChannelNumbers,
  channel: MeterValue["channel"],
  checks: readonly DumpCheck[],
): Plausibility {
  const own = checks.filter((check) => check.channel === channel);
  const named = own.find(({ odd }) => odd.includes(quantity));
  if (named?.state === "odd-one") return no("no", `The checks of ${channel} name it as the odd one.`);
  if (named !== undefined) return no("cannot-tell", `It may be what breaks the checks of ${channel}.`);
  if (own.some(({ state }) => state === "cannot-tell"))
    return no("cannot-tell", `${channel} does not agree with itself.`);
  if (own.some(({ state }) => state === "agrees" || state === "odd-one")) return YES;
  return no("cannot-tell", "Nothing to hold it against at this load.");
}

function ofVoltage(value: number, { voltageV: [least, most] }: DecodeLimits): Plausibility {
  if (isWithin(value, [least, most])) return YES;
  if (isWithin(value, [least * Math.sqrt(3), most * Math.sqrt(3)]))
    return no("no", `It lies where a voltage between lines does; line to neutral has ${least} to ${most} V.`);
  if (Math.abs(value) < least / 2)
    return no("no", "The line is dead, its voltage input is open, or the address is another's.");
  return no("no", `A line has ${least} to ${most} V to neutral. Check type, scale and address.`);
}

const YES: Plausibility = { plausible: "yes", why: "" };
const no = (plausible: "no" | "cannot-tell", why: string): Plausibility => ({ plausible, why });

const isWithin = (value: number, [least, most]: readonly [number, number]): boolean =>
  value >= least && value <= most;
