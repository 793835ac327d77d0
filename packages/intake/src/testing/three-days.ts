import { truth } from "./written-shapes.ts";

export const table = (...rows: string[]): string => rows.join("\n");

/** Three days of half-hours from midnight, in winter. */
export const rows = truth("2026-01-13T00:00:00Z", 3).values.map((value, index) => {
  const at = new Date(Date.UTC(2026, 0, 13) + index * 1_800_000).toISOString();
  return { day: at.slice(0, 10), time: at.slice(11, 16), value };
});

/** The same with one row a reading, each as it is changed. */
export const long = (
  change: (row: (typeof rows)[number], index: number) => string,
  heading = "date,time,kWh",
): string => table(heading, ...rows.map(change));

export const plain = long(({ day, time, value }) => `${day},${time},${value}`);
