import type { ImportResult } from "../import-result.ts";
import type { Notes } from "../notes.ts";
import { finish } from "../series/finish.ts";
import { place } from "../series/place.ts";
import { spanOf } from "../series/span.ts";
import type { KeptUnit } from "../series/unit.ts";
import type { Statements } from "../statements.ts";
import { RowStore } from "../table/row-store.ts";
import { clockRule, ruleWords } from "./clock-rule.ts";
import { ACCUMULATION, FLOW, flowName, MAXIMUM, UNIT_OF, unitName } from "./codes.ts";
import { type EspiDocument, type ReadingGroup, type ReadingType, typeOf } from "./espi-document.ts";

/** A group with its reading type. */
interface Typed {
  readonly name: string;
  readonly group: ReadingGroup;
  readonly type: ReadingType;
  readonly unit: KeptUnit | undefined;
}

const DAY_S = 86_400;

/** Turns an ESPI document into a series: which readings are meant, their unit, and their place in time. */
export function settleEspi(document: EspiDocument, stated: Statements, notes: Notes): ImportResult {
  if (notes.problems.length > 0) return notes.outcome();
  notes.conclude("layout", "ESPI (Green Button) XML", "the vocabulary of its elements");
  const chosen = choose(document, stated, notes);
  if (chosen === null || notes.problems.length > 0) return notes.outcome();
  const { group, type, unit } = chosen;
  if (unit === undefined) return notes.outcome();
  const powerOfTen = type.powerOfTenMultiplier ?? 0;
  if (!(Number.isInteger(powerOfTen) && Math.abs(powerOfTen) <= 12)) {
    notes.refuse({
      code: "UNIT_NOT_READ",
      line: 0,
      found: `powerOfTenMultiplier ${powerOfTen}`,
      message: "It is a whole number from -12 to 12. Export the file anew.",
    });
    return notes.outcome();
  }
  notes.conclude(
    "unit",
    `values in ${unitName(type.uom as number)}`,
    `uom ${type.uom}, ${type.powerOfTenMultiplier === undefined ? "without a powerOfTenMultiplier, which is taken as none" : `powerOfTenMultiplier ${powerOfTen}`}`,
    type.powerOfTenMultiplier === undefined ? "assumed" : "seen",
  );
  concludeLocalTime(document.localTime, notes);
  if (type.dataQualifier === MAXIMUM)
    notes.remark(
      "maximum",
      "Each value is the maximum of its interval, not its mean: energy must not be taken from it.",
    );
  if (type.accumulationBehaviour === ACCUMULATION.instantaneous)
    notes.remark(
      "instantaneous",
      "Each value is of one instant, not the mean of its interval: what passed between is not in it.",
    );
  const stepS = stepOf(chosen, stated, notes);
  if (stepS === null) return notes.outcome();
  const negatives = { count: 0, firstLine: 0, first: 0 };
  const store = storeOf(group, stepS, negatives, notes);
  if (store === null || (store.rowCount > 0 && spanOf(store, stepS, notes) === null)) return notes.outcome();
  const timing = { stepS, isReversed: false, toStartMs: 0, closesDay: false, hasOffsets: true };
  const offsets = { changes: [], firstOffsetS: 0, standardOffsetS: 0 };
  notes.conclude("clock", "universal time", "starts are counted in seconds of it");
  const placed = place(
    store,
    {
      timing,
      clock: "utc",
      offsets,
      zone: "UTC",
      isWide: false,
      isNumbered: false,
      powerOfTen: unit.powerOfTen + powerOfTen,
    },
    notes,
  );
  if (placed === null || notes.problems.length > 0) return notes.outcome();
  if (type.flowDirection === FLOW.net) negatives.count = 0;
  return finish(
    { placed, unit, stepS, lines: [null], negatives, totals: null, readings: readingsOf(type), headings: [] },
    stated,
    notes,
  );
}

function choose(document: EspiDocument, stated: Statements, notes: Notes): Typed | null {
  const typed: Typed[] = [];
  for (const [address, group] of document.groups) {
    const type = typeOf(document, address);
    if (type !== null)
      typed.push({ name: `${typed.length + 1}`, group, type, unit: UNIT_OF[type.uom ?? -1] });
  }
  const words = ({ type, group }: Typed): string =>
    `${group.values.length} readings of ${unitName(type.uom ?? -1)}, ${flowName(type.flowDirection)}`;
  if (document.groups.size === 0 || typed.length === 0) {
    notes.refuse({
      code: document.groups.size === 0 ? "NOTHING_RECORDED" : "UNIT_NOT_READ",
      line: 0,
      found:
        document.groups.size === 0 ? "no block of intervals" : "intervals whose reading type cannot be told",
      message: "Export the intervals of the meter together with their reading types.",
    });
    return null;
  }
  if (stated.meter !== undefined) {
    const found = typed.find(({ name }) => name === stated.meter);
    if (found?.unit === undefined)
      notes.refuse({
        code: "COLUMN_ABSENT",
        line: 0,
        found: `no readings "${stated.meter}" of energy, power or current`,
        message: `The file holds ${typed.map((one) => `${one.name}: ${words(one)}`).join("; ")}.`,
      });
    else notes.conclude("meter", words(found), "stated", "stated");
    return found ?? null;
  }
  const usable = typed.filter(({ unit, type }) => unit !== undefined && type.flowDirection !== FLOW.export);
  const [only] = usable;
  if (only === undefined) {
    notes.refuse({
      code: "UNIT_NOT_READ",
      line: 0,
      found: typed.map(words).join("; "),
      message:
        "None of it is energy, power or current taken in. Export that; or state the meter, to import what was sent out.",
    });
    return null;
  }
  if (usable.length > 1)
    notes.ask({
      id: "meter",
      asks: "Which readings are meant?",
      because: `the file holds ${usable.length === 2 ? "two" : usable.length}`,
      answers: usable.map((one) => ({ answer: one.name, means: words(one) })),
    });
  else {
    notes.conclude(
      "meter",
      words(only),
      typed.length === 1 ? "the only readings" : "the only ones of what is taken in",
    );
    const others = typed.filter((one) => one !== only).map(words);
    if (others.length > 0) notes.remark("meter", `Left out: ${others.join("; ")}.`);
  }
  return only;
}

