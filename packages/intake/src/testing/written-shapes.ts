/**
 * A true series, written as files of every shape and habit would write it.
 *
 * The clock of a place is asked of the platform here, so that the importer's own rule meets another.
 *
 * @module
 */

/** Half-hours, or another step, of true time. */
export interface Truth {
  readonly startMs: number;
  readonly stepS: number;
  readonly values: readonly number[];
}

/** Wall-clock day and second at an instant. */
export interface Wall {
  readonly day: string;
  readonly secondS: number;
}

const formats = new Map<string, Intl.DateTimeFormat>();

export function wallAt(atMs: number, zone: string): Wall {
  let format = formats.get(zone);
  if (format === undefined) {
    format = new Intl.DateTimeFormat("sv-SE", { timeZone: zone, dateStyle: "short", timeStyle: "medium" });
    formats.set(zone, format);
  }
  const [day = "", time = ""] = format.format(atMs).split(" ");
  const [hour = 0, minute = 0, second = 0] = time.split(":").map(Number);
  return { day, secondS: hour * 3600 + minute * 60 + second };
}

const two = (value: number): string => String(value).padStart(2, "0");
const clock = (secondS: number): string =>
  `${two(Math.floor(secondS / 3600))}:${two(Math.floor(secondS / 60) % 60)}`;

/** Demand that never repeats: a value is found again only where it belongs. */
export function truth(fromIso: string, days: number, stepS = 1800): Truth {
  const startMs = Date.parse(fromIso);
  const values = Array.from(
    { length: Math.round((days * 86_400) / stepS) },
    (_, index) => (201 + ((index * 7919) % 997)) / 1000,
  );
  return { startMs, stepS, values };
}

/** Intervals of each local day, in order of time. */
function localDays(
  { startMs, stepS, values }: Truth,
  zone: string,
): Map<string, { readonly wall: Wall; readonly value: number }[]> {
  const days = new Map<string, { readonly wall: Wall; readonly value: number }[]>();
  for (const [index, value] of values.entries()) {
    const wall = wallAt(startMs + index * stepS * 1000, zone);
    const day = days.get(wall.day) ?? [];
    day.push({ wall, value });
    days.set(wall.day, day);
  }
  return days;
}

/** One row a day, numbered columns up to 50, intervals counted from local midnight. */
export function wideByPeriods(series: Truth, zone: string, delimiter = ","): string {
  const columns = Array.from({ length: 50 }, (_, index) => `HH${two(index + 1)} kWh`);
  const rows = [...localDays(series, zone)].map(([day, intervals]) =>
    [day, ...columns.map((_, index) => intervals[index]?.value ?? "")].join(delimiter),
  );
  return [["Date", ...columns].join(delimiter), ...rows, ""].join("\n");
}

/** One row a day, 48 columns by the clock on the wall; `fill` says what stands where the clock has no such hour. */
export function wideByWall(
  series: Truth,
  zone: string,
  habit: { readonly spring: "zero" | "absent"; readonly autumn: "sum" | "first" },
): string {
  const perDay = 86_400 / series.stepS;
  const columns = Array.from({ length: perDay }, (_, index) => clock(index * series.stepS));
  const rows = [...localDays(series, zone)].map(([day, intervals]) => {
    const cells = columns.map((_, index) => {
      const there = intervals.filter(({ wall }) => wall.secondS === index * series.stepS);
      if (there.length === 0) return habit.spring === "zero" ? 0 : "";
      return habit.autumn === "sum"
        ? Math.round(there.reduce((sum, { value }) => sum + value, 0) * 1e6) / 1e6
        : there[0]?.value;
    });
    return [day, ...cells].join(",");
  });
  return [["Date", ...columns.map((column) => `${column} kWh`)].join(","), ...rows, ""].join("\n");
}

/** One row a reading by the clock on the wall, labelled at the start or by true end. */
export function longByWall({ startMs, stepS, values }: Truth, zone: string, labels: "start" | "end"): string {
  const rows = values.map((value, index) => {
    const { day, secondS } = wallAt(startMs + (index + (labels === "end" ? 1 : 0)) * stepS * 1000, zone);
    return `${day} ${clock(secondS)},${value}`;
  });
  return ["Timestamp,kWh", ...rows, ""].join("\n");
}

/** One row a reading, date and number of the interval counted from local midnight. */
export function longByPeriods(series: Truth, zone: string): string {
  const rows = [...localDays(series, zone)].flatMap(([day, intervals]) =>
    intervals.map(({ value }, index) => `${day},${index + 1},${value}`),
  );
  return ["Settlement Date,Settlement Period,kWh", ...rows, ""].join("\n");
}

/** One row a day, 48 columns of universal time, headed by the ends of the intervals. */
export function wideByUtc(series: Truth): string {
  const columns = Array.from({ length: 48 }, (_, index) => clock((index + 1) * 1800));
  const rows = [...localDays(series, "UTC")].map(([day, intervals]) =>
    [day.split("-").reverse().join("/"), ...intervals.map(({ value }) => value)].join(","),
  );
  return [["Day", ...columns, "Total kWh"].join(","), ...rows.map((row) => `${row},${total(row)}`), ""].join(
    "\n",
  );
}

const total = (row: string): string =>
  row
    .split(",")
    .slice(1)
    .reduce((sum, cell) => sum + Number(cell), 0)
    .toFixed(3);
