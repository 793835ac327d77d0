/** Orders in which a file may write day, month and year. */
export const DATE_ORDERS = ["day/month/year", "month/day/year", "year-month-day"] as const;
export type DateOrder = (typeof DATE_ORDERS)[number];

/**
 * Clocks that a recording may be labelled by.
 *
 * - `utc`: universal time throughout.
 * - `standard`: the zone's winter time throughout.
 * - `local`: what the clock on the wall showed.
 * - `periods`: intervals counted from local midnight; 46 half-hours on the short day, 50 on the long one.
 */
export const CLOCKS = ["utc", "standard", "local", "periods"] as const;
export type Clock = (typeof CLOCKS)[number];

/** Units a value may be in. */
export const UNITS = ["kWh", "Wh", "MWh", "kW", "W", "MW", "A"] as const;
export type Unit = (typeof UNITS)[number];

/**
 * What a person may state about a file. Nothing has a default: what is left out is concluded from the
 * file, or asked for.
 */
export interface Statements {
  readonly delimiter?: "," | ";" | "\t" | "|";
  /** Mark between whole and fraction. */
  readonly decimal?: "." | ",";
  /** Columns by heading, or by place as `#3`. */
  readonly date?: string;
  readonly time?: string;
  readonly period?: string;
  /** One column, or three for L1, L2 and L3. */
  readonly value?: readonly string[];
  readonly quality?: string;
  /** Which meter, where a file holds several. */
  readonly meter?: string;
  readonly dateOrder?: DateOrder;
  /** Whether a time names the start or the end of its interval. */
  readonly labels?: "start" | "end";
  readonly unit?: Unit;
  /** Whether a value belongs to its interval, or is what a register stood at. */
  readonly readings?: "interval" | "register";
  readonly clock?: Clock;
  /** Time zone of the site, such as Europe/London. */
  readonly zone?: string;
  /** Length of an interval. [s], 1 to 3600 */
  readonly stepS?: number;
  /** What values below zero are: energy sent out, or no reading at all. */
  readonly negative?: "net" | "absent";
}
