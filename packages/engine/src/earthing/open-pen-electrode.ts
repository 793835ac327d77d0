/**
 * Potential of the metalwork with a broken supply neutral and an electrode, at the worst unbalance.
 *
 * What a line draws at the moment the neutral breaks is not known: anything from nothing to its most, and the
 * same of what it feeds back. The potential is largest at one of the ends of these ranges, so the ends are tried.
 * Loads are constant resistances; what feeds back is a constant current.
 *
 * Source: [bs7671] Annex A722 for the neutral current; node voltage for the rest.
 *
 * @module
 */
import { isKnown, numberOf, type Quantity, step } from "../worked/index.ts";

export interface OpenPenLine {
  /** The most it draws, everything switched on. [A] */
  readonly load: Quantity;
  /** The most it feeds back. [A] */
  readonly fedBack: Quantity;
}

/** @param idle What a line draws, or feeds back, with everything off. [A] */
export function worstOpenPenPotential(spec: {
  readonly u0: Quantity;
  readonly lines: readonly OpenPenLine[];
  readonly electrode: Quantity;
  readonly idle: Quantity;
}): Quantity {
  const { lines, idle } = spec;
  const atMost = openPenPotentialAt(spec);
  if (!isKnown(atMost)) return atMost;
  const ends = lines.reduce<readonly (readonly OpenPenLine[])[]>(
    (chosen, { load, fedBack }) =>
      chosen.flatMap((before) =>
        [load, idle].flatMap((draws) =>
          [fedBack, idle].map((feeds) => [...before, { load: draws, fedBack: feeds }]),
        ),
      ),
    [[]],
  );
  return ends
    .map((each) => openPenPotentialAt({ ...spec, lines: each }))
    .reduce((worst, at) => (numberOf(at) > numberOf(worst) ? at : worst), atMost);
}

/**
 * The same at given currents, one line or three.
 *
 *     V = IN / (ΣI / U0 + 1 / RE)
 */
export function openPenPotentialAt({
  u0,
  lines,
  electrode,
}: {
  readonly u0: Quantity;
  readonly lines: readonly OpenPenLine[];
  readonly electrode: Quantity;
}): Quantity {
  const [first, second, third] = lines;
  const neutral = {
    symbol: "IN",
    label: "current that has lost its neutral",
    unit: "A",
    clause: "open-pen-electrode",
  };
  const potential = {
    symbol: "V",
    label: "potential of the metalwork with the neutral broken",
    unit: "V",
    clause: "open-pen-electrode",
  };
  if (first === undefined) throw new TypeError("a supply has a line");
  if (second === undefined || third === undefined) {
    const IN = step({
      ...neutral,
      formula: "sqrt((I - G)^2)",
      inputs: { I: first.load, G: first.fedBack },
      compute: ({ I, G }) => Math.abs(I - G),
    });
    return step({
      ...potential,
      formula: "IN / (I / U0 + 1 / RE)",
      inputs: { IN, I: first.load, U0: u0, RE: electrode },
      compute: ({ IN, I, U0, RE }) => IN / (I / U0 + 1 / RE),
    });
  }
  const [I1, I2, I3] = [first.load, second.load, third.load];
  const net = (load: Quantity, fedBack: Quantity) =>
    step({
      ...neutral,
      symbol: "In",
      label: "load less what is fed back on one line",
      formula: "I - G",
      inputs: { I: load, G: fedBack },
      compute: ({ I, G }) => I - G,
    });
  const IN = step({
    ...neutral,
    formula: "sqrt((N1 - (N2 + N3) / 2)^2 + 3 / 4 * (N2 - N3)^2)",
    inputs: {
      N1: net(I1, first.fedBack),
      N2: net(I2, second.fedBack),
      N3: net(I3, third.fedBack),
    },
    compute: ({ N1, N2, N3 }) => Math.sqrt((N1 - (N2 + N3) / 2) ** 2 + (3 / 4) * (N2 - N3) ** 2),
  });
  return step({
    ...potential,
    formula: "IN / ((I1 + I2 + I3) / U0 + 1 / RE)",
    inputs: { IN, I1, I2, I3, U0: u0, RE: electrode },
    compute: ({ IN, I1, I2, I3, U0, RE }) => IN / ((I1 + I2 + I3) / U0 + 1 / RE),
  });
}
