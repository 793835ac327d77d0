/**
 * Which word order the numbers of a dump stand in: from voltage and frequency where those take more than one
 * register, otherwise from what only one order leaves consistent.
 *
 * @module
 */
import { LINES } from "../../quantities/index.ts";
import type { DecodeLimits } from "./decode-limits.ts";
import { checkDump } from "./dump-checks.ts";
import { factorOf, REGISTER_TYPES, registerCount, WORD_ORDERS, type WordOrder } from "./encoding.ts";
import { plausibilityOf } from "./plausible.ts";
import { meterValueOf, type RegisterRow, rowsInOrder } from "./register-map.ts";
import { registersAt } from "./registers-at.ts";
import { chooseOrder, type OrderAnswer } from "./word-order.ts";

export interface ToldOrder {
  readonly state: /** The registers leave one order only. */
    | "told"
    /** Several are left; the map's own is among them and is used. */
    | "as-map"
    | "cannot-tell"
    /** No number takes more than one register. */
    | "not-needed";
  /** Order in which rows are read; null where each is read as the map says. */
  readonly order: WordOrder | null;
  /** The map says another one than the registers. */
  readonly isAgainstMap: boolean;
  /** Sentences for the reader. */
  readonly reasons: readonly string[];
}

/** Scales that are met, for a hint where the map's own fits nothing. [unit per count] */
const USUAL_SCALES = [1, 0.1, 0.01, 0.001];

/** The order of a dump's numbers, and why. */
export function tellOrder(
  rows: readonly RegisterRow[],
  registers: ReadonlyMap<number, number>,
  limits: DecodeLimits,
): ToldOrder {
  const isWide = rows.some(({ type }) => registerCount(type) > 1);
  const question = questionOf(rows, registers, limits);
  const answer = question === null ? null : chooseOrder(question);
  const said = [
    ...new Set(rows.flatMap(({ type, order }) => (registerCount(type) > 1 ? (order ?? []) : []))),
  ];
  if (question === null || answer === null)
    return isWide
      ? byConsistency(rows, registers, { limits, left: WORD_ORDERS, said, reasons: [NO_VOLTAGE] })
      : { state: "not-needed", order: null, isAgainstMap: false, reasons: [NO_VOLTAGE] };
  const reasons = answer.state === "told" ? answer.reasons.slice(-2) : answer.reasons;
  if (answer.state === "cannot-tell" && answer.left.length === 0)
    return {
      state: "cannot-tell",
      order: null,
      isAgainstMap: false,
      reasons: [...reasons, ...hintOf(question)],
    };
  const left = answer.state === "told" ? [answer.order] : answer.orders;
  if (question.voltages[0]?.length === 1) {
    // Bytes within a register are settled, the order of registers is not.
    const wide = left.flatMap((order): readonly WordOrder[] =>
      order === "ABCD" ? ["ABCD", "CDAB"] : ["BADC", "DCBA"],
    );
    if (isWide)
      return byConsistency(rows, registers, { limits, left: wide, said, reasons: reasonsOf(answer) });
    const [order = null] = left.length === 1 ? left : [];
    return {
      state: order === "ABCD" ? "not-needed" : order === null ? "cannot-tell" : "told",
      order,
      isAgainstMap: false,
      reasons,
    };
  }
  if (left.length === 1) return settled(left[0] as WordOrder, said, reasons);
  return byConsistency(rows, registers, { limits, left, said, reasons });
}

const NO_VOLTAGE = "No voltage of a line was read, so nothing known beforehand tells the word order.";

const reasonsOf = (answer: OrderAnswer): readonly string[] =>
  answer.state === "told" ? answer.reasons.slice(-2) : answer.reasons;

function settled(order: WordOrder, said: readonly WordOrder[], reasons: readonly string[]): ToldOrder {
  const against = said.filter((each) => each !== order);
  return {
    state: "told",
    order,
    isAgainstMap: against.length > 0,
    reasons:
      against.length === 0
        ? reasons
        : [
            ...reasons,
            `The map says ${against.join(" and ")}; every number of more than one register was read as ${order} instead. Correct the map.`,
          ],
  };
}

/** The one order of those left in which channels agree with themselves and nothing is impossible. */
function byConsistency(
  rows: readonly RegisterRow[],
  registers: ReadonlyMap<number, number>,
  given: {
    readonly limits: DecodeLimits;
    readonly left: readonly WordOrder[];
    readonly said: readonly WordOrder[];
    readonly reasons: readonly string[];
  },
): ToldOrder {
  const { limits, left, said, reasons } = given;
  const fits = left.map((order) => ({ order, fit: fitOf(rows, registers, { order, limits }) }));
  const [only, ...others] = fits.filter(({ fit }) => fit !== "broken");
  if (only?.fit === "agrees" && others.length === 0)
    return settled(only.order, said, [
      ...reasons,
      `${only.order} is the only order left in which P, Q, S, V · I and PF agree with one another and no current is beyond what there can be.`,
    ]);
  const [own] = said;
  if (said.length === 1 && own !== undefined && left.includes(own))
    return {
      state: "as-map",
      order: null,
      isAgainstMap: false,
      reasons: [
        ...reasons,
        `Read as the map says, ${own}. Read again with a load of a few kilowatts on to see it confirmed.`,
      ],
    };
  return {
    state: "cannot-tell",
    order: null,
    isAgainstMap: false,
    reasons: [
      ...reasons,
      said.length === 0
        ? "Numbers of more than one register are shown as ABCD, the protocol's own order, and are not to be relied on. Read again with a load of a few kilowatts on, with V, I and P or P, Q and S."
        : `The map says ${said.join(" and ")}, which the registers do not bear out. Look the order up in the meter's manual.`,
    ],
  };
}

