/** Cells that say that nothing was recorded. */
const ABSENT = new Set(["", "?", "-", "--", "n/a", "na", "#n/a", "nan", "null", "none", "missing"]);

const NUMBER = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d{1,3})?$/i;
const COMMA_NUMBER = /^[+-]?\d+,\d+(?:e[+-]?\d{1,3})?$/i;
/** A number such as 1,234, whose comma may as well part thousands. */
const MAYBE_THOUSANDS = /^[+-]?[1-9]\d{0,2},\d{3}$/;

/** Marks seen in the numbers of a table. */
export interface DecimalMarks {
  /** Line of the first number with a point; 0 while there is none. */
  pointLine: number;
  /** Line of the first number with a comma that can only be a decimal one. */
  commaLine: number;
  /** Line of the first number whose comma may part thousands. */
  doubtfulLine: number;
}

/**
 * Value of a cell.
 *
 * @returns The number; NaN where nothing was recorded; null where the cell holds neither.
 */
export function readNumber(text: string, line: number, marks: DecimalMarks): number | null {
  // The commonest cell, digits and a point, is read at once. Number alone would take 0x10 and blanks.
  const value = Number(text);
  if (value <= MOST && isPlain(text)) {
    if (marks.pointLine === 0 && text.includes(".")) marks.pointLine = line;
    return value;
  }
  const cell = text.trim();
  if (ABSENT.has(cell.toLowerCase())) return Number.NaN;
  if (COMMA_NUMBER.test(cell)) {
    if (MAYBE_THOUSANDS.test(cell)) marks.doubtfulLine ||= line;
    else marks.commaLine ||= line;
    return countable(Number(cell.replace(",", ".")));
  }
  if (!NUMBER.test(cell)) return null;
  if (cell.includes(".")) marks.pointLine ||= line;
  return countable(Number(cell));
}

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
