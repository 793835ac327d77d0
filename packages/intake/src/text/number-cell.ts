/** Cells that say that nothing was recorded. */
const ABSENT = new Set(["", "?", "-", "--", "n/a", "na", "#n/a", "nan", "null", "none", "missing"]);

const NUMBER = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d{1,3})?$/i;
const COMMA_NUMBER = /^[+-]?\d+,\d+(?:e[+-]?\d{1,3})?$/i;
/** A number such as 1,234 or 1.234, whose mark may as well part thousands. */
const MAYBE_THOUSANDS = /^[+-]?[1-9]\d{0,2}[.,]\d{3}$/;
/** A number with thousands parted, by the mark that parts them. */
const PARTED = {
  ".": /^[+-]?[1-9]\d{0,2}(?:\.\d{3})+(?:,\d+)?$/,
  ",": /^[+-]?[1-9]\d{0,2}(?:,\d{3})+(?:\.\d+)?$/,
} as const;

/** A number with both marks: which of them parts thousands it says by itself. */
const BOTH = {
  ".": /^[+-]?[1-9]\d{0,2}(?:\.\d{3})+,\d+$/,
  ",": /^[+-]?[1-9]\d{0,2}(?:,\d{3})+\.\d+$/,
} as const;

/** Marks seen in the numbers of a table. */
export interface DecimalMarks {
  /** What parts thousands; null where nobody said which mark stands before the fraction. */
  readonly thousands: "." | "," | null;
  /** Line of the first number with a point that can only be a decimal one; 0 while there is none. */
  pointLine: number;
  /** Line of the first number with a comma that can only be a decimal one. */
  commaLine: number;
  /** Line of the first number whose point may part thousands. */
  doubtfulPointLine: number;
  /** Line of the first number whose comma may part thousands. */
  doubtfulCommaLine: number;
  /** Line of the first whole number but zero without a mark, while no point was seen to be decimal. */
  bareLine: number;
  /** Line of the first number in which thousands were parted, as was stated or as it says by itself. */
  partedLine: number;
}

/** No marks seen yet. @param decimal The mark before the fraction, where it was stated. */
export const noMarks = (decimal?: "." | ","): DecimalMarks => ({
  thousands: decimal === undefined ? null : decimal === "." ? "," : ".",
  pointLine: 0,
  commaLine: 0,
  doubtfulPointLine: 0,
  doubtfulCommaLine: 0,
  bareLine: 0,
  partedLine: 0,
});

/**
 * Value of a cell.
 *
 * @returns The number; NaN where nothing was recorded; null where the cell holds neither.
 */
export function readNumber(text: string, line: number, marks: DecimalMarks): number | null {
  // The commonest cell, digits and a point, is read at once. Number alone would take 0x10 and blanks.
  const value = Number(text);
  if (value <= MOST && marks.thousands !== "." && isPlain(text)) {
    // Once a point is known to be decimal every other one is.
    if (marks.pointLine === 0) notePlain(text, value, line, marks);
    return value;
  }
  const cell = text.trim();
  if (ABSENT.has(cell.toLowerCase())) return Number.NaN;
  if (marks.thousands !== null && PARTED[marks.thousands].test(cell)) {
    marks.partedLine ||= line;
    return countable(Number(cell.replaceAll(marks.thousands, "").replace(",", ".")));
  }
  if (marks.thousands === null && BOTH[","].test(cell)) {
    marks.pointLine ||= line;
    marks.partedLine ||= line;
    return countable(Number(cell.replaceAll(",", "")));
  }
  if (marks.thousands === null && BOTH["."].test(cell)) {
    marks.commaLine ||= line;
    marks.partedLine ||= line;
    return countable(Number(cell.replaceAll(".", "").replace(",", ".")));
  }
  if (COMMA_NUMBER.test(cell)) {
    if (marks.thousands !== "." && MAYBE_THOUSANDS.test(cell)) marks.doubtfulCommaLine ||= line;
    else marks.commaLine ||= line;
    return countable(Number(cell.replace(",", ".")));
  }
  if (!NUMBER.test(cell)) return null;
  const number = Number(cell);
  if (marks.pointLine === 0) notePlain(cell, number, line, marks);
  return countable(number);
}

/** Notes the point of a number, or that it has none. Runs once a number while no point is known to be decimal. */
function notePlain(text: string, value: number, line: number, marks: DecimalMarks): void {
  const at = text.indexOf(".");
  if (at < 0) {
    if (marks.bareLine === 0 && value !== 0) marks.bareLine = line;
  } else if (text.length - at !== 4 || !mayPart(text, at)) marks.pointLine = line;
  else if (marks.doubtfulPointLine === 0) marks.doubtfulPointLine = line;
}

/** {@link MAYBE_THOUSANDS} without a pattern, for text that is a number and has three characters after its point. */
function mayPart(text: string, at: number): boolean {
  const code = text.charCodeAt(0);
  const start = code === MINUS || code === PLUS ? 1 : 0;
  const first = text.charCodeAt(start);
  return at > start && at - start <= 3 && first !== ZERO && text.charCodeAt(at + 2) <= NINE;
}
const MINUS = 45;
const PLUS = 43;
const ZERO = 48;
const NINE = 57;

/** No register counts further: fifteen digits. */
const MOST = 1e15;
const countable = (value: number): number | null => (Math.abs(value) <= MOST ? value : null);

/** True for a text of digits and points alone. */
function isPlain(text: string): boolean {
  for (let index = 0; index < text.length; index++) {
    const code = text.charCodeAt(index);
    if ((code < 48 || code > 57) && code !== 46) return false;
  }
  return text.length > 0;
}
