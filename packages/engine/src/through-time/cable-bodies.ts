/**
 * The cables of a job as thermal bodies: from conductor, insulation and capacity as installed.
 *
 * @module
 */
import { currentCapacity, ratedAs } from "../circuits/index.ts";
import { type PointCircuit, type Study, tailsOf } from "../rules/index.ts";
import { leastTimeConstantS, type ThermalBody } from "../simulation/index.ts";
import type { SupplyCable } from "../supply/index.ts";
import { isKnown } from "../worked/index.ts";
import type { Choices } from "./choices.ts";

/** Tails, and what each charge point hangs on, as far as their capacities are known. */
export function cableBodies(study: Study, choices: Choices): readonly ThermalBody[] {
  const of = (cable: SupplyCable, carries: ThermalBody["carries"]) => bodyOf(study, choices, cable, carries);
  const finals = study.circuits.flatMap(({ finalCables }: PointCircuit, point) =>
    finalCables.map((cable) => of(cable, point)),
  );
  const main = tailsOf(study).filter(
    (cable) =>
      study.circuits.every(({ finalCables }) => !finalCables.includes(cable)) && carriesAll(study, cable),
  );
  return [...main.map((cable) => of(cable, "supply")), ...finals].filter((body) => body !== null);
}

/** Whether a cable carries everything the main fuse carries. */
function carriesAll({ tree }: Study, { from }: SupplyCable): boolean {
  const cutOut = tree.cutOut.id;
  for (let at = from; tree.cablesBelow(at).length === 1; at = tree.feedOf(at)?.from ?? cutOut)
    if (at === cutOut) return true;
  return false;
}

function bodyOf(
  { knowledge, figures }: Study,
  choices: Choices,
  { id, name, run, lines }: SupplyCable,
  carries: ThermalBody["carries"],
): ThermalBody | null {
  if (run === "busbar" || run === "not-surveyed" || run.lineMm2.state !== "known") return null;
  const capacity = currentCapacity(run, lines.length === 1 ? 2 : 3, knowledge.circuits, figures);
  const insulation = ratedAs(run);
  if (!isKnown(capacity) || insulation === null) return null;
  const ambientC = choices.figure("bodyReferenceC");
  const limitC = insulation === "pvc-70" ? 70 : 90;
  const [beta, heatJPerKMm3, at20] = (["copperBeta", "copperHeat", "copperResistivity20"] as const).map(
    (name) => choices.figure(name),
  ) as [number, number, number];
  const riseAtRatedK = limitC - ambientC;
  choices.take(capacity);
  return {
    id: name === "" ? id : name,
    carries,
    ratedA: capacity.value,
    tauS: leastTimeConstantS({
      areaMm2: run.lineMm2.value,
      ratedA: capacity.value,
      riseAtRatedK,
      resistivityOhmMm: (at20 * (beta + limitC)) / (beta + 20),
      heatJPerKMm3,
    }),
    ambientC,
    riseAtRatedK,
    limitC,
  };
}
