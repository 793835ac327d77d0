import { describe, expect, it } from "vitest";
import { simulate } from "../simulation/index.ts";
import { plain, usual, viewOf } from "../testing/shown-run.ts";
import { buildingWith, nightly, smallSite } from "../testing/small-site.ts";
import type { SimulatedSite } from "../through-time/index.ts";
import { supplySentences } from "./supply-sentences.ts";

const calm = simulate({ plan: smallSite, habits: [], building: buildingWith(10), days: 1, seed: 1 });
const [line] = calm.lines as readonly [(typeof calm.lines)[number]];
const NOT_OVER = { count: 0, totalS: 0, longestS: 0, aloneS: 0, carS: 0 };
const once = (lengthS: number, aloneS = 0) => ({
  count: 1,
  totalS: lengthS,
  longestS: lengthS,
  aloneS,
  carS: lengthS - aloneS,
});

/** One line that was over as told, cars charging for ten hours. */
function said(over: typeof NOT_OVER, more: Partial<SimulatedSite> = {}, hasFuse = true) {
  const excursions =
    over.count > 0
      ? [{ line: 0, startS: 0, lengthS: over.longestS, aloneS: over.aloneS, carS: over.carS }]
      : [];
  const site = {
    plan: hasFuse ? smallSite : { ...smallSite, fuse: null },
    lines: ["L1"],
    fuseRatingA: 80,
    ungoverned: [],
  } as unknown as SimulatedSite["site"];
  const of = {
    outcome: { ...calm, chargingH: 10, excursions, lines: [{ ...line, over }] },
    site,
    usualS: 15,
    longestS: 60,
    states: [[]],
    hidden: null,
    doubts: [],
    terms: { building: { kind: "recorded" } },
    ...more,
  } as unknown as SimulatedSite;
  return supplySentences(of).map(({ tone, text }) => [tone, text.replaceAll("\u00a0", " ")] as const);
}

describe("a line", () => {
  it.each([
    ["never over", NOT_OVER, "pass"],
    ["over for just the usual time", once(15), "pass"],
    ["for longer than usual", once(16), "unknown"],
    ["for just the longest time", once(60), "unknown"],
    ["for longer than that", once(61), "fail"],
    ["for long, of which the building alone is over for all but the usual time", once(615, 600), "unknown"],
  ])("%s: %s", (_what, over, tone) => expect(said(over)[0]?.[0]).toBe(tone));
  it("is not told where it was over and no curve is held for the fuse", () => {
    expect(said(once(15), {}, false)[0]?.[0]).toBe("unknown");
    expect(said(NOT_OVER, {}, false)[0]?.[0]).toBe("pass");
  });
  it("says how often, in all and at the longest, and what the building is over by itself", () => {
    expect(said({ count: 3, totalS: 90, longestS: 50, aloneS: 0, carS: 90 })[0]?.[1]).toMatch(
      /^L1: over 60 A 3 times, 90 s in all, longest 50 s; highest 10.0 A\.$/,
    );
    expect(said(once(40, 30))[0]?.[1]).toMatch(
      /over 60 A once, .* In 30 s of these the building is over by itself/,
    );
  });
  it.each([
    [[3], "kept the cars off once,"],
    [[3, 2, 3], "kept the cars off 2 times,"],
  ])("tells locks of a limitation scheme apart from events: %j", (states, words) =>
    expect(said(once(61), { states: [states.map((state) => ({ state }))] } as never)[0]?.[1]).toContain(
      words,
    ),
  );
  it("speaks of no lock where there were only events", () =>
    expect(said(once(40), { states: [[{ state: 2 }]] } as never)[0]?.[1]).not.toContain("limitation scheme"));
  it("answers for its own excursions alone", () => {
    const three = {
      outcome: {
        ...calm,
        chargingH: 10,
        excursions: [{ line: 1, startS: 0, lengthS: 61, aloneS: 0, carS: 61 }],
        lines: [
          { ...line, over: NOT_OVER },
          { ...line, over: once(61) },
        ],
      },
      site: { plan: smallSite, lines: ["L1", "L2"], fuseRatingA: 80, ungoverned: [] },
      states: [[], []],
    };
    const tones = said(NOT_OVER, three as never)
      .filter(([, text]) => /^L\d: (never )?over/.test(text))
      .map(([tone]) => tone);
    expect(tones).toEqual(["pass", "fail"]);
  });
});

