/**
 * What one channel of a meter shows, held against itself: P = V · I · PF and S² = P² + Q².
 *
 * Finds wrong scales, units and word orders, which are alike on every channel and in every reading. It is
 * blind to what leaves both identities whole: a reversed or exchanged transformer, a wrong ratio. Those need
 * load steps.
 *
 * Sign: none. Directions are not compared, magnitudes are.
 *
 * @module
 */
import { requireInRange } from "../../quantities/index.ts";

/** What one channel shows; null for what was not read. */
export interface ChannelNumbers {
  /** [V] */
  readonly V: number | null;
  /** [A] */
  readonly I: number | null;
  /** [W] */
  readonly P: number | null;
  /** [var] */
  readonly Q: number | null;
  /** [VA] */
  readonly S: number | null;
  /** [1] */
  readonly PF: number | null;
}

type Name = keyof ChannelNumbers;

export interface IdentityLimits {
  /** Greatest difference of the two sides, as a share of the larger. [1], 0 to 0.5 */
  readonly toleranceRatio: number;
  /** Apparent power below which nothing is concluded. [VA], 0 to 1e6 */
  readonly leastVa: number;
  /** Where a voltage lies, for telling which of two quantities is odd; null where that is not known. [V] */
  readonly voltageV: readonly [least: number, most: number] | null;
  /** Greatest current there can be; null where that is not known. [A] */
  readonly mostA: number | null;
}

/** One way to make the channel agree with itself. */
export interface OddQuantity {
  /** One quantity, or powers that share a unit. */
  readonly names: readonly Name[];
  /** Shown over true. 1000 where watts are shown as if they were kilowatts; every factor that would do. */
  readonly factors: readonly number[];
}

export interface IdentityAnswer {
  readonly state:
    | "agrees"
    /** One explanation is left. */
    | "odd-one"
    /** It disagrees, and several explanations or none are left. */
    | "cannot-tell"
    /** Too little load, or too few quantities. */
    | "not-checked";
  readonly odd: readonly OddQuantity[];
  /** Sentences for the reader. */
  readonly words: readonly string[];
}

/** Factors a wrong scale, a wrong unit or exchanged registers give. */
const FACTORS: readonly number[] = [1, 2, 3, 4, 5, 6]
  .flatMap((power) => [10 ** power, 10 ** -power])
  .concat(65_536, 1 / 65_536);

/**
 * Says whether a channel agrees with itself, and if not, which quantity is the odd one and by which factor.
 *
 *     |P| = V · I · |PF|,   S = √(P² + Q²),   S = V · I,   |P| = S · |PF|
 *
 * Each as far as its quantities were read. Harmonics make S larger than √(P² + Q²) without any wrong scale:
 * leave room for them in the tolerance.
 *
 * @param channel As decoded, in the engine's units. NaN and infinite count as not read
 * @throws EngineError OUT_OF_DOMAIN for limits out of range.
 *
 * Source: definitions of active, reactive and apparent power; [house-methods] Registers.
 */
export function checkIdentities(channel: ChannelNumbers, limits: IdentityLimits): IdentityAnswer {
  requireLimits(limits);
  const shown = magnitudes(channel);
  const most = Math.max(apparent(shown) ?? 0, shown.S ?? 0, shown.P ?? 0);
  const identities = identitiesOf(shown, limits);
  if (identities.length === 0)
    return answer("not-checked", [
      "Too few quantities were read to hold one against another. Read V, I, P and PF, or P, Q and S.",
    ]);
  if (most < limits.leastVa)
    return answer("not-checked", [
      `Too little load: ${brief(most)} VA. Switch on a load of at least ${brief(limits.leastVa)} VA and read again.`,
    ]);
  const broken = identities.filter(({ holds }) => !holds);
  if (broken.length === 0)
    return answer("agrees", [`${identities.map(({ formula }) => formula).join(", ")}: all hold.`]);

  const odd = explanations(shown, limits);
  const words = broken.map(
    ({ formula, left, right, unit }) => `${formula} fails: ${brief(left)} against ${brief(right)} ${unit}.`,
  );
  if (odd.length === 0)
    return answer("cannot-tell", [
      ...words,
      "No single factor of ten and no exchange of registers explains it. More than one thing may be wrong, the quantities may belong to different moments or channels, or the current is far from a sine.",
    ]);
  const sentences = odd.map((each) => oddWords(each, shown));
  return odd.length === 1
    ? { state: "odd-one", odd, words: [...words, ...sentences] }
    : {
        state: "cannot-tell",
        odd,
        words: [
          ...words,
          ...sentences.map((sentence, index) => (index === 0 ? `Either: ${sentence}` : `Or: ${sentence}`)),
          "Compare with the meter's own display or a clamp meter.",
        ],
      };
}

const answer = (state: IdentityAnswer["state"], words: readonly string[]): IdentityAnswer => ({
  state,
  odd: [],
  words,
});

