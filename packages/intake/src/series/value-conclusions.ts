import type { Notes } from "../notes.ts";
import { type Statements, UNITS, type Unit } from "../statements.ts";
import type { Layout } from "../table/layout.ts";
import type { RowReader } from "../table/row-reader.ts";
import { KEPT_AS, type KeptUnit, type SeriesUnit, unitIn } from "./unit.ts";

/** Concludes the unit from what was stated, headings, or a column of units; asks where none names one. */
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
  const [word] = units.keys();
  const inHeadings = new Set(valuesAt.map((at) => unitIn(headings[at] ?? "")));
  const [inHeading = null] = inHeadings.size === 1 ? inHeadings : [];
  const inColumn = word === undefined ? null : unitIn(word);
  const conclude = (unit: Unit, because: string, basis: "seen" | "stated" = "seen"): KeptUnit => {
    const seen = inColumn ?? inHeading;
    if (stated.unit !== undefined && seen !== null && seen !== stated.unit)
      notes.remark("unit", `The file names its unit ${seen}; ${stated.unit} was stated and is taken.`);
    notes.conclude("unit", `values in ${unit}`, because, basis);
    return KEPT_AS[unit];
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
    because: `no heading names one; the column is "${headings[valuesAt[0] as number]}"`,
    answers: UNITS.map((answer) => ({ answer, means: MEANS[KEPT_AS[answer].unit] })),
  });
  return null;
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
    because: `the file holds ${names.length === 50 ? "50 or more" : names.length}`,
    answers: names.slice(0, 30).map((answer) => ({ answer, means: `first on line ${meters.get(answer)}` })),
  });
}
