import type { Portfolio } from "@underfuse/engine";
import { describe, expect, it } from "vitest";
import { portfolioPieces } from "./portfolio-work.ts";

const piecesOf = (homes: number, count: number, draws: number) =>
  portfolioPieces({ homes, days: { first: 0, count }, draws } as Portfolio);

describe("portfolioPieces", () => {
  it.each([
    ["a street larger than a piece", 20_000, 3, 2],
    ["a small one", 10, 3, 4],
    ["a year of it", 60, 365, 5],
  ])("have every day of every street once: %s", (_what, homes, count, draws) => {
    const days = piecesOf(homes, count, draws).flatMap(({ draw, fromDay, toDay }) =>
      Array.from({ length: toDay - fromDay }, (_, at) => draw * count + fromDay + at),
    );
    expect(days.toSorted((a, b) => a - b)).toEqual([...new Array(count * draws).keys()]);
  });
  it("are no smaller than is worth sending: a street of ten homes for fifty days", () =>
    expect(piecesOf(10, 365, 1)[0]).toEqual({ draw: 0, fromDay: 0, toDay: 50 }));
});
