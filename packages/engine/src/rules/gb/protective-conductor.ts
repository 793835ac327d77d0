import {
  adiabaticSize,
  adiabaticSizeFromEnergy,
  type CableRun,
  earthFaultCurrent,
  earthFaultLoop,
  protectiveConstant,
} from "../../circuits/index.ts";
import { protectiveSizeByTable } from "../../earthing/index.ts";
import { chosenRow, given, missing } from "../../job/index.ts";
import { clearingTime, type Device, isMiniatureBreaker, letThroughA2s } from "../../protection/index.ts";
import type { SupplyCable } from "../../supply/index.ts";
import { decide, isKnown, numberOf, type Quantity } from "../../worked/index.ts";
import type { Knowledge } from "../knowledge.ts";
import { cannotTell, compare, type Judgement, rule, shownOf, UNITED_KINGDOM } from "../rule.ts";
import type { PointCircuit, Protected, Study } from "../study.ts";
import { cableSubject, undescribed } from "../subjects.ts";

type Message = "byTable" | "adiabatic" | "tooSmall" | "unknown" | "absent" | "notSurveyed";

/** The protective conductor of every cable on the way to a charge point stands a fault until it is cleared. */
export const protectiveConductor = rule<Message>({
  id: "protective-conductor",
  title: "The protective conductor (CPC) is large enough",
  stage: "size",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    byTable: "{cable}: {size}; the table asks for {least}.",
    adiabatic:
      "{cable}: {size}; {least} is enough for the energy (I²t) of a fault, though the table alone would ask for more.",
    tooSmall: "{cable}: {size} is less than the {least} a fault asks for. Use a larger protective conductor.",
    unknown: "{cable}: record what is missing to judge the protective conductor.",
    absent: "{cable} has no protective conductor. Provide one.",
    notSurveyed: "{cable} has not been described.",
  },
  judge: (study) => {
    const loops = loopsByEnd(study);
    return [...circuitsByCable(study)].map(([cable, circuits]) => judgeCable(study, cable, circuits, loops));
  },
});

/** Every cable an earth fault at a charge point passes, with the circuits through it. */
function circuitsByCable({ circuits }: Study): ReadonlyMap<SupplyCable, readonly PointCircuit[]> {
  const through = new Map<string, { cable: SupplyCable; circuits: PointCircuit[] }>();
  for (const circuit of circuits) {
    for (const cable of circuit.earthPath) {
      if (cable.run === "busbar") continue;
      const entry = through.get(cable.id) ?? { cable, circuits: [] };
      entry.circuits.push(circuit);
      through.set(cable.id, entry);
    }
  }
  return new Map([...through.values()].map(({ cable, circuits }) => [cable, circuits]));
}

function judgeCable(
  study: Study,
  cable: SupplyCable,
  circuits: readonly PointCircuit[],
  loops: LoopOf,
): Judgement<Message> {
  const subject = cableSubject(cable, "protective.mm2");
  const name = { cable: cable.name };
  const { run } = cable;
  if (typeof run === "string") {
    return cannotTell(subject, "notSurveyed", undescribed(cable).missing, { data: name });
  }
  const { form, mm2 } = run.protective;
  if (form.state !== "known") return cannotTell(subject, "unknown", [missing(form)], { data: name });
  if (form.value === "none") return { subject, verdict: "fail", message: "absent", data: name };
  const size = given(mm2, "S");
  const byTable = protectiveSizeByTable(run.lineMm2);
  const tableCheck = { left: size, relation: ">=", right: byTable } as const;
  const data = (least: Quantity) => ({
    ...name,
    size: shownOf(size, 1, "down"),
    least: shownOf(least, 2, "up"),
  });
  if (form.value !== "armour" && decide(tableCheck).state === "holds") {
    return compare({
      subject,
      check: tableCheck,
      holds: "byTable",
      broken: "tooSmall",
      unknown: "unknown",
      data: data(byTable),
      turnsOn: mm2,
    });
  }
  const adiabatic = leastAdiabatic(study, run, study.deviceAhead(cable.from), circuits, loops);
  return compare({
    subject,
    check: { left: size, relation: ">=", right: adiabatic },
    holds: "adiabatic",
    broken: "tooSmall",
    unknown: "unknown",
    data: data(adiabatic),
    turnsOn: mm2,
  });
}

/**
 * A breaker lets most energy through at a fault close to it, so the energy of its limiting class decides; a fuse
 * at the least current, at the far end of what it protects.
 */
function leastAdiabatic(
  { knowledge, figures, u0 }: Study,
  run: CableRun,
  guard: Protected,
  circuits: readonly PointCircuit[],
  loops: LoopOf,
): Quantity {
  const device = guard.overcurrent;
  const k = protectiveConstant(run, knowledge.circuits);
  if (isMiniatureBreaker(device)) return adiabaticSizeFromEnergy(letThrough(device, knowledge), k);
  const worst = circuits
    .map((circuit) => loops(circuit, guard))
    .reduce((most, loop) => (isKnown(most) && !(numberOf(loop) <= numberOf(most)) ? loop : most));
  const current = earthFaultCurrent(worst, u0, figures);
  if (!isKnown(current)) return adiabaticSize(current, current, k);
  return adiabaticSize(
    current,
    clearingTime(device, current, knowledge.protection, knowledge.protection.fuseGates.citation),
    k,
  );
}

/** Loop impedance at the far end of what a device protects on the way to a charge point. */
type LoopOf = (circuit: PointCircuit, guard: Protected) => Quantity;

function loopsByEnd({ deviceAhead, externalImpedance, loops }: Study): LoopOf {
  const worked = new Map<string, Quantity>();
  return ({ earthPath }, guard) => {
    const end = earthPath.findLastIndex(({ from }) => deviceAhead(from).id === guard.id);
    const id = earthPath[end]?.id ?? "";
    const loop =
      worked.get(id) ?? earthFaultLoop(externalImpedance, earthPath.slice(0, end + 1), "hot", loops);
    worked.set(id, loop);
    return loop;
  };
}

function letThrough(device: Device, knowledge: Knowledge): Quantity {
  return chosenRow(
    { symbol: "E", label: "greatest energy the breaker lets through", unit: "A²s" },
    {
      standard: device.standard,
      curve: device.curve,
      ratingA: device.ratingA,
      breakingCapacityKa: device.breakingCapacityKa,
    },
    () => {
      const value = letThroughA2s(device, knowledge.protection);
      return value === undefined ? undefined : { value, citation: knowledge.protection.letThrough.citation };
    },
  );
}
