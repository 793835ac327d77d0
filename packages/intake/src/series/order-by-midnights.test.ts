import { describe, expect, it } from "vitest";
import { concluded, imported } from "../testing/imported.ts";

const STATED = { unit: "A", labels: "start", clock: "utc" } as const;
const minutes = (first: string, second: string): readonly string[] => [
  `${first},23:57,1`,
  `${first},23:58,1`,
  `${first},23:59,1`,
  `${second},00:00,2`,
  `${second},00:01,2`,
];
const read = (rows: readonly string[], stated: object = STATED) =>
  imported(["Date,Time,I", ...rows, ""].join("\n"), stated);

describe("rows that run on over midnight", () => {
  it.each([
    ["03.11.2025", "04.11.2025", "dates as day, month, year", "2025-11-03T23:57:00.000Z"],
    ["11/03/2025", "11/04/2025", "dates as month, day, year", "2025-11-03T23:57:00.000Z"],
    ["1/2/2025", "2/2/2025", "dates as day, month, year", "2025-02-01T23:57:00.000Z"],
  ])("%s and %s: %s, quoted as the file writes them", (first, second, says, startUtc) => {
    const result = read(minutes(first, second));
    const conclusion = result.conclusions.find(({ id }) => id === "dateOrder");
    expect(conclusion).toMatchObject({
      says,
      because: `line 5: 00:00 on ${second} runs on from 23:59 on ${first}`,
      basis: "seen",
    });
    expect(result.state === "series" && new Date(result.series.startMs).toISOString()).toBe(startUtc);
  });
  it("tell the same from the end to the beginning", () =>
    expect(concluded(read(minutes("03.11.2025", "04.11.2025").toReversed()), "dateOrder")).toBe(
      "dates as day, month, year",
    ));
  it("give way to what is stated", () =>
    expect(
      concluded(
        read(minutes("03/11/2025", "04/11/2025"), { ...STATED, dateOrder: "month/day/year" }),
        "dateOrder",
      ),
    ).toBe("dates as month, day, year"));
  it.each([
    ["a minute that is missing", minutes("03/11/2025", "04/11/2025").filter((row) => !row.includes("00:00"))],
    ["days that are not neighbours", minutes("03/11/2025", "05/12/2025")],
    [
      "both orders in one file",
      [...minutes("03/11/2025", "04/11/2025"), ...minutes("05/11/2025", "05/12/2025")],
    ],
    ["one day", minutes("03/11/2025", "03/11/2025").slice(0, 3)],
  ])("do not tell by %s: it is asked", (_what, rows) =>
    expect(read(rows)).toMatchObject({ state: "questions", questions: [{ id: "dateOrder" }] }),
  );
});

it.each([
  ["13/01/2025", "13/01/2025"],
  ["13.1.2025", "13.1.2025"],
  ["13-01-25", "13-01-25"],
])("%s is quoted as it stands", (date, quoted) => {
  const because = read([`${date},00:00,1`, `${date},00:01,1`]).conclusions.find(
    ({ id }) => id === "dateOrder",
  );
  expect(because?.because).toBe(`line 2: ${quoted} has no other reading`);
});

it("a day that does not exist is quoted as the file writes days", () => {
  const result = read(["13/01/2025,00:00,1", "31/02/2025,00:00,1"]);
  expect(result).toMatchObject({ state: "refused", problems: [{ found: "31/02/2025", line: 3 }] });
});
