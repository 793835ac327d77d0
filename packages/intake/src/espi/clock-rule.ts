/**
 * Rules for clock changes as ESPI packs them into a word of 32 bits.
 *
 *     bits 31–28   27–25      24–20          19–17     16–12   11–0
 *          month | operator | day of month | weekday | hour | seconds of the hour
 *
 * Weekdays count from Monday, 1. Operator 0 names the day of the month, 1 the weekday on or after it, 2 to 6
 * the first to fifth such weekday of the month, 7 the last.
 *
 * Source: [naesb-espi] DstRuleType (bits and the last-in-month operator seen; operators 0 to 6 recalled, except
 * that the schema's own example makes 4 the third).
 *
 * @module
 */
export interface ClockRule {
  readonly month: number;
  readonly operator: number;
  readonly dayOfMonth: number;
  readonly weekday: number;
  /** Local time of the change. [s] after midnight */
  readonly secondS: number;
}

/** All bits set: clocks never change. */
const NEVER = 0xffff_ffff;

/** Unpacks a rule; null where clocks never change or the word makes no rule. */
export function clockRule(word: number): ClockRule | null {
  if (!Number.isInteger(word) || word < 0 || word >= NEVER) return null;
  const rule = {
    month: word >>> 28,
    operator: (word >>> 25) & 0x7,
    dayOfMonth: (word >>> 20) & 0x1f,
    weekday: (word >>> 17) & 0x7,
    secondS: ((word >>> 12) & 0x1f) * 3600 + (word & 0xfff),
  };
  const { month, operator, dayOfMonth, weekday, secondS } = rule;
  const isSound =
    month >= 1 &&
    month <= 12 &&
    secondS <= 86_400 &&
    (operator <= 1 ? dayOfMonth >= 1 : true) &&
    (operator === 0 ? true : weekday >= 1);
  return isSound ? rule : null;
}

const WEEKDAYS = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"];
const MONTHS = "January February March April May June July August September October November December".split(
  " ",
);
const PLACES = ["", "", "first", "second", "third", "fourth", "fifth", "last"];

export function ruleWords({ month, operator, dayOfMonth, weekday, secondS }: ClockRule): string {
  const name = WEEKDAYS[weekday - 1] ?? "";
  const day =
    operator === 0
      ? `${dayOfMonth}`
      : operator === 1
        ? `the ${name} on or after ${dayOfMonth}`
        : `the ${PLACES[operator]} ${name} of`;
  const two = (value: number): string => String(value).padStart(2, "0");
  return `${day} ${MONTHS[month - 1]} at ${two(Math.floor(secondS / 3600))}:${two(Math.floor(secondS / 60) % 60)}`;
}