function magnitudes(channel: ChannelNumbers): ChannelNumbers {
  const size = (value: number | null): number | null =>
    value === null || !Number.isFinite(value) ? null : Math.abs(value);
  const { V, I, P, Q, S, PF } = channel;
  return { V: size(V), I: size(I), P: size(P), Q: size(Q), S: size(S), PF: size(PF) };
}

const apparent = ({ V, I }: ChannelNumbers): number | null => (V === null || I === null ? null : V * I);

interface Identity {
  readonly formula: string;
  readonly left: number;
  readonly right: number;
  readonly unit: string;
  readonly holds: boolean;
}

function identitiesOf(shown: ChannelNumbers, { toleranceRatio }: IdentityLimits): readonly Identity[] {
  const { P, Q, S, PF } = shown;
  const VI = apparent(shown);
  const found: Identity[] = [];
  const hold = (formula: string, left: number, right: number, unit: string): void => {
    const holds = Math.abs(left - right) <= toleranceRatio * Math.max(left, right);
    found.push({ formula, left, right, unit, holds });
  };
  if (P !== null && VI !== null && PF !== null) hold("P = V · I · PF", P, VI * PF, "W");
  if (P !== null && Q !== null && S !== null) hold("S² = P² + Q²", S, Math.hypot(P, Q), "VA");
  if (P !== null && Q !== null && S === null && VI !== null)
    hold("(V · I)² = P² + Q²", VI, Math.hypot(P, Q), "VA");
  if (S !== null && VI !== null) hold("S = V · I", S, VI, "VA");
  if (P !== null && S !== null && PF !== null) hold("P = S · PF", P, S * PF, "W");
  return found;
}

function explanations(shown: ChannelNumbers, limits: IdentityLimits): readonly OddQuantity[] {
  return suspects(shown).flatMap((names) => {
    const factors = FACTORS.filter((factor) => {
      const mended = { ...shown };
      for (const name of names) mended[name] = (shown[name] ?? 0) / factor;
      return isPossible(mended, limits) && identitiesOf(mended, limits).every(({ holds }) => holds);
    });
    return factors.length === 0 ? [] : [{ names, factors }];
  });
}

/** What may be wrong: one quantity, or powers that share a unit. A zero is zero by any factor. */
function suspects(shown: ChannelNumbers): readonly (readonly Name[])[] {
  const isRead = (name: Name): boolean => shown[name] !== null && shown[name] !== 0;
  const powers = (["P", "Q", "S"] as const).filter(isRead);
  const pair = (["P", "Q"] as const).filter(isRead);
  return [
    ...(["V", "I", "P", "Q", "S", "PF"] as const).filter(isRead).map((name) => [name]),
    ...(pair.length === 2 ? [pair] : []),
    ...(powers.length > pair.length && powers.length > 1 ? [powers] : []),
  ];
}

/** What the supply and the fuse allow. A power factor above 1 is none. */
const isPossible = (
  { V, I, PF }: ChannelNumbers,
  { voltageV, mostA, toleranceRatio }: IdentityLimits,
): boolean =>
  (V === null || voltageV === null || (V >= voltageV[0] && V <= voltageV[1])) &&
  (I === null || mostA === null || I <= mostA) &&
  (PF === null || PF <= 1 + toleranceRatio);

const UNIT_OF: Readonly<Record<Name, string>> = { V: "V", I: "A", P: "W", Q: "var", S: "VA", PF: "" };

function oddWords({ names, factors }: OddQuantity, shown: ChannelNumbers): string {
  const what =
    names.length === 1 ? `${names[0]} is` : `${names.slice(0, -1).join(", ")} and ${names.at(-1)} are`;
  const [factor = 1] = factors;
  if (factors.length > 1)
    return `${what} the odd one; by how much cannot be told at this load: ${factors.map(timesWords).join(", ")}.`;
  const name = names[0] ?? "P";
  const value = shown[name] ?? 0;
  const cure =
    factor === 65_536 || factor === 1 / 65_536
      ? "The two registers are exchanged, or one is missing: check the word order and the address."
      : "Check its scale and unit in the map.";
  return `${what} read ${timesWords(factor)}: ${name} shows ${brief(value)}${unitWords(name)} where ${brief(value / factor)}${unitWords(name)} fits the rest. ${cure}`;
}

const unitWords = (name: Name): string => (UNIT_OF[name] === "" ? "" : ` ${UNIT_OF[name]}`);

const timesWords = (factor: number): string =>
  factor > 1 ? `${brief(factor, 6)} times too large` : `${brief(1 / factor, 6)} times too small`;

const brief = (value: number, digits = 4): string => String(Number(value.toPrecision(digits)));

function requireLimits({ toleranceRatio, leastVa, voltageV, mostA }: IdentityLimits): void {
  requireInRange("toleranceRatio", toleranceRatio, 0, 0.5);
  requireInRange("leastVa", leastVa, 0, 1e6);
  if (voltageV !== null) requireInRange("least voltage", voltageV[0], 0, voltageV[1]);
  if (mostA !== null) requireInRange("mostA", mostA, 0, 1e6);
}
