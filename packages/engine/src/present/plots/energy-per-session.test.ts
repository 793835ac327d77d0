import { describe, expect, it } from "vitest";
import { energyPerSession } from "./energy-per-session.ts";

const plain = (words: string): string => words.replaceAll("\u00a0", " ");
const NAMES = { id: "energy", title: "Energy", names: null };

describe("energy of each session", () => {
  it("says what was wanted, delivered and lacking", () => {
    const { text, svg } = energyPerSession({
      ...NAMES,
      wantedKwh: [10, 20, 0, Number.NaN, 8],
      deliveredKwh: [10, 13, 0, 5, 9],
    });
    expect(text.sentences.map(plain)).toEqual([
      "4 sessions wanted 38.0 kWh and got 32.0 kWh.",
      "All that was wanted: 2 of 3 sessions.",
      "The least is 65.0 %, in session 2, which lacks 7.0 kWh.",
      "Wanted nothing, and so without a share: 1.",
      "Left out, one figure or both not known: 1.",
    ]);
    expect(text.table?.rows.map((row) => row.map(plain))).toEqual([
      ["1", "10.0 kWh", "10.0 kWh", "100.0 %"],
      ["2", "20.0 kWh", "13.0 kWh", "65.0 %"],
      ["3", "0.0 kWh", "0.0 kWh", "–"],
      ["5", "8.0 kWh", "9.0 kWh", "100.0 %"],
    ]);
    // Hatched in the legend, and where session 2 lacks something.
    expect(svg.match(/stroke-width="0.8"\/>/g)?.length).toBe(2 + 4);
  });

  it("rounds no session up to all that it wanted", () => {
    const { text } = energyPerSession({ ...NAMES, wantedKwh: [10], deliveredKwh: [9.9999] });
    expect(text.sentences.map(plain)[2]).toContain("99.9 %");
    const whole = energyPerSession({ ...NAMES, wantedKwh: [0.3], deliveredKwh: [0.1 + 0.2 - 1e-13] });
    expect(whole.text.sentences).toContain("None lacks energy.");
  });

  it("uses the names it is given", () => {
    const { text, svg } = energyPerSession({
      ...NAMES,
      wantedKwh: [5],
      deliveredKwh: [4],
      names: ["Monday night"],
    });
    expect(text.sentences[2]).toContain("in session Monday night");
    expect(svg).toContain(">Monday night<");
  });

  it("beyond twenty sessions tells them in tens, every one counted once", () => {
    const wantedKwh = Array.from({ length: 21 }, () => 10);
    const deliveredKwh = wantedKwh.map((_, index) => (index === 4 ? 8 : 10));
    const { text } = energyPerSession({ ...NAMES, wantedKwh, deliveredKwh });
    expect(text.table?.head).toEqual(["Sessions", "Wanted", "Delivered", "Got all they wanted"]);
    expect(text.table?.rows.map((row) => row.map(plain))).toEqual([
      ["1 to 10", "100.0 kWh", "98.0 kWh", "9 of 10"],
      ["11 to 20", "100.0 kWh", "100.0 kWh", "10 of 10"],
      ["21", "10.0 kWh", "10.0 kWh", "1 of 1"],
    ]);
    const twenty = { wantedKwh: wantedKwh.slice(1), deliveredKwh: deliveredKwh.slice(1) };
    expect(energyPerSession({ ...NAMES, ...twenty }).text.table?.rows).toHaveLength(20);
  });

  it("beyond sixty sessions shows how many got at least so much", () => {
    const wantedKwh = Array.from({ length: 100 }, () => 10);
    const deliveredKwh = wantedKwh.map((_, index) => (index < 25 ? 5 : index < 50 ? 9.2 : 10));
    const { text, svg } = energyPerSession({ ...NAMES, wantedKwh, deliveredKwh });
    expect(text.table?.rows.map((row) => row.map(plain))).toEqual([
      ["20 %", "100.0 %"],
      ["50 %", "100.0 %"],
      ["80 %", "75.0 %"],
      ["90 %", "75.0 %"],
      ["95 %", "50.0 %"],
      ["100 %", "50.0 %"],
    ]);
    const curve = /d="(M[^"Z]*)" stroke-width="1.8"/.exec(svg)?.[1] ?? "";
    const ys = [...new Set([...curve.matchAll(/[ML][\d.]+ ([\d.]+)/g)].map((match) => Number(match[1])))];
    const [all = 0, most = 0, half = 0] = ys;
    // All, three quarters, half of a field of 170 px.
    expect(ys).toHaveLength(3);
    expect(Math.abs(most - all - 170 / 4)).toBeLessThan(0.11);
    expect(Math.abs(half - all - 170 / 2)).toBeLessThan(0.11);
  });
});
