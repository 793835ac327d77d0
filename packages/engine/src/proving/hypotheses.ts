import { faultyChain } from "./apply-faults.ts";
import type { ChainDesign } from "./chain-design.ts";
import type { Fault, FaultOf } from "./fault.ts";
import { type ObservationModel, observationModel } from "./observation-model.ts";
import { canBePaired, type FaultWeights, type PossibleFault, possibleFaults } from "./possible-faults.ts";

/** A way the chain could be: no fault, one, or two; with how likely it was before any reading. */
export interface Hypothesis {
  readonly faults: readonly PossibleFault[];
  readonly logPrior: number;
  readonly model: ObservationModel;
  /** The decoding fault among them, which is taken out of the readings and not put into the model. */
  readonly decoding: FaultOf<"F58" | "F59" | "F60"> | null;
}

/** Shares of belief before any reading: no fault, one fault, two, something else. Own judgement. */
export const PRIOR = { sound: 0.35, single: 0.37, pair: 0.27, other: 0.01 };

/** Every hypothesis for a chain of this design. Made once; the readings are weighed against all of them. */
export function hypotheses(design: ChainDesign, weights: FaultWeights): readonly Hypothesis[] {
  const modelOf = modelMaker(design);
  const hypothesis = (faults: readonly PossibleFault[], logPrior: number): Hypothesis => ({
    faults,
    logPrior,
    decoding: faults.map(({ fault }) => fault).find(isUndone) ?? null,
    model: modelOf(faults.filter(({ fault }) => !isUndone(fault))),
  });
  const possible = possibleFaults(design, weights);
  const all: Hypothesis[] = [hypothesis([], Math.log(PRIOR.sound))];
  const total = possible.reduce((sum, { weight }) => sum + weight, 0);
  for (const item of possible) all.push(hypothesis([item], Math.log((PRIOR.single * item.weight) / total)));
  const pairs: [PossibleFault, PossibleFault][] = [];
  let pairTotal = 0;
  possible.forEach((a, i) => {
    for (const b of possible.slice(i + 1)) {
      if (!canBePaired(a.fault, b.fault)) continue;
      pairs.push([a, b]);
      pairTotal += a.weight * b.weight;
    }
  });
  for (const pair of pairs)
    all.push(hypothesis(pair, Math.log((PRIOR.pair * pair[0].weight * pair[1].weight) / pairTotal)));
  return all;
}

const isUndone = (fault: Fault): fault is FaultOf<"F58" | "F59" | "F60"> =>
  fault.id === "F58" || fault.id === "F59" || fault.id === "F60";

function modelMaker(design: ChainDesign): (faults: readonly PossibleFault[]) => ObservationModel {
  const single = new Map<PossibleFault, ObservationModel>();
  const make = (faults: readonly PossibleFault[]): ObservationModel =>
    observationModel(
      faultyChain(
        design.lines,
        // A loose terminal is not in the chain but between steps: see LinearFilter's place for it.
        faults.map(({ fault }) => fault).filter(({ id }) => id !== "F39"),
      ),
      faults,
      design,
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