function stepOf({ group, type }: Typed, stated: Statements, notes: Notes): number | null {
  const counts = new Map<number, number>();
  for (const durationS of group.durationS)
    if (durationS > 0) counts.set(durationS, (counts.get(durationS) ?? 0) + 1);
  const [commonest] = [...counts].toSorted(([, a], [, b]) => b - a);
  const said = type.intervalLength ?? 0;
  const stepS = stated.stepS ?? commonest?.[0] ?? (said > 0 ? said : Number.NaN);
  if (stepS >= 1 && stepS <= 3600) {
    notes.conclude(
      "stepS",
      `intervals of ${stepS} s`,
      stated.stepS !== undefined
        ? "stated"
        : commonest === undefined
          ? "the interval length of the reading type"
          : `${commonest[1]} readings last so long`,
      stated.stepS === undefined ? "seen" : "stated",
    );
    return stepS;
  }
  if (Number.isNaN(stepS))
    notes.ask({
      id: "stepS",
      asks: "How long is an interval, in seconds?",
      because: "neither the readings nor their type say it",
      answers: [],
    });
  else
    notes.refuse({
      code: "TIME_OFF_GRID",
      line: group.lines[0] ?? 0,
      found: `intervals of ${stepS} s`,
      message: "Intervals of more than an hour say nothing of how a supply is loaded. Export shorter ones.",
    });
  return null;
}

/** Readings in order, each with its start: its own, its block's, or the end of the reading before. */
function storeOf(
  group: ReadingGroup,
  stepS: number,
  negatives: { count: number; firstLine: number; first: number },
  notes: Notes,
): RowStore | null {
  const store = new RowStore(1);
  let nextS = Number.NaN;
  for (let at = 0; at < group.values.length; at++) {
    const line = group.lines[at] as number;
    const durationS = group.durationS[at] as number;
    const ownS = group.startS[at] as number;
    if (group.blockStartS.has(at)) nextS = group.blockStartS.get(at) as number;
    const startS = Number.isNaN(ownS) ? nextS : ownS;
    if (!(Math.abs(startS) < 10_000_000_000)) {
      notes.refuse({
        code: "TIME_UNREADABLE",
        line,
        found: Number.isNaN(startS)
          ? "a reading without a start, in a block without one"
          : `the start ${startS}`,
        message: "Starts are seconds since 1970. Export the intervals anew.",
      });
      return null;
    }
    if (durationS < 0 || (durationS > 0 && durationS !== stepS)) {
      notes.refuse({
        code: "TIME_OFF_GRID",
        line,
        found: `an interval of ${durationS} s`,
        message: `The others have ${stepS} s. Export intervals of one length.`,
      });
      if (notes.isFull) return null;
    }
    nextS = startS + stepS;
    const value = group.values[at] as number;
    if (value < 0 && negatives.count++ === 0) Object.assign(negatives, { firstLine: line, first: value });
    const piece = store.room();
    const row = piece.count++;
    const day = Math.floor(startS / DAY_S);
    piece.day[row] = day;
    piece.second[row] = startS - day * DAY_S;
    piece.offsetMin[row] = 0;
    piece.line[row] = line;
    piece.values[row] = value;
    piece.quality[row] = group.quality[at] as number;
  }
  return store;
}

/** What the reading type says a value is; null where it says nothing that is sure. */
function readingsOf({ accumulationBehaviour: kind }: ReadingType) {
  const because = `accumulationBehaviour ${kind}`;
  if (kind === ACCUMULATION.interval) return { kind: "interval", because } as const;
  if (kind === ACCUMULATION.register || kind === ACCUMULATION.summation)
    return { kind: "register", because } as const;
  return null;
}

function concludeLocalTime(localTime: EspiDocument["localTime"], notes: Notes): void {
  const { tzOffset, dstOffset, dstStartRule, dstEndRule } = localTime;
  if (tzOffset === undefined) return;
  const [start, end] = [dstStartRule, dstEndRule].map((word) =>
    /^[0-9a-f]{8}$/i.test(word ?? "") ? clockRule(Number.parseInt(word as string, 16)) : null,
  );
  const summer =
    start && end
      ? `, ${dstOffset} s more from ${ruleWords(start)} to ${ruleWords(end)}`
      : ", without clock changes";
  notes.conclude(
    "localTime",
    `the meter's own clock is ${tzOffset} s ahead of universal time${summer}`,
    "LocalTimeParameters; no time depends on it",
  );
}
