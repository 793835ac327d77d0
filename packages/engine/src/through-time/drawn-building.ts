/**
 * Building demand that nobody recorded, drawn from published appliances and what the supply tree holds.
 *
 * @module
 */
import { RandomStream } from "../chance/index.ts";
import {
  DAY_MIN,
  drawHousehold,
  type Household,
  householdSource,
  syntheticDayCurrent,
} from "../demand/index.ts";
import type { Study } from "../rules/index.ts";
import type { NodeOfKind } from "../supply/index.ts";
import type { BuildingSource } from "./building-source.ts";

type Load = NodeOfKind<"load">;

/** Appliances that a circuit of the tree stands for. Other circuits say nothing certain of what hangs on them. */
const STANDS_FOR: Readonly<Partial<Record<Load["purpose"], readonly string[]>>> = {
  "instantaneous-water-heater": ["electric-shower"],
  cooker: ["hob", "oven"],
  "cooker-with-socket": ["hob", "oven"],
  "thermostatic-water-heater": ["cylinder-heater"],
  "storage-or-floor-heating": ["storage-heaters"],
};
const CERTAIN = new Set(Object.values(STANDS_FOR).flat());

/** A dwelling on one line: what its circuits stand for is there, what none stands for is not, the rest as usual. */
export function drawnDwelling(study: Study, seed: number): BuildingSource | null {
  const { job, lines, tree, knowledge } = study;
  const { premises } = job.site;
  if (lines.length !== 1 || premises.state !== "known" || premises.value !== "dwelling") return null;
  if (study.u0.kind === "unknown") return null;
  const loads = tree.ofKind("load");
  const there = new Set(loads.flatMap(({ purpose }) => STANDS_FOR[purpose] ?? []));
  const published = knowledge.demand.appliances.figures.rows;
  const ownedShares = Object.fromEntries(
    Object.entries(published).map(([id, { ownedShare }]) => [
      id,
      CERTAIN.has(id) ? Number(there.has(id)) : ownedShare,
    ]),
  );
  const heatPumpShare = Number(loads.some(({ purpose }) => purpose === "heat-pump"));
  const random = new RandomStream(seed);
  const source = householdSource(knowledge.demand.appliances, {
    ownedShares: { ...ownedShares, lighting: 1 },
    heatPumpShare,
  });
  const household = drawHousehold(source, random, 0);
  const voltageV = study.u0.value;
  return {
    kind: "drawn",
    days: Number.POSITIVE_INFINITY,
    intervalS: 60,
    intervalsPerDay: DAY_MIN,
    from: null,
    lacks: [],
    fill: (day, intoA) => syntheticDayCurrent({ household, random, day }, voltageV, intoA),
  };
}

/**
 * A recorded building with the loads it lacks drawn on top, as far as their circuits stand for an appliance; the
 * others stay listed.
 */
export function withLacking(
  building: BuildingSource,
  lacking: readonly Load[],
  study: Study,
  seed: number,
): BuildingSource {
  const { lines, tree, knowledge } = study;
  if (study.u0.kind === "unknown") return building;
  const voltageV = study.u0.value;
  const drawn = lacking.filter(({ purpose }) => STANDS_FOR[purpose] !== undefined);
  if (drawn.length === 0 || building.intervalsPerDay > DAY_MIN) return building;
  const random = new RandomStream(seed);
  const table = knowledge.demand.appliances;
  const extra = drawn.map((load, index) => {
    const ids = STANDS_FOR[load.purpose] as readonly string[];
    const mostW = Math.max(...ids.map((id) => table.figures.rows[id]?.runningW ?? 0));
    const at = tree.linesAt(load.id).map((line) => lines.indexOf(line));
    return {
      household: onlyOwning(study, ids, random, index + 1),
      // A rating is that of each line; the published power is that of all lines together.
      scale: load.ratedA.state === "known" ? (load.ratedA.value * voltageV) / mostW : 1 / at.length,
      at,
    };
  });
  const dayA = new Float64Array(DAY_MIN);
  const minutes = DAY_MIN / building.intervalsPerDay;
  return {
    ...building,
    adds: drawn.map(({ label }) => label),
    lacks: building.lacks.filter((label) => drawn.every((load) => load.label !== label)),
    fill: (day, intoA) => {
      building.fill(day, intoA);
      for (const { household, scale, at } of extra) {
        syntheticDayCurrent({ household, random, day }, voltageV, dayA);
        for (let minute = 0; minute < DAY_MIN; minute++) {
          const addedA = ((dayA[minute] as number) * scale) / minutes;
          const interval = Math.floor(minute / minutes) * lines.length;
          if (addedA > 0)
            for (const line of at) intoA[interval + line] = (intoA[interval + line] as number) + addedA;
        }
      }
    },
  };
}

function onlyOwning(
  { knowledge }: Study,
  ids: readonly string[],
  random: RandomStream,
  site: number,
): Household {
  const { appliances } = knowledge.demand;
  const ownedShares = Object.fromEntries(
    [...Object.keys(appliances.figures.rows), "lighting"].map((id) => [id, Number(ids.includes(id))]),
  );
  const source = householdSource(appliances, { ownedShares });
  return { ...drawHousehold(source, random, site), standbyW: 0 };
}
