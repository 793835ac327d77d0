import type { DateOrder } from "../statements.ts";
import type { RowStore } from "../table/row-store.ts";
import { clockOf } from "../time/clock.ts";
import { epochDay, partsOf, writtenAs, YEAR_LAST } from "../time/written-day.ts";

const DAY_S = 86_400;
const ORDERS = ["day/month/year", "month/day/year"] as const;

/**
 * The order of day and month in which rows run on over midnight by their own step: 23:59 on 03/11, then 00:00 on
 * 04/11, is one night read as 3 and 4 November, and a month without a row read as 11 March and 11 April.
 *
 * @param store Rows whose days are still packed, with a time of day each.
 * @param like A date as the file writes them.
 * @returns Null where no row runs on, or rows run on in both orders.
 */
export function orderByMidnights(
  store: RowStore,
  like: string,
): { readonly order: DateOrder; readonly because: string } | null {
  const found = new Map<DateOrder, string>();
  let [packed, second, step] = [-1, 0, 0];
  store.eachRow(false, (piece, row) => {
    const nextPacked = piece.day[row] as number;
    const nextSecond = piece.second[row] as number;
    if (packed === nextPacked) step = nextSecond - second;
    // Negative where the file runs backwards; one more or fewer than a day of it lies between the two labels.
    else if (packed >= 0 && step !== 0 && nextSecond - second + Math.sign(step) * DAY_S === step) {
      for (const order of ORDERS) {
        const days = epochDay(nextPacked, order) - epochDay(packed, order);
        if (days === Math.sign(step) && partsOf(packed).kind === YEAR_LAST && !found.has(order))
          found.set(
            order,
            `line ${piece.line[row]}: ${clockOf(nextSecond)} on ${writtenAs(nextPacked, like)} runs on from ${clockOf(second)} on ${writtenAs(packed, like)}`,
          );
      }
    }
    packed = nextPacked;
    second = nextSecond;
  });
  const [only, other] = found;
  return only === undefined || other !== undefined ? null : { order: only[0], because: only[1] };
}
