/**
 * Order, type and scale of a meter's numbers, told from what is known beforehand: the voltages and the
 * frequency of the supply.
 *
 * Voltage and frequency have no sign and hardly change, so they settle how numbers are put together and nothing
 * about currents and powers: those are held against them in `identity.ts`, and by load steps.
 *
 * @module
 */
import { EngineError, requireInRange } from "../../quantities/index.ts";
import {
  decodeRegisters,
  type RegisterType,
  registerCount,
  WORD_ORDERS,
  type WordOrder,
} from "./encoding.ts";

/** What was read, and what it may be. */
export interface OrderQuestion {
  /** Registers of each live line's voltage, L1 first. 1 to 3 lines of 1, 2 or 4 registers, all alike */
  readonly voltages: readonly (readonly number[])[];
  /** Registers of the frequency; null where it was not read. */
  readonly frequency: readonly number[] | null;
  /** Types to try. Those that do not fit the number of registers are left out. */
  readonly types: readonly RegisterType[];
  /** What one count may be worth. [V], up to 20 of them */
  readonly voltageScales: readonly number[];
  /** [Hz], up to 20 of them */
  readonly frequencyScales: readonly number[];
  /** Where the voltages of a healthy supply lie. [V] */
  readonly voltageV: readonly [least: number, most: number];
  /** [Hz] */
  readonly frequencyHz: readonly [least: number, most: number];
}

/** One way to read all of it that fits. */
export interface OrderCandidate {
  readonly order: WordOrder;
  readonly type: RegisterType;
  /** [V per count] */
  readonly voltageScale: number;
  /** [Hz per count]; null where no frequency was read. */
  readonly frequencyScale: number | null;
}

export type OrderAnswer =
  | {
      readonly state: "told";
      readonly order: WordOrder;
      /** One, or the signed and the unsigned one of a length: a voltage cannot part those. */
      readonly types: readonly RegisterType[];
      readonly voltageScale: number;
      readonly frequencyScale: number | null;
      readonly reasons: readonly string[];
    }
  | {
      readonly state: "cannot-tell";
      /** Orders that are left; none where nothing fits. */
      readonly orders: readonly WordOrder[];
      readonly left: readonly OrderCandidate[];
      readonly reasons: readonly string[];
    };

/**
 * The one order in which all voltages and the frequency lie where a supply has them.
 *
 * @param question.voltageV For Great Britain 216 to 253 V: 230 V + 10 %, − 6 %
 * @param question.frequencyHz 49 to 51 Hz leaves room for any hour of a public supply
 * @throws EngineError OUT_OF_DOMAIN for no voltage or more than three, registers that cannot be some, lines
 *   read with different numbers of registers, more than 20 scales, or ranges that are none.
 *
 * Source: [house-methods] Registers. Limits of voltage: [esqcr-2002] regulation 27.
 */
export function chooseOrder(question: OrderQuestion): OrderAnswer {
  requireQuestion(question);
  const { voltages, frequency, voltageV, frequencyHz } = question;
  const width = voltages[0]?.length ?? 0;
  const types = [...new Set(question.types)].filter((type) => registerCount(type) === width);
  const orders = ordersThatDiffer(Math.max(width, frequency?.length ?? 0));
  const reasons: string[] = [];
  if (types.length === 0)
    reasons.push(
      `None of the types to try takes ${registers(width)}. Check how many registers the manual gives a voltage.`,
    );

  const left: OrderCandidate[] = [];
  for (const order of orders) {
    for (const type of types) {
      const scales = question.voltageScales.filter((scale) =>
        voltages.every((line) => within(numberOf(line, { type, order, scale }), voltageV)),
      );
      if (scales.length === 0) {
        reasons.push(`${order} as ${type}: ${voltageWords(question, type, order)}.`);
        continue;
      }
      const frequencies = frequency === null ? [null] : frequencyScalesFor(question, frequency, type, order);
      if (frequencies.length === 0)
        reasons.push(
          `${order} as ${type}: the voltages fit, and no scale puts the frequency between ${frequencyHz[0]} and ${frequencyHz[1]} Hz.`,
        );
      for (const voltageScale of scales)
        for (const frequencyScale of frequencies) left.push({ order, type, voltageScale, frequencyScale });
    }
  }
  return answer(left, reasons, question);
}

