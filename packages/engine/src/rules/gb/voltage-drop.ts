import { cableDrops, voltageDrop as dropAlong, type LoadedCable } from "../../circuits/index.ts";
import { diversifiedDemand } from "../../demand/index.ts";
import { given, type LocatedFact } from "../../job/index.ts";
import { LINES, type Line } from "../../quantities/index.ts";
import type { SupplyCable } from "../../supply/index.ts";
import { isKnown, type Quantity, smallest, step } from "../../worked/index.ts";
import { compare, rule, shownOf, UNITED_KINGDOM } from "../rule.ts";
import type { PointCircuit, Study } from "../study.ts";
import { nodeSubject } from "../subjects.ts";

/** The voltage at the charge point stays near that of the supply. */
export const voltageDrop = rule({
  id: "voltage-drop",
  title: "Voltage drop from the supply terminals to the charge point",
  stage: "size",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    within: "{point}: {drop} drop, {percent}; the limit is {limit}.",
    above:
      "{point}: {drop} drop, {percent}, above {limit}. Use a larger cable, a shorter route, or a lower rated current.",
    unknown: "{point}: record what is missing to work out the voltage drop.",
  },
  judge: (study) => {
    const shared = sharedCables(study);
    const dropOf = cableDrops(study.knowledge.circuits, study.figures);
    return study.circuits.map((circuit) => {
      const { point } = circuit;
      const lines = study.tree.linesAt(point.id);
      const ownFrom = circuit.path.length - circuit.finalCables.length;
      const path = circuit.path.map((cable, index) =>
        index < ownFrom ? shared(cable, lines) : { cable, current: given(point.ratedA, "Ib") },
      );
      const drop = dropAlong(path, lines.length, dropOf);
      const percent = step({
        symbol: "vd",
        label: "voltage drop of nominal",
        unit: "%",
        clause: "voltage-drop",
        formula: "100 * Vd / U0",
        inputs: { Vd: drop, U0: study.u0 },
        compute: ({ Vd, U0 }) => (100 * Vd) / U0,
      });
      const limit = study.figures("voltageDropPercent");
      const length = longestLength(circuit);
      return compare({
        subject: nodeSubject(point, "ratedA"),
        check: { left: percent, relation: "<=", right: limit },
        holds: "within",
        broken: "above",
        unknown: "unknown",
        data: {
          point: point.label,
          drop: shownOf(drop, 2, "up"),
          percent: shownOf(percent, 2, "up"),
          limit: shownOf(limit, 0),
        },
        ...(length && { turnsOn: length }),
      });
    });
  },
});

/** Length of the longest described cable on the way: the one a route could change most. */
function longestLength({ path }: PointCircuit): LocatedFact<number> | undefined {
  const lengths = path.flatMap((cable) => (typeof cable.run === "string" ? [] : [cable.run.lengthM]));
  const metres = (fact: LocatedFact<number>): number => (fact.state === "known" ? fact.value : 0);
  return lengths.length === 0 ? undefined : lengths.reduce((a, b) => (metres(b) > metres(a) ? b : a));
}

/** Cables that feed more than one circuit, each with its current once for every set of lines. */
function sharedCables(study: Study): (cable: SupplyCable, lines: readonly Line[]) => LoadedCable {
  const currentOf = sharedCurrents(study);
  const worked = new Map<string, LoadedCable>();
  return (cable, lines) => {
    const key = `${cable.id} ${lines.join()}`;
    const loaded = worked.get(key) ?? { cable, current: currentOf(cable, lines) };
    worked.set(key, loaded);
    return loaded;
  };
}

/**
 * Current of a cable that feeds more than one circuit: on the most loaded of the given lines the demand of
 * all it feeds after diversity, but no more than the rating of the device ahead carries for long.
 */
function sharedCurrents(study: Study): (cable: SupplyCable, lines: readonly Line[]) => Quantity {
  const demandOn = sharedDemand(study);
  return (cable, lines) => {
    const rating = given(study.deviceAhead(cable.from).overcurrent.ratingA, "In");
    const demands = LINES.filter((line) => cable.lines.includes(line) && lines.includes(line)).map((line) =>
      demandOn(cable, line),
    );
    const known = demands.filter(isKnown);
    if (known.length < demands.length || known[0] === undefined) return rating;
    const worst = known.reduce((most, demand) => (demand.value > most.value ? demand : most), known[0]);
    return smallest(
      { symbol: "I", label: `current in ${cable.name}`, unit: "A", clause: "shared-cable-current" },
      [worst, rating],
    );
  };
}

/** Demand after diversity of all a cable feeds on a line; cables that feed the same ends share its working. */
function sharedDemand({ tree, job, knowledge, figures }: Study) {
  const worked = new Map<string, Quantity>();
  return (cable: SupplyCable, line: Line): Quantity => {
    const ends = tree.endsCarried(cable, line);
    // Ends of one cable stand together in reading order: the first and their number tell which they are.
    const key = `${line} ${ends.length} ${ends[0]?.id}`;
    const demand =
      worked.get(key) ?? diversifiedDemand(ends, job.site.premises, knowledge.demand.allowances, figures);
    worked.set(key, demand);
    return demand;
  };
}
