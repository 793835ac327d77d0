import type { Notes } from "../notes.ts";
import { type Statements, UNITS, type Unit } from "../statements.ts";
import type { Layout } from "../table/layout.ts";
import type { RowReader } from "../table/row-reader.ts";
import { isMaximum, notInUnits, otherQuantityIn } from "./heading-claims.ts";
import { KEPT_AS, type KeptUnit, type SeriesUnit, unitIn } from "./unit.ts";

/**
 * Concludes the unit from what was stated, headings, or a column of units; asks where none names one. Refuses a
 * column whose heading says that it is not what the building takes in, unless that column was stated.
 */
export function concludeUnit(
  layout: Layout,
  { units, totals }: RowReader,
  stated: Statements,
  notes: Notes,
): KeptUnit | null {
  const { headings, valuesAt, unitAt } = layout;
  if (unitAt >= 0 && units.size > 1) {
    const [[first, firstLine] = ["", 0], [second, secondLine] = ["", 0]] = [...units];
    notes.refuse({
      code: "UNIT_NOT_READ",
      line: secondLine,
      column: unitAt + 1,
      found: `"${second}" after "${first}" on line ${firstLine}`,
      message:
        "The file holds rows of several quantities. Keep the rows of the energy or power taken in, and import those.",
    });
    return null;
  }
  const isWide = layout.wide !== null;
  const headingsOfValues = valuesAt.map((at) => headings[at] ?? "");
  judgeQuantity(headingsOfValues, isWide, stated, notes);
  const [word] = units.keys();
  const namedIn = (words: string): Unit | null =>
    otherQuantityIn(words) === null && notInUnits(words, isWide) === null ? unitIn(words) : null;
  const inHeadings = new Set(headingsOfValues.map(namedIn));
  const [inHeading = null] = inHeadings.size === 1 ? inHeadings : [];
  const inColumn = word === undefined ? null : namedIn(word);
  const conclude = (unit: Unit, because: string, basis: "seen" | "stated" = "seen"): KeptUnit => {
    const seen = inColumn ?? inHeading;
    if (stated.unit !== undefined && seen !== null && seen !== stated.unit)
      notes.remark("unit", `The file names its unit ${seen}; ${stated.unit} was stated and is taken.`);
    notes.conclude("unit", `values in ${unit}`, because, basis);
    const kept = KEPT_AS[unit];
    const highest = kept.unit === "kWh" ? undefined : headingsOfValues.find(isMaximum);
    if (highest !== undefined)
      notes.remark(
        "maximum",
        `The heading "${highest}" says that each value is the maximum of its interval, not its mean: energy must not be taken from it.`,
      );
    return kept;
  };
  if (stated.unit !== undefined) return conclude(stated.unit, "stated", "stated");
  if (inColumn !== null) return conclude(inColumn, `column "${headings[unitAt]}"`);
  if (inHeading !== null) return conclude(inHeading, `the heading "${headings[valuesAt[0] as number]}"`);
  const total = layout.totalAt < 0 ? null : unitIn(headings[layout.totalAt] ?? "");
  const addsUp = totals.checkedCount > 0 && totals.wrongCount === 0;
  if (total !== null && addsUp && KEPT_AS[total].unit === "kWh")
    return conclude(total, `the values of each day add up to its "${headings[layout.totalAt]}"`);
  notes.ask({
    id: "unit",
    asks: "In which unit are the values?",
    because: whyNoUnit(headingsOfValues, isWide),
    answers: UNITS.map((answer) => ({ answer, means: MEANS[KEPT_AS[answer].unit] })),
  });
  return null;
}

/** Refuses values of another quantity than what is taken in; only remarks it where they were stated. */
function judgeQuantity(headings: readonly string[], isWide: boolean, stated: Statements, notes: Notes): void {
  const heading = headings.find((one) => otherQuantityIn(one) !== null);
  if (heading === undefined) return;
  const what = otherQuantityIn(heading);
  // The columns of a day cannot be stated one by one: there the unit stands for it.
  if (stated.value !== undefined || (isWide && stated.unit !== undefined)) {
    notes.remark(
      "quantity",
      `The heading "${heading}" is of ${what}; as stated, it is taken as what the building takes in.`,
    );
    return;
  }
  if (notes.questions.some(({ id }) => id === "value")) return;
  notes.refuse({
    code: "UNIT_NOT_READ",
    line: 0,
    found: `the heading "${heading}"`,
    message: `It is of ${what}, and what the building takes in is wanted. Export that; or state the ${isWide ? "unit" : "column of the value"}, to take it all the same.`,
  });
}

function whyNoUnit(headings: readonly string[], isWide: boolean): string {
  const [heading = ""] = headings;
  const other = otherQuantityIn(heading);
  const why = other === null ? notInUnits(heading, isWide) : `it is of ${other}`;
  return why === null
    ? `no heading names one; the column is "${heading}"`
    : `the heading "${heading}" names none that can be taken: ${why}`;
}

const MEANS: Readonly<Record<SeriesUnit, string>> = {
  kWh: "energy of the interval",
  W: "mean power of the interval",
  A: "mean current of the interval",
};

/** Asks which meter is meant where a file holds several; refuses one that is not there. */
export function concludeMeter({ meters }: RowReader, stated: Statements, notes: Notes): void {
  const names = [...meters.keys()];
  if (stated.meter !== undefined) {
    if (names.length > 0 && !meters.has(stated.meter))
      notes.refuse({
        code: "COLUMN_ABSENT",
        line: 0,
        found: `no meter "${stated.meter}"`,
        message: `The meters of the file are ${names.slice(0, 20).join(", ")}.`,
      });
    else notes.conclude("meter", `meter ${stated.meter}`, "stated", "stated");
    return;
  }
  if (names.length < 2) return;
  notes.ask({
    id: "meter",
    asks: "Which meter is meant?",
    because: `the file holds ${names.length === 2 ? "two" : names.length === 50 ? "50 or more" : names.length}`,
    answers: names.slice(0, 30).map((answer) => ({ answer, means: `first on line ${meters.get(answer)}` })),
  });
}
