import {
  adiabaticSize,
  adiabaticSizeFromEnergy,
  earthFaultCurrent,
  earthFaultLoop,
  protectiveConstant,
} from "../../circuits/index.ts";
import { protectiveSizeByTable } from "../../earthing/index.ts";
import { chosenRow, given, missing } from "../../job/index.ts";
import { clearingTime, type Device, letThroughA2s } from "../../protection/index.ts";
import type { SupplyCable } from "../../supply/index.ts";
import { decide, isKnown, type Quantity } from "../../worked/index.ts";
import { cannotTell, compare, type Judgement, rule, shownOf, UNITED_KINGDOM } from "../rule.ts";
import type { PointCircuit, Study } from "../study.ts";
import { cableSubject, undescribed } from "../subjects.ts";

type Message = "byTable" | "adiabatic" | "tooSmall" | "unknown" | "absent" | "notSurveyed";

/** The protective conductor of the final circuit stands a fault until it is cleared. */
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
    const seen = new Set<string>();
    return study.circuits.flatMap((circuit) =>
      circuit.finalCables
        .filter((cable) => cable.run !== "busbar" && !seen.has(cable.id) && seen.add(cable.id))
        .map((cable) => judgeCable(study, circuit, cable)),
    );
  },
});

function judgeCable(study: Study, circuit: PointCircuit, cable: SupplyCable): Judgement<Message> {
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
  const adiabatic = leastAdiabatic(study, circuit, cable);
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

/** From the energy a breaker lets through where that is printed; otherwise from current and time. */
function leastAdiabatic(study: Study, circuit: PointCircuit, cable: SupplyCable): Quantity {
  const { knowledge, figures, externalImpedance, u0 } = study;
  const device = circuit.protectedBy.overcurrent;
  if (typeof cable.run === "string") throw new TypeError("a described cable is expected");
  const k = protectiveConstant(cable.run, knowledge.circuits);
  const energy = letThrough(device, study);
  if (isKnown(energy)) return adiabaticSizeFromEnergy(energy, k);
  const zs = earthFaultLoop(externalImpedance, circuit.earthPath, "hot", knowledge.circuits, figures);
  const current = earthFaultCurrent(zs, u0, figures);
  if (!isKnown(current)) return adiabaticSize(current, current, k);
  return adiabaticSize(
    current,
    clearingTime(device, current, knowledge.protection, knowledge.protection.fuseGates.citation),
    k,
  );
}

function letThrough(device: Device, { knowledge }: Study): Quantity {
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
