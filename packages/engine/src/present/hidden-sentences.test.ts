import { describe, expect, it } from "vitest";
import type { HiddenDemand } from "../through-time/index.ts";
import { hiddenSentences } from "./hidden-sentences.ts";

const peak = (withShortLoadA: number | null) =>
  ({
    certain: { lowA: 20, highA: 600 },
    seen: { lowA: 26, highA: 46 },
    usual: { lowA: 30, middleA: 35, highA: 40 },
    withShortLoadA,
  }) as NonNullable<HiddenDemand["lines"][number]["peak"]>;
const said = (intervalS: number, ...lines: HiddenDemand["lines"]) =>
  hiddenSentences({ intervalS, lines }).map(({ tone, text }) => [tone, text.replaceAll("\u00a0", " ")]);

describe("hiddenSentences", () => {
  it("tells the band that was seen and what arithmetic allows, and passes nothing", () =>
    expect(said(1800, { line: "L1", highestMeanA: 20, peak: peak(null) })).toEqual([
      [
        "unknown",
        expect.stringMatching(
          /^L1: .* means of 30 min, .* mean of 20.0 A stood a minute of 26.0 A to 46.0 A in the one house that was measured by the minute; by arithmetic at most 600.0 A\. /,
        ),
      ],
    ]));
  it("has the shower on top where there is one", () =>
    expect(said(1800, { line: "L1", highestMeanA: 20, peak: peak(86.6) })[0]?.[1]).toContain(
      "up to 86.6 A with the shower of this line on top; by arithmetic",
    ));
  it("gives means of part of a minute their decimal", () =>
    expect(said(90, { line: "L2", highestMeanA: null, peak: null })[0]?.[1]).toContain(
      "means of 1.5 min, which hide its peaks: what the minutes carried cannot be told",
    ));
  it("is silent where nothing is hidden", () => expect(hiddenSentences(null)).toEqual([]));
});
