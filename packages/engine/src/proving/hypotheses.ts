import { faultyChain } from "./apply-faults.ts";
import type { ChainDesign } from "./chain-design.ts";
import { designedFault, type Shares, shareOf } from "./designed-prior.ts";
import type { Fault, FaultOf } from "./fault.ts";
import { ModelRegister, type RegisteredModel } from "./model-register.ts";
import { type ObservationModel, observationModel } from "./observation-model.ts";
import { canBePaired, type FaultWeights, type PossibleFault, possibleFaults } from "./possible-faults.ts";

/** A way the chain could be: no fault, one, or two; with how likely it was before any reading. */
export interface Hypothesis {
  readonly faults: readonly PossibleFault[];
  readonly logPrior: number;
  readonly model: ObservationModel;
  /** The same for all hypotheses whose models show the same while the car takes nothing. */
  readonly idle: number;
  /** The decoding fault among them, which is taken out of the readings and not put into the model. */
  readonly decoding: FaultOf<"F58" | "F59" | "F60"> | null;
}

/** Shares of belief before any reading: no fault, one fault, two, something else. Own judgement. */
export const PRIOR = { sound: 0.35, single: 0.37, pair: 0.27, other: 0.01 };

/**
 * Every hypothesis for a chain of this design. Made once; the readings are weighed against all of them.
 *
 * What a design misses by itself is expected of the chain, and still named as a fault of it.
 */
export function hypotheses(design: ChainDesign, weights: FaultWeights): readonly Hypothesis[] {
  const modelOf = modelMaker(design);
  const possible = possibleFaults(design, weights);
  const total = possible.reduce((sum, { weight }) => sum + weight, 0);
  const pairs: (readonly [PossibleFault, PossibleFault])[] = [];
  let pairTotal = 0;
  possible.forEach((a, i) => {
    for (const b of possible.slice(i + 1)) {
      if (!canBePaired(a.fault, b.fault)) continue;
      pairs.push([a, b]);
      pairTotal += a.weight * b.weight;
    }
  });
  const designed = designedFault(possible, design.places);
  const shares: Shares = {
    sound: PRIOR.sound,
    single: ({ weight }) => (PRIOR.single * weight) / total,
    pair: (a, b) => (PRIOR.pair * a.weight * b.weight) / pairTotal,
  };
  const hypothesis = (faults: readonly PossibleFault[]): Hypothesis => ({
    faults,
    logPrior: Math.log(shareOf(faults, designed, shares)),
    decoding: faults.map(({ fault }) => fault).find(isUndone) ?? null,
    ...modelOf(faults.filter(({ fault }) => !isUndone(fault))),
  });
  const singles = possible.map((item) => hypothesis([item]));
  return [hypothesis([]), ...singles, ...neighbourly(pairs.map((pair) => hypothesis(pair)))];
}

/** Puts those that read alike in a first step, the car idle, one behind another; faults of decoding stay together. */
const neighbourly = (some: readonly Hypothesis[]): readonly Hypothesis[] =>
  grouped(some, ({ decoding }) => decoding).flatMap((those) => grouped(those, ({ idle }) => idle).flat());

function grouped<Key>(some: readonly Hypothesis[], keyOf: (one: Hypothesis) => Key): readonly Hypothesis[][] {
  const groups = new Map<Key, Hypothesis[]>();
  for (const one of some) {
    const group = groups.get(keyOf(one));
    if (group === undefined) groups.set(keyOf(one), [one]);
    else group.push(one);
  }
  return [...groups.values()];
}

const isUndone = (fault: Fault): fault is FaultOf<"F58" | "F59" | "F60"> =>
  fault.id === "F58" || fault.id === "F59" || fault.id === "F60";

function modelMaker(design: ChainDesign): (faults: readonly PossibleFault[]) => RegisteredModel {
  const register = new ModelRegister();
  const single = new Map<PossibleFault, RegisteredModel>();
  const make = (faults: readonly PossibleFault[]): RegisteredModel =>
    register.of(
      observationModel(
        faultyChain(
          design.lines,
          // A loose terminal is not in the chain but between steps: see LinearFilter's place for it.
          faults.map(({ fault }) => fault).filter(({ id }) => id !== "F39"),
        ),
        faults,
        design,
      ),
    );
  const sound = make([]);
  return (faults) => {
    const [first, second] = faults;
    if (first === undefined) return sound;
    if (second !== undefined) return make(faults);
    const known = single.get(first) ?? make(faults);
    single.set(first, known);
    return known;
  };
}
