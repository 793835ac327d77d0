import type { Notes } from "../notes.ts";
import type { Statements } from "../statements.ts";
import type { DecimalMarks } from "../text/number-cell.ts";

const NAMES = { ".": "point", ",": "comma" } as const;

/**
 * Concludes which mark stands before the fraction, or asks: 1.680 beside 840 is as likely one thousand six hundred
 * and eighty.
 *
 * @param isSmallUnit True for a unit of which nobody counts thousandths, such as the watt.
 */
export function concludeDecimal(
  marks: DecimalMarks,
  isSmallUnit: boolean,
  stated: Statements["decimal"],
  notes: Notes,
): void {
  const { pointLine, commaLine, doubtfulPointLine, doubtfulCommaLine, bareLine, partedLine } = marks;
  const [point, comma] = [pointLine || doubtfulPointLine, commaLine || doubtfulCommaLine];
  if (point > 0 && comma > 0) {
    const isEither = stated === undefined && (pointLine === 0 || commaLine === 0);
    notes.refuse({
      code: "DECIMALS_MIXED",
      line: Math.max(point, comma),
      found: `a point on line ${point} and a comma on line ${comma}`,
      message: `Write every number with a decimal point, or every one with a decimal comma, and none with marks between thousands.${isEither ? " Or state which of the two stands before the fraction: the other then parts thousands." : ""}`,
    });
    return;
  }
  if (stated !== undefined) {
    const contrary = stated === "." ? comma : point;
    if (contrary > 0)
      notes.refuse({
        code: "STATEMENT_CONTRADICTED",
        line: contrary,
        found: `a decimal ${NAMES[stated === "." ? "," : "."]}`,
        message: `The decimal mark was stated as "${stated}", and this number cannot be read so. State what the file shows, or nothing.`,
      });
    else if (comma > 0 || partedLine > 0)
      notes.conclude(
        "decimal",
        `decimal ${NAMES[stated]}${partedLine > 0 ? `; ${NAMES[stated === "." ? "," : "."]}s part thousands` : ""}`,
        `line ${partedLine || comma}`,
        "stated",
      );
    return;
  }
  if (partedLine > 0)
    notes.conclude(
      "decimal",
      commaLine > 0 ? "decimal comma; points part thousands" : "decimal point; commas part thousands",
      `line ${partedLine}`,
    );
  else if (commaLine > 0) notes.conclude("decimal", "decimal comma", `line ${commaLine}`);
  else if (doubtfulCommaLine > 0) ask(",", doubtfulCommaLine, "", notes);
  else if (pointLine === 0 && doubtfulPointLine > 0 && (bareLine > 0 || isSmallUnit))
    ask(
      ".",
      doubtfulPointLine,
      bareLine > 0
        ? `, and whole numbers stand without one, first on line ${bareLine}`
        : ", in a unit of which nobody counts thousandths",
      notes,
    );
}

function ask(mark: "." | ",", line: number, beside: string, notes: Notes): void {
  const name = NAMES[mark];
  notes.ask({
    id: "decimal",
    asks: `Does the ${name} stand before the fraction, or does it part thousands?`,
    because: `every number with a ${name}, first on line ${line}, has three digits after it${beside}`,
    answers: [
      { answer: mark, means: `1${mark}234 is a little more than one` },
      { answer: mark === "." ? "," : ".", means: `1${mark}234 is one thousand two hundred and thirty-four` },
    ],
  });
}
