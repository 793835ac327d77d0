import { describe, expect, it } from "vitest";
import { concluded, imported, seriesOf } from "../testing/imported.ts";
import { long } from "../testing/three-days.ts";

/** Watts from 60 on, as a program writes them that parts thousands by a mark. */
const watts = (at: number): number => 60 + ((at * 370) % 2900);
const parted = (mark: string): string =>
  long(
    ({ day, time }, at) => `${day};${time};${String(watts(at)).replace(/(\d)(\d{3})$/, `$1${mark}$2`)}`,
    "date;time;W",
  );

describe("a number with both marks", () => {
  it.each([
    [",", ".", "decimal point; commas part thousands"],
    [".", ",", "decimal comma; points part thousands"],
  ])("says by itself that %s parts thousands and %s stands before the fraction", (parts, before, says) => {
    const text = long(({ day, time }, at) => {
      const [whole = "", fraction = ""] = (watts(at) + 0.5).toFixed(1).split(".");
      return `${day};${time};${whole.replace(/(\d)(\d{3})$/, `$1${parts}$2`)}${before}${fraction}`;
    }, "date;time;W");
    expect([...(seriesOf(text).channels[0]?.values ?? [])]).toEqual(
      Array.from({ length: 144 }, (_, at) => watts(at) + 0.5),
    );
    expect(concluded(imported(text), "decimal")).toBe(says);
  });
});

describe("marks that may part thousands", () => {
  it.each([
    [".", ","],
    [",", "."],
  ] as const)(
    "are asked for where every %s has three digits after it, and both answers work",
    (mark, other) => {
      const text = parted(mark);
      expect(imported(text)).toMatchObject({
        state: "questions",
        questions: [{ id: "decimal", answers: [{ answer: mark }, { answer: other }] }],
      });
      const values = seriesOf(text, { decimal: other }).channels[0]?.values ?? [];
      expect([...values]).toEqual(Array.from({ length: 144 }, (_, at) => watts(at)));
      expect(concluded(imported(text, { decimal: other }), "decimal")).toMatch(/part thousands$/);
      expect(Math.max(...(seriesOf(text, { decimal: mark }).channels[0]?.values ?? []))).toBeLessThan(1000);
    },
  );
  it("are asked for in watts where every number has one", () => {
    const text = long(({ day, time }, at) => `${day};${time};1.${200 + at}`, "date;time;W");
    expect(imported(text)).toMatchObject({
      questions: [{ id: "decimal", because: expect.stringContaining("thousandths") }],
    });
  });
  it("are read from numbers of more than a million", () => {
    const text = long(({ day, time }, at) => `${day};${time};1.234.${200 + at}`, "date;time;Wh");
    expect(seriesOf(text, { decimal: ",", readings: "register" }).channels[0]?.values[0]).toBeCloseTo(
      0.001,
      9,
    );
  });
  it("are decimal where one number shows it, or kilowatts always have three digits", () => {
    const asRead = (heading: string, last: string): unknown =>
      imported(long(({ day, time }, at) => `${day};${time};${at === 99 ? last : `1.${900 - at}`}`, heading));
    expect(asRead("date;time;kW", "2.5")).toMatchObject({ state: "series" });
    expect(asRead("date;time;kW", "0.250")).toMatchObject({ state: "series" });
    expect(asRead("date;time;kW", "1.250")).toMatchObject({ state: "series" });
    expect(asRead("date;time;kW", "0")).toMatchObject({ state: "series" });
    expect(asRead("date;time;kW", "840")).toMatchObject({ questions: [{ id: "decimal" }] });
  });
  it("are refused where the mark that was stated cannot be", () => {
    const text = long(
      ({ day, time }, at) => `${day};${time};${at === 9 ? "0.250" : "1.680"}`,
      "date;time;kW",
    );
    expect(imported(text, { decimal: "," })).toMatchObject({
      problems: [{ code: "STATEMENT_CONTRADICTED", line: 11 }],
    });
  });
});
