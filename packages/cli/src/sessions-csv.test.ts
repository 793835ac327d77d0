import type { SimulatedSite } from "@underfuse/engine";
import { expect, it } from "vitest";
import { sessionsCsv } from "./sessions-csv.ts";

const told = (from: string | null, id: string): string | undefined =>
  sessionsCsv({
    site: { plan: { cars: [{ id: "another" }, { id }] } },
    terms: { building: { from } },
    outcome: {
      sessions: [
        {
          car: 1,
          startS: 56_799.684_445_826_5,
          untilS: 2 * 86_400 - 0.4,
          wantedKwh: 8.123_456,
          deliveredKwh: 8,
          isFull: false,
        },
      ],
    },
  } as unknown as SimulatedSite).split("\n")[1];

it("gives date and time of day, and no more digits than mean something", () =>
  expect(told("2026-12-31", "estate")).toBe(
    "estate,1,2026-12-31,15:46:40,3,2027-01-02,00:00:00,8.123,8.000,no",
  ));
it("has no date where the days are drawn, and quotes a name that would part columns", () =>
  expect(told(null, 'a "big", red one')).toBe('"a ""big"", red one",1,,15:46:40,3,,00:00:00,8.123,8.000,no'));
