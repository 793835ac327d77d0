import { describe, expect, it } from "vitest";
import { epochDay, readWrittenDay } from "./written-day.ts";

const read = (text: string, order: "day/month/year" | "month/day/year" = "day/month/year") => {
  const day = { packed: -1, length: 0 };
  readWrittenDay(text, day);
  if (day.packed < 0) return null;
  const at = epochDay(day.packed, order);
  return [Number.isNaN(at) ? "no day" : new Date(at * 86_400_000).toISOString().slice(0, 10), day.length];
};

describe("a day as files write it", () => {
  it.each([
    ["2023-10-29", "2023-10-29", 10],
    ["2023/10/9", "2023-10-09", 9],
    ["29/10/2023 00:30", "2023-10-29", 10],
    ["3.4.2026", "2026-04-03", 8],
    ["29-10-23", "2023-10-29", 8],
    ["29 Oct 2023", "2023-10-29", 11],
    ["29-October-2023 01:00", "2023-10-29", 15],
    ["20231029", "2023-10-29", 8],
    ["2023-10-29T00:30:00Z", "2023-10-29", 10],
    ["31/02/2023", "no day", 10],
    ["00/10/2023", "no day", 10],
    ["29/02/2023", "no day", 10],
    ["29/02/2024", "2024-02-29", 10],
  ])("%s", (text, day, length) => expect(read(text)).toEqual([day, length]));
  it("has the month first where the file has it first", () =>
    expect(read("10/29/2023", "month/day/year")?.[0]).toBe("2023-10-29"));
  it.each([
    "",
    "2023",
    "1.5",
    "12:30",
    "0001-01-01",
    "1/2/0003",
    "2023-10",
    "29/10-2023",
    "203/10/29",
    "29 Foo 2023",
    "202310291",
    "1/2/3",
  ])("%s is none", (text) => expect(read(text)).toBeNull());
});
