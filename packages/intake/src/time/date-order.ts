import type { Notes } from "../notes.ts";
import type { DateOrder } from "../statements.ts";
import { hasShortYear, MONTH_NAMED, partsOf, YEAR_FIRST, YEAR_LAST } from "./written-day.ts";

/** What the days of a file show of their order, row by row. */
export class DateOrderEvidence {
  #last = -1;
  /** Lines at which each kind of day stood first, and an impossible month in either place. */
  readonly #kindLines: [number, number, number] = [0, 0, 0];
  #dayFirst = { line: 0, text: "" };
  #monthFirst = { line: 0, text: "" };
  #shortYearLine = 0;
  #sample = "";

  /** A date as the file writes them: one with a number below ten, where there is one. */
  get sample(): string {
    return this.#sample;
  }

  /** @param text The day as it stands in the file. */
  take(packed: number, line: number, text: string): void {
    if (packed === this.#last) return;
    this.#last = packed;
    const { kind, a, b } = partsOf(packed);
    if (this.#sample === "" || (Math.min(a, b) < 10 && !hasNumberBelowTen(this.#sample))) this.#sample = text;
    this.#kindLines[kind as 0 | 1 | 2] ||= line;
    if (hasShortYear(packed)) this.#shortYearLine ||= line;
    if (kind !== YEAR_LAST) return;
    if (a > 12 && this.#dayFirst.line === 0) this.#dayFirst = { line, text };
    if (b > 12 && this.#monthFirst.line === 0) this.#monthFirst = { line, text };
  }

  /**
   * Concludes the order, or asks, or refuses. Null where it cannot be told.
   *
   * @param byMidnights The order in which rows run on over midnight, asked for where the dates alone do not tell.
   */
  conclude(
    stated: DateOrder | undefined,
    byMidnights: () => { readonly order: DateOrder; readonly because: string } | null,
    notes: Notes,
  ): DateOrder | null {
    const [yearFirst, yearLast, named] = this.#kindLines;
    const kinds = [yearFirst, yearLast, named].filter((line) => line > 0);
    if (kinds.length > 1) {
      notes.refuse({
        code: "DATE_ORDER_MIXED",
        line: Math.max(...kinds),
        found: `dates written one way on line ${Math.min(...kinds)} and another way here`,
        message: "Write every date of the file in one way.",
      });
      return null;
    }
    if (this.#shortYearLine > 0)
      notes.conclude(
        "century",
        "two-digit years are of this century",
        `line ${this.#shortYearLine}`,
        "assumed",
      );
    if (this.#kindLines[YEAR_FIRST] > 0)
      return this.#settle("year-month-day", stated, "the year stands first", notes);
    if (this.#kindLines[MONTH_NAMED] > 0) {
      notes.conclude("dateOrder", "dates as day, month, year", "the months are named");
      return "day/month/year";
    }
    const [dayFirst, monthFirst] = [this.#dayFirst, this.#monthFirst];
    if (dayFirst.line > 0 && monthFirst.line > 0) {
      notes.refuse({
        code: "DATE_ORDER_MIXED",
        line: Math.max(dayFirst.line, monthFirst.line),
        found: `${dayFirst.text} on line ${dayFirst.line} and ${monthFirst.text} on line ${monthFirst.line}`,
        message: "No one order of day and month fits both. Write every date of the file in one order.",
      });
      return null;
    }
    if (dayFirst.line > 0) return this.#settle("day/month/year", stated, impossible(dayFirst), notes);
    if (monthFirst.line > 0) return this.#settle("month/day/year", stated, impossible(monthFirst), notes);
    if (stated !== undefined) return this.#settle(stated, stated, "", notes);
    const run = byMidnights();
    if (run !== null) return this.#settle(run.order, undefined, run.because, notes);
    notes.ask({
      id: "dateOrder",
      asks: "In which order are day and month written?",
      because:
        "no date of the file has a number above 12 in either place, and no row runs on from one day to the next",
      answers: [
        { answer: "day/month/year", means: "3/4/2026 is 3 April" },
        { answer: "month/day/year", means: "3/4/2026 is 4 March" },
      ],
    });
    return null;
  }

  #settle(seen: DateOrder, stated: DateOrder | undefined, because: string, notes: Notes): DateOrder {
    if (stated !== undefined && stated !== seen) {
      notes.refuse({
        code: "STATEMENT_CONTRADICTED",
        line: this.#kindLines.find((line) => line > 0) ?? 0,
        found: because,
        message: `The date order was stated as ${stated}, and the file shows ${seen}. State what the file shows, or nothing.`,
      });
    }
    notes.conclude(
      "dateOrder",
      `dates as ${seen.replaceAll(/[/-]/g, ", ")}`,
      because || "stated",
      because ? "seen" : "stated",
    );
    return seen;
  }
}

const impossible = ({ line, text }: { line: number; text: string }): string =>
  `line ${line}: ${text} has no other reading`;

const hasNumberBelowTen = (text: string): boolean => /(^|\D)0?\d(\D|$)/.test(text);
