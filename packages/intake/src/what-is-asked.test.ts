import { describe, expect, it } from "vitest";
import { imported } from "./testing/imported.ts";
import { long, rows, table } from "./testing/three-days.ts";
import { truth, wideByUtc, wideByWall } from "./testing/written-shapes.ts";

const LONDON = "Europe/London";

describe("what a file does not tell is asked for", () => {
  const questions: [what: string, text: string, ids: string[], answer: object][] = [
    [
      "the order of dates below the 13th",
      // No row runs on over midnight: the first half-hour of the later days is not there.
      table(
        "date,time,kWh",
        ...rows.flatMap(({ time, value }, index) =>
          index > 0 && index % 48 === 0 ? [] : [`0${1 + Math.floor(index / 48)}/02/2026,${time},${value}`],
        ),
      ),
      ["dateOrder"],
      { dateOrder: "day/month/year" },
    ],
    [
      "labels of a file that begins in the day",
      table("date,time,kWh", ...rows.slice(7).map(({ day, time, value }) => `${day},${time},${value}`)),
      ["labels"],
      { labels: "start" },
    ],
    [
      "labels of a file that begins with the first step and ends in the day",
      table("date,time,kWh", ...rows.slice(1, 140).map(({ day, time, value }) => `${day},${time},${value}`)),
      ["labels"],
      { labels: "end" },
    ],
    [
      "a unit, where printed totals name one and the values do not add up to them",
      table(
        `date,${Array.from({ length: 48 }, (_, index) => `HH${index + 1}`).join(",")},total kWh`,
        ...[0, 1, 2].map((day) => {
          const values = rows.slice(48 * day, 48 * day + 48).map(({ value }) => value);
          return [rows[48 * day]?.day, ...values, 99].join(",");
        }),
      ),
      ["unit"],
      { unit: "kWh" },
    ],
    [
      "a unit",
      long(({ day, time, value }) => `${day},${time},${value}`, "date,time,value"),
      ["unit"],
      { unit: "kW" },
    ],
    [
      "commas that may part thousands",
      long(
        ({ day, time, value }) => `${day};${time};${(value + 1).toFixed(3).replace(".", ",")}`,
        "date;time;kWh",
      ),
      ["decimal"],
      { decimal: "," },
    ],
    [
      "which of two columns",
      long(({ day, time, value }) => `${day},${time},${value},${value}`, "date,time,kWh day,kWh night"),
      ["value"],
      { value: ["kWh day"] },
    ],
    [
      "which of three columns, one for each line, that are not all of one unit",
      long(
        ({ day, time, value }) => `${day},${time},${value},${value},${value}`,
        "date,time,L1 A,L2 A,L3 kW",
      ),
      ["value"],
      { value: ["L1 A"] },
    ],
    [
      "registers",
      long(({ day, time }, index) => `${day},${time},${100 + index}`),
      ["readings"],
      { readings: "register" },
    ],
    [
      "values below zero",
      long(({ day, time, value }, index) => `${day},${time},${index === 5 ? -value : value}`),
      ["negative"],
      { negative: "net" },
    ],
    [
      "which of two meters",
      table(
        "meter id,date,time,kWh",
        ...rows.flatMap(({ day, time, value }) => [
          `a,${day},${time},${value}`,
          `b,${day},${time},${value + 1}`,
        ]),
      ),
      ["meter"],
      { meter: "b" },
    ],
    [
      "the length of one interval",
      table("date,time,kWh", "2026-01-13,00:00,0.2"),
      ["stepS", "labels"].slice(0, 1),
      { stepS: 1800, labels: "start", readings: "interval" },
    ],
    [
      "the clock in summer",
      long(({ day, time, value }) => `${day.replace("-01-", "-07-")},${time},${value}`),
      ["clock"],
      { clock: "utc" },
    ],
    [
      "the clock over autumn alone, written in 48 columns",
      wideByWall(truth("2023-09-30T23:00:00Z", 60 + 1 / 24), LONDON, { spring: "zero", autumn: "sum" }),
      ["clock"],
      { clock: "local" },
    ],
    [
      "the clock of universal time in a building that is off from one to two every night",
      wideByUtc({
        startMs: Date.UTC(2023, 2, 20),
        stepS: 1800,
        values: truth("2023-03-20T00:00:00Z", 14).values.map((value, at) =>
          at % 48 === 2 || at % 48 === 3 ? 0 : value,
        ),
      }),
      ["clock"],
      { clock: "utc" },
    ],
  ];
  it.each(questions)("%s, and nothing else", (_what, text, ids, answer) => {
    const result = imported(text);
    expect(result.state === "questions" && result.questions.map(({ id }) => id)).toEqual(ids);
    expect(imported(text, answer)).toMatchObject({ state: "series" });
  });
  it("all at once, with the answers there are", () => {
    const result = imported(table("Date,Time,x,y", "01/02/2026,17:05,1,2", "01/02/2026,17:06,2,1"));
    expect(result).toMatchObject({
      questions: [
        { id: "value", answers: [{ answer: "x" }, { answer: "y" }] },
        { id: "unit" },
        { id: "dateOrder", answers: [{ answer: "day/month/year" }, { answer: "month/day/year" }] },
      ],
    });
  });
});
