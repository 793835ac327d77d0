import { describe, expect, it } from "vitest";
import { concluded, imported, seriesOf } from "../testing/imported.ts";
import { long, rows, table } from "../testing/three-days.ts";

/** What a register shows from `from` on, the readings of three days added up; begun anew where `anew` says. */
function register(from: number, anew: (index: number) => boolean = () => false, range = 1e9): number[] {
  let stand = from;
  return rows.map(({ value }, index) => {
    stand = anew(index) ? 0 : (stand + value) % range;
    return Math.round(stand * 1000) / 1000;
  });
}
const file = (stands: readonly number[], heading = "kWh"): string =>
  long(({ day, time }, index) => `${day},${time},${stands[index]}`, `date,time,${heading}`);
const daily = register(0, (index) => index % 48 === 0);
const exchanged = register(100, (index) => index === 100);
const rolledOver = register(99_990, undefined, 100_000);
const wide = table(
  `date,${Array.from({ length: 48 }, (_, index) => `HH${index + 1} kWh`).join(",")}`,
  ...[0, 1, 2].map((day) => [`${13 + day}/01/2026`, ...daily.slice(48 * day, 48 * day + 48)].join(",")),
);

describe("whether a value is of its interval or of a register", () => {
  it.each([
    ["starts anew each day", file(daily), /fall twice|fall 2 times, first on line 50.*starts anew each day/],
    ["starts anew each day, one row a day", wide, /first on line 3.*starts anew each day/],
    ["was exchanged once", file(exchanged), /fall once, first on line 102, 0 after/],
    ["rolled over", file(rolledOver), /fall once, first on line \d+/],
    [
      "is named so",
      long(({ day, time, value }) => `${day},${time},${value}`, "date,time,Running kWh"),
      /"Running kWh"/,
    ],
  ])("is asked where it %s", (_what, text, because) => {
    const result = imported(text);
    expect(result).toMatchObject({
      state: "questions",
      questions: [{ id: "readings", because: expect.stringMatching(because) }],
    });
  });
  it.each(["Cumulative kWh", "Energy today kWh", "import_register_kWh", "Energy counter kWh"])(
    "is asked for the heading %s, whatever stands under it",
    (heading) => {
      const text = long(({ day, time, value }) => `${day},${time},${value}`, `date,time,${heading}`);
      expect(imported(text)).toMatchObject({ questions: [{ id: "readings" }] });
      expect(imported(text, { readings: "interval" })).toMatchObject({ state: "series" });
    },
  );
  it.each(["kWh", "Total kWh", "Reading (kWh)", "Daily consumption (kWh)"])(
    "is concluded where values fall as they rise, under %s",
    (heading) => {
      const text = long(({ day, time, value }) => `${day},${time},${value}`, `date,time,${heading}`);
      expect(concluded(imported(text), "readings")).toBe("each value is the energy of its interval");
    },
  );
});

describe("what a register does is never energy by mistake", () => {
  it("where it starts anew each day: refused with the cure", () => {
    for (const [text, line] of [
      [file(daily), 50],
      [wide, 3],
    ] as const)
      expect(imported(text, { readings: "register" })).toMatchObject({
        state: "refused",
        problems: [
          { code: "REGISTER_FALLS", line, message: expect.stringMatching(/starts anew each day.*Export/) },
        ],
      });
  });
  it("where a meter was exchanged, at any stand: refused with its line", () => {
    for (const from of [100, 9600, 9930])
      expect(
        imported(file(register(from, (index) => index === 100)), { readings: "register" }),
      ).toMatchObject({
        problems: [{ code: "REGISTER_FALLS", line: 102 }],
      });
  });
  it("where it rolled over by what an interval has: counted, and said with its line", () => {
    const result = imported(file(rolledOver), { readings: "register" });
    const at = rolledOver.findIndex((value, index) => value < (rolledOver[index - 1] ?? 0));
    expect(result).toMatchObject({
      state: "series",
      remarks: [{ says: expect.stringContaining(`rolled over at 100000 once, on line ${at + 2}:`) }],
    });
    const values = seriesOf(file(rolledOver), { readings: "register" }).channels[0]?.values ?? [];
    expect(Math.max(...values)).toBeLessThan(1.2);
  });
  it("where readings are missing: left out, and said in whole watt-hours", () => {
    const stands = register(100.1);
    const gap = long(({ day, time }, index) => `${day},${time},${index === 7 ? "" : stands[index]}`);
    expect(imported(gap, { readings: "register" })).toMatchObject({
      remarks: [{ says: expect.stringMatching(/^\d+(\.\d{1,3})? kWh passed in a gap of/) }],
    });
  });
});