function answer(left: readonly OrderCandidate[], reasons: string[], question: OrderQuestion): OrderAnswer {
  const orders = [...new Set(left.map(({ order }) => order))];
  const types = [...new Set(left.map(({ type }) => type))];
  const scales = new Set(left.map(({ voltageScale, frequencyScale }) => `${voltageScale} ${frequencyScale}`));
  const [first] = left;
  const [voltLeast, voltMost] = question.voltageV;
  if (first === undefined) {
    reasons.push(
      `Nothing to try puts every voltage between ${voltLeast} and ${voltMost} V. Check that the lines are live, that the address is neither one early nor one late, and which table (holding or input) the manual means; then try other types and scales.`,
    );
    return { state: "cannot-tell", orders, left, reasons };
  }
  const kinds = new Set(types.map((type) => type.replace(/^u/, "")));
  if (orders.length === 1 && kinds.size === 1 && scales.size === 1) {
    const { order, voltageScale, frequencyScale } = first;
    reasons.push(
      `${order} as ${types.join(" or ")}, ${voltageScale} V per count: the only way to read every voltage between ${voltLeast} and ${voltMost} V${
        frequencyScale === null
          ? ". The frequency was not read; reading it too would confirm it"
          : ` and the frequency between ${question.frequencyHz[0]} and ${question.frequencyHz[1]} Hz`
      }.`,
    );
    if (types.length > 1)
      reasons.push(
        `Whether numbers are signed shows when a power is negative: read as ${types.find((type) => type.startsWith("u"))} it would be very large.`,
      );
    if (
      orders[0] === "ABCD" &&
      (question.voltages[0]?.length ?? 0) === 1 &&
      (question.frequency?.length ?? 1) === 1
    )
      reasons.push(
        "Numbers of two registers may still stand in either order of registers: nothing here shows it.",
      );
    return { state: "told", order, types, voltageScale, frequencyScale, reasons };
  }
  if (orders.length > 1)
    reasons.push(
      `${orders.join(", ")} all fit. Read again later, or read ${question.frequency === null ? "the frequency too" : "a number that changes"}: bytes that happen to be alike hide their order.`,
    );
  if (kinds.size > 1) reasons.push(`The types ${types.join(", ")} all fit. Look the type up in the manual.`);
  if (scales.size > 1)
    reasons.push(
      `More than one scale fits: ${[...new Set(left.map(({ voltageScale }) => `${voltageScale} V`))].join(", ")} per count${
        question.frequency === null
          ? ""
          : `, ${[...new Set(left.map(({ frequencyScale }) => `${frequencyScale} Hz`))].join(", ")} per count`
      }. Compare with the meter's own display.`,
    );
  return { state: "cannot-tell", orders, left, reasons };
}

/** Scales with which the frequency fits. Where it is of another length than the voltages, so is its type. */
function frequencyScalesFor(
  { types, frequencyScales, frequencyHz, voltages }: OrderQuestion,
  frequency: readonly number[],
  type: RegisterType,
  order: WordOrder,
): readonly number[] {
  const own =
    frequency.length === voltages[0]?.length
      ? [type]
      : types.filter((other) => registerCount(other) === frequency.length);
  return frequencyScales.filter((scale) =>
    own.some((other) => within(numberOf(frequency, { type: other, order, scale }), frequencyHz)),
  );
}

/** Orders that read registers of this length differently. */
const ordersThatDiffer = (width: number): readonly WordOrder[] =>
  width === 1 ? ["ABCD", "BADC"] : WORD_ORDERS;

const within = (value: number | null, [least, most]: readonly [number, number]): boolean =>
  value !== null && value >= least && value <= most;

const numberOf = (
  line: readonly number[],
  { type, order, scale }: { readonly type: RegisterType; readonly order: WordOrder; readonly scale: number },
): number | null => decodeRegisters(line, { type, order, scale, unit: "1", sign: 1, absent: "none" });

function voltageWords(
  { voltages, voltageScales }: OrderQuestion,
  type: RegisterType,
  order: WordOrder,
): string {
  const shown = voltages.map((line) => {
    const value = numberOf(line, { type, order, scale: 1 });
    return value === null ? "no number" : String(Number(value.toPrecision(4)));
  });
  return `the voltages would be ${shown.join(", ")} times ${voltageScales.join(" or ")} V`;
}

const registers = (count: number): string => (count === 1 ? "1 register" : `${count} registers`);

const MOST_SCALES = 20;

function requireQuestion(question: OrderQuestion): void {
  const { voltages, frequency, voltageScales, frequencyScales, voltageV, frequencyHz } = question;
  requireInRange("lines with a voltage", voltages.length, 1, 3);
  const width = voltages[0]?.length ?? 0;
  for (const line of [...voltages, ...(frequency === null ? [] : [frequency])])
    if (![1, 2, 4].includes(line.length))
      throw new EngineError(
        "OUT_OF_DOMAIN",
        `A number was given with ${registers(line.length)}; numbers take 1, 2 or 4.`,
        { registers: line.length },
      );
  if (voltages.some((line) => line.length !== width))
    throw new EngineError(
      "OUT_OF_DOMAIN",
      "The voltages were given with different numbers of registers; read every line alike.",
    );
  requireInRange("voltage scales", voltageScales.length, 1, MOST_SCALES);
  requireInRange("frequency scales", frequencyScales.length, frequency === null ? 0 : 1, MOST_SCALES);
  requireInRange("least voltage", voltageV[0], 0, voltageV[1]);
  requireInRange("least frequency", frequencyHz[0], 0, frequencyHz[1]);
}