describe("a cable", () => {
  const withBody = (mostC: number, more: Partial<SimulatedSite> = {}, id = "tails") =>
    said(NOT_OVER, {
      outcome: { ...calm, bodies: [{ id, line: 0, mostC, limitC: 70, minute: 1 }] },
      ...more,
    }).at(-1);
  it.each([
    [70, "pass", "tails: at most 70 °C of 70 °C."],
    [70.1, "fail", "tails: at most 71 °C of 70 °C."],
  ])("of %d °C: %s, rounded up", (mostC, tone, text) => expect(withBody(mostC)).toEqual([tone, text]));
  it("passes nothing in doubt where it carries the supply, and passes where it carries a car alone", () => {
    const doubts = ["means" as const];
    expect(withBody(50, { doubts })?.[0]).toBe("unknown");
    expect(withBody(50, { doubts }, "cable of the car")?.[0]).toBe("pass");
  });
});

it("passes neither the line nor the fuse in doubt", () =>
  expect(said(NOT_OVER, { doubts: ["means"] }).map(([tone]) => tone)).not.toContain("pass"));

describe("what was sent out", () => {
  const sunny = buildingWith(10, { fromH: 10, untilH: 15, currentA: -70 });
  it("does not pass where it is more than the limit, nor where the main fuse is smaller", () => {
    const [line, fuse] = viewOf(smallSite, sunny).supply;
    expect(line?.tone).toBe("unknown");
    expect(plain(line?.text ?? "")).toContain("Up to 70.0 A were sent out, which is more than that as well");
    expect(fuse?.tone).toBe("unknown");
    expect(plain(fuse?.text ?? "")).toContain(
      "up to 70.0 A were sent out, more than the rating of the main fuse",
    );
  });
  it("operates the main fuse as what is taken in does", () => {
    const strong = buildingWith(10, { fromH: 10, untilH: 15, currentA: -100 });
    expect(viewOf(smallSite, strong).supply[1]).toMatchObject({ tone: "fail" });
  });
});

describe("many short excursions", () => {
  it("do not pass where they take more than a hundredth of the time cars charge", () => {
    const outcome = simulate({ plan: smallSite, habits: [nightly], building: usual, days: 1, seed: 1 });
    const [line] = outcome.lines as readonly [(typeof outcome.lines)[number]];
    const said = (totalS: number) =>
      viewOf(smallSite, usual, [], {
        outcome: {
          ...outcome,
          chargingH: 1,
          lines: [{ ...line, over: { count: 9, totalS, longestS: 4, aloneS: 0, carS: totalS } }],
        },
      }).supply[0];
    expect(said(36)?.tone).toBe("pass");
    expect(said(37)?.tone).toBe("unknown");
    expect(plain(said(37)?.text ?? "")).toContain("more than 1 % of the time they charge");
  });
});

describe("a building that is over by itself", () => {
  it.each([
    [9, "A car drew for 9 s while the line was over."],
    [0, "No car drew while the line was over."],
  ])("is told apart from the %s s in which a car drew as well", (carS, said) => {
    const outcome = simulate({ plan: smallSite, habits: [nightly], building: usual, days: 1, seed: 1 });
    const [line] = outcome.lines as readonly [(typeof outcome.lines)[number]];
    const over = { count: 1, totalS: 900, longestS: 900, aloneS: 900, carS };
    const [told] = viewOf(smallSite, usual, [], {
      outcome: { ...outcome, lines: [{ ...line, over }] },
    }).supply;
    expect(told?.tone).toBe("unknown");
    expect(plain(told?.text ?? "")).toContain(`no load manager can help that. ${said}`);
  });
});

describe("days that were drawn", () => {
  it.each([
    ["a recording", { kind: "recorded" as const }, "pass", "in these days;"],
    [
      "a recording with a load drawn on top",
      { kind: "recorded" as const, adds: ["Shower"] },
      "unknown",
      "drawn in part",
    ],
    ["a building drawn at random", { kind: "drawn" as const }, "unknown", "in these days, drawn; highest"],
    [
      "a recording that lacks a load",
      { kind: "recorded" as const, lacks: ["Heat pump"] },
      "unknown",
      "never over",
    ],
  ])("pass nothing about the supply: %s", (_what, changed, tone, words) => {
    const calm = buildingWith(10);
    const building = { ...calm, days: 7, intervalS: 60, from: "2026-11-01", lacks: [], ...changed };
    const terms = { building, days: 1, seed: 1, triesFaults: true, designedFallbackA: null };
    const { supply } = viewOf(smallSite, calm, [], { terms });
    const line = supply.find(({ text }) => text.startsWith("L1"));
    expect([line?.tone, line?.text]).toEqual([tone, expect.stringContaining(words)]);
    expect(supply[0]?.text.includes("Nothing about the supply passes here")).toBe(tone !== "pass");
  });
});
