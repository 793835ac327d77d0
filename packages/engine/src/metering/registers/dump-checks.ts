/**
 * What a meter's numbers say of one another: each channel by itself, and the total against the lines.
 *
 * @module
 */
import { LINES } from "../../quantities/index.ts";
import { type DecodeLimits, identityLimits, LEAST_VA } from "./decode-limits.ts";
import { type ChannelNumbers, checkIdentities, type IdentityAnswer } from "./identity.ts";
import { METER_CHANNELS, type MeterChannel, type MeterValue } from "./register-map.ts";

export interface DumpCheck {
  readonly channel: MeterChannel;
  readonly state: IdentityAnswer["state"];
  /** Quantities the check names as possibly wrong. */
  readonly odd: readonly (keyof ChannelNumbers)[];
  /** Sentences for the reader. */
  readonly words: readonly string[];
}

/** Checks of every channel that has a number, and of the total power where every line's is there. */
export function checkDump(values: readonly MeterValue[], limits: DecodeLimits): readonly DumpCheck[] {
  const channels = METER_CHANNELS.filter((channel) =>
    values.some((value) => value.channel === channel && value.quantity in NO_NUMBERS),
  );
  return [
    ...channels.flatMap((channel): readonly DumpCheck[] => {
      const { state, odd, words } = checkIdentities(numbersOf(values, channel), identityLimits(limits));
      // A meter need not give its totals in full; a channel with a line of its own is worth a word.
      if (channel === "total" && state === "not-checked") return [];
      return [{ channel, state, odd: [...new Set(odd.flatMap(({ names }) => names))], words }];
    }),
    ...totalCheck(values),
  ];
}

const NO_NUMBERS: ChannelNumbers = { V: null, I: null, P: null, Q: null, S: null, PF: null };

/** A current of all lines together times one voltage is no apparent power: a total has no V · I. */
function numbersOf(values: readonly MeterValue[], channel: MeterChannel): ChannelNumbers {
  const own = values.filter((value) => value.channel === channel);
  const numbers = Object.fromEntries(
    Object.keys(NO_NUMBERS).map((name) => [
      name,
      own.find(({ quantity }) => quantity === name)?.value ?? null,
    ]),
  ) as unknown as ChannelNumbers;
  return channel === "total" ? { ...numbers, V: null, I: null } : numbers;
}

/** The total power is the sum of the lines', each with its sign. Harmonics do not enter. [1] */
const SUM_RATIO = 0.05;

function totalCheck(values: readonly MeterValue[]): readonly DumpCheck[] {
  const power = (channel: MeterChannel) =>
    values.find((value) => value.quantity === "P" && value.channel === channel)?.value ?? null;
  const measured = LINES.filter((line) => values.some(({ channel }) => channel === line));
  const lines = measured.map(power);
  const total = power("total");
  if (total === null || lines.length === 0 || lines.includes(null)) return [];
  const watts = lines.map((value) => value ?? 0);
  const sum = watts.reduce((all, each) => all + each, 0);
  const sizes = watts.reduce((all, each) => all + Math.abs(each), 0);
  const formula = `P total = ${measured.map((line) => `P ${line}`).join(" + ")}`;
  if (Math.max(sizes, Math.abs(total)) < LEAST_VA) return [];
  const isNear = (a: number, b: number) => Math.abs(a - b) <= SUM_RATIO * Math.max(sizes, Math.abs(total));
  const shown = `${formula} fails: ${Math.round(total)} against ${Math.round(sum)} W.`;
  if (isNear(total, sum)) return [check("agrees", [], `${formula} holds.`)];
  if (isNear(total, -sum))
    return [
      check(
        "cannot-tell",
        ["P"],
        `${shown} They agree but for the sign: total and lines count in opposite directions; a load step shows which of them is import.`,
      ),
    ];
  if (isNear(Math.abs(total), sizes))
    return [
      check(
        "cannot-tell",
        ["P"],
        `${shown} It is the sum of the magnitudes: either the total knows no direction, or the sign of a line is not decoded.`,
      ),
    ];
  return [
    check(
      "cannot-tell",
      ["P"],
      `${shown} Check scale and unit of the total, and that all were read in one request.`,
    ),
  ];
}

const check = (state: DumpCheck["state"], odd: DumpCheck["odd"], words: string): DumpCheck => ({
  channel: "total",
  state,
  odd,
  words: [words],
});
