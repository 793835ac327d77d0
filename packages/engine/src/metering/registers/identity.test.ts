import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { EngineError } from "../../quantities/index.ts";
import { type ChannelNumbers, checkIdentities, type IdentityLimits } from "./identity.ts";

const LIMITS: IdentityLimits = { toleranceRatio: 0.05, leastVa: 200, voltageV: [216, 253], mostA: 100 };
/** 16 A at 230 V and 0.8 lagging. */
const SOUND: ChannelNumbers = { V: 230, I: 16, P: 2944, Q: 2208, S: 3680, PF: 0.8 };
const times = (factor: number, ...names: (keyof ChannelNumbers)[]): ChannelNumbers => ({
  ...SOUND,
  ...Object.fromEntries(names.map((name) => [name, (SOUND[name] ?? 0) * factor])),
});

describe(checkIdentities, () => {
  it("a sound channel agrees, whatever its signs", () => {
    expect(checkIdentities(SOUND, LIMITS).state).toBe("agrees");
    expect(checkIdentities({ ...SOUND, P: -2944, Q: -2208, PF: -0.8 }, LIMITS).state).toBe("agrees");
  });
  it.each(["V", "I", "P", "Q", "S", "PF"] as const)("names %s as the odd one, by each factor", (name) => {
    for (const factor of [1000, 0.001, 10, 0.1, 100, 65_536]) {
      const { state, odd, words } = checkIdentities(times(factor, name), LIMITS);
      expect(["odd-one", "cannot-tell"], `${factor}`).toContain(state);
      expect(odd.find(({ names }) => names.join() === name)?.factors, `${factor}`).toContain(factor);
      expect(words.join(" ")).toContain(`${name} is `);
    }
  });
  it.each(["V", "P", "Q", "PF"] as const)("%s alone explains it", (name) => {
    const { state, odd } = checkIdentities(times(1000, name), LIMITS);
    expect(state).toBe("odd-one");
    expect(odd).toEqual([{ names: [name], factors: [1000] }]);
  });
  it("says it in words, with what fits", () => {
    expect(checkIdentities(times(1000, "P"), LIMITS).words).toEqual([
      "P = V · I · PF fails: 2944000 against 2944 W.",
      "S² = P² + Q² fails: 3680 against 2944000 VA.",
      "P = S · PF fails: 2944000 against 2944 W.",
      "P is read 1000 times too large: P shows 2944000 W where 2944 W fits the rest. Check its scale and unit in the map.",
    ]);
    expect(checkIdentities(times(0.001, "Q"), LIMITS).words.at(-1)).toContain("1000 times too small");
    expect(checkIdentities(times(65_536, "P"), LIMITS).words.at(-1)).toContain("registers are exchanged");
    expect(checkIdentities(times(100, "PF"), LIMITS).words.at(-1)).toContain(
      "PF is read 100 times too large",
    );
  });
  it("powers in kilowatts: all three, or the current; which, the greatest current tells", () => {
    const kilo = times(0.001, "P", "Q", "S");
    const open = checkIdentities(kilo, { ...LIMITS, mostA: null });
    expect(open.state).toBe("cannot-tell");
    expect(open.odd).toEqual([
      { names: ["I"], factors: [1000] },
      { names: ["P", "Q", "S"], factors: [0.001] },
    ]);
    expect(open.words.join(" ")).toMatch(/Either: I is .* Or: P, Q and S are/);
    // 16 000 A shown is impossible, 0.016 A is not.
    const tooMuch = checkIdentities(times(1000, "I"), { ...LIMITS, mostA: null });
    expect(tooMuch.state).toBe("cannot-tell");
    expect(checkIdentities(times(1000, "I"), LIMITS)).toMatchObject({
      state: "odd-one",
      odd: [{ names: ["I"], factors: [1000] }],
    });
  });
  it("P and Q in kilo-units, S not", () => {
    expect(checkIdentities(times(0.001, "P", "Q"), LIMITS)).toMatchObject({
      state: "odd-one",
      odd: [{ names: ["P", "Q"], factors: [0.001] }],
    });
  });
  it("knows that Q is odd, and by how much only at a load that has some", () => {
    const { state, odd, words } = checkIdentities(
      { V: 230, I: 16, P: 3680, Q: 500_000, S: 3680, PF: 1 },
      LIMITS,
    );
    expect(state).toBe("odd-one");
    expect(odd[0]?.names).toEqual(["Q"]);
    expect(odd[0]?.factors.length).toBeGreaterThan(1);
    expect(words.at(-1)).toContain("cannot be told at this load");
  });
  it("does without S, and without the voltage's range says what else it might be", () => {
    const { S, ...rest } = times(1000, "P");
    expect(checkIdentities({ ...rest, S: null }, LIMITS).odd).toEqual([{ names: ["P"], factors: [1000] }]);
    const few = checkIdentities(
      { V: 230, I: 16, P: 2_944_000, Q: null, S: null, PF: 0.8 },
      { ...LIMITS, voltageV: null, mostA: null },
    );
    expect(few.odd).toEqual([
      { names: ["V"], factors: [0.001] },
      { names: ["I"], factors: [0.001] },
      { names: ["P"], factors: [1000] },
    ]);
  });
  it("a disagreement that is no factor is said to be none", () => {
    const { state, odd, words } = checkIdentities({ ...SOUND, P: 2944 * 1.7 }, LIMITS);
    expect([state, odd]).toEqual(["cannot-tell", []]);
    expect(words.at(-1)).toContain("No single factor");
  });
  it("sits on its tolerance", () => {
    const just = { V: 200, I: 10, P: 1900, Q: null, S: null, PF: 1 };
    const limits = { ...LIMITS, voltageV: null };
    expect(checkIdentities(just, { ...limits, toleranceRatio: 0.05 }).state).toBe("agrees");
    expect(checkIdentities(just, { ...limits, toleranceRatio: 0.0499 }).state).toBe("cannot-tell");
  });
  it("concludes nothing from too little load or too few quantities", () => {
    const idle = checkIdentities({ V: 230, I: 0.1, P: 3, Q: 1, S: 5, PF: 0.2 }, LIMITS);
    expect(idle).toMatchObject({ state: "not-checked", odd: [] });
    expect(idle.words[0]).toContain("at least 200 VA");
    const none = { V: 230, I: 16, P: null, Q: null, S: null, PF: null };
    expect(checkIdentities(none, LIMITS).state).toBe("not-checked");
    expect(checkIdentities({ ...none, P: Number.NaN, PF: 1 }, LIMITS).state).toBe("not-checked");
  });
  it("any sound channel agrees; one factor on one quantity is among the explanations", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 217, max: 252, noNaN: true }),
        fc.double({ min: 2, max: 80, noNaN: true }),
        fc.double({ min: 0.3, max: 0.95, noNaN: true }),
        fc.constantFrom("P" as const, "Q" as const, "S" as const, "I" as const, "V" as const),
        fc.constantFrom(10, 100, 1000, 0.1, 0.001, 65_536),
        (V, I, PF, name, factor) => {
          const S = V * I;
          const sound = { V, I, PF, S, P: S * PF, Q: S * Math.sqrt(1 - PF * PF) };
          expect(checkIdentities(sound, LIMITS).state).toBe("agrees");
          const { state, odd } = checkIdentities({ ...sound, [name]: sound[name] * factor }, LIMITS);
          // A Q that is small beside P may shrink unseen.
          if (state === "agrees") expect([name, factor < 1]).toEqual(["Q", true]);
          else
            expect(odd.some((each) => each.names.join() === name && each.factors.includes(factor))).toBe(
              true,
            );
        },
      ),
    );
  });
  it("takes any numbers, and refuses only limits that are none", () => {
    const any = fc.option(fc.double());
    fc.assert(
      fc.property(fc.record({ V: any, I: any, P: any, Q: any, S: any, PF: any }), (channel) => {
        expect(checkIdentities(channel, LIMITS).words.length).toBeGreaterThan(0);
      }),
    );
    for (const wrong of [
      { toleranceRatio: -0.1 },
      { toleranceRatio: Number.NaN },
      { leastVa: -1 },
      { voltageV: [253, 216] as const },
      { mostA: Number.NaN },
    ])
      expect(() => checkIdentities(SOUND, { ...LIMITS, ...wrong })).toThrow(EngineError);
  });
});