/** Whether numbers read in an order bear one another out, say nothing, or cannot be. */
function fitOf(
  rows: readonly RegisterRow[],
  registers: ReadonlyMap<number, number>,
  { order, limits }: { readonly order: WordOrder; readonly limits: DecodeLimits },
): "agrees" | "says-nothing" | "broken" {
  const values = rowsInOrder(
    rows.map(({ order: _said, ...row }) => row),
    order,
  ).flatMap((row) => {
    const read = registersAt(row.address, registerCount(row.type), registers);
    return read.missing.length > 0 ? [] : [meterValueOf(row, read.registers)];
  });
  const states = checkDump(values, limits).map(({ state }) => state);
  const isImpossible = values.some(
    (value) => hasBoundOfItsOwn(value) && plausibilityOf(value, [], limits).plausible === "no",
  );
  if (isImpossible || states.includes("odd-one") || states.includes("cannot-tell")) return "broken";
  return states.includes("agrees") ? "agrees" : "says-nothing";
}

/** Voltages and frequency were weighed before. */
const hasBoundOfItsOwn = ({ quantity }: { readonly quantity: string }): boolean =>
  quantity === "I" || quantity === "PF";

/** Voltages of lines, and the frequency, that lie where a supply has them in some order; 0 where none fits all. */
export function fittingCount(
  rows: readonly RegisterRow[],
  registers: ReadonlyMap<number, number>,
  limits: DecodeLimits,
): number {
  const question = questionOf(rows, registers, limits);
  if (question === null) return 0;
  const answer = chooseOrder(question);
  if (answer.state === "cannot-tell" && answer.left.length === 0) return 0;
  return question.voltages.length + (question.frequency === null ? 0 : 1);
}

type Question = Parameters<typeof chooseOrder>[0];

/** What voltage and frequency rows of one kind hold; null where no line's voltage was read. */
function questionOf(
  rows: readonly RegisterRow[],
  registers: ReadonlyMap<number, number>,
  { voltageV, frequencyHz }: DecodeLimits,
): Question | null {
  const read = (row: RegisterRow): readonly number[] | null => {
    const found = registersAt(row.address, registerCount(row.type), registers);
    return found.missing.length > 0 ? null : found.registers;
  };
  const volts = LINES.flatMap((line) => {
    const row = rows.find(({ quantity, channel }) => quantity === "V" && channel === line);
    const found = row === undefined ? null : read(row);
    // A dead line holds nothing in any order.
    return row === undefined || found === null || found.every((register) => register === 0)
      ? []
      : [{ row, registers: found }];
  });
  const [first] = volts;
  if (first === undefined) return null;
  const { type, scale, unit } = first.row;
  const alike = volts.filter(({ row }) => row.type === type && row.scale === scale && row.unit === unit);
  const frequency = rows.find(
    (row) => row.quantity === "f" && (row.type === type || registerCount(row.type) !== registerCount(type)),
  );
  const hertz = frequency === undefined ? null : read(frequency);
  return {
    voltages: alike.map(({ registers }) => registers),
    frequency: hertz,
    types: [type, ...(frequency === undefined ? [] : [frequency.type])],
    voltageScales: [factorOf(first.row)],
    frequencyScales: frequency === undefined ? [] : [factorOf(frequency)],
    voltageV,
    frequencyHz,
  };
}

/** Another type or scale that would fit, where the map's own fits nothing. */
function hintOf(question: Question): readonly string[] {
  const answer = chooseOrder({
    ...question,
    frequency: null,
    types: REGISTER_TYPES,
    voltageScales: USUAL_SCALES,
    frequencyScales: [],
  });
  if (answer.state === "told")
    return [
      `Read as ${answer.types.join(" or ")} in the order ${answer.order} with ${answer.voltageScale} V per count the voltages fit: compare that with the manual, and correct the map.`,
    ];
  const ways = answer.left.map(
    ({ order, type, voltageScale }) => `${type} ${order} with ${voltageScale} V per count`,
  );
  return ways.length === 0
    ? []
    : [
        `The voltages would fit as ${ways.slice(0, 6).join("; ")}. Look up which the manual says, and correct the map.`,
      ];
}
