import type { ObservationModel } from "./observation-model.ts";

/** A model as the register keeps it. */
export interface RegisteredModel {
  readonly model: ObservationModel;
  /** The same for all models that show the same while the car takes nothing. */
  readonly idle: number;
}

/** Keeps one of all models that are equal: many pairs of faults amount to one of the two, or to each other. */
export class ModelRegister {
  private readonly known = new Map<number, RegisteredModel[]>();
  private readonly idle = new Map<number, RegisteredModel[]>();
  private idleCount = 0;

  of(model: ObservationModel): RegisteredModel {
    const idleSum = checksum(model, OF_BUILDING);
    const sum = idleSum + checksum(model, OF_CAR);
    const equals = listAt(this.known, sum);
    const found = equals.find((item) => sameIdle(item.model, model) && sameCar(item.model, model));
    if (found !== undefined) return found;
    const alike = listAt(this.idle, idleSum);
    const group = alike.find((item) => sameIdle(item.model, model))?.idle ?? this.idleCount++;
    const registered = { model, idle: group };
    equals.push(registered);
    alike.push(registered);
    return registered;
  }
}

const OF_BUILDING = [
  "mRe",
  "mIm",
  "qRe",
  "qIm",
  "voltage",
  "gainSd",
  "angleSd",
  "gainAngleCovariance",
] as const;
const OF_CAR = ["eRe", "eIm", "fRe", "fIm"] as const;
type Coefficients = (typeof OF_BUILDING | typeof OF_CAR)[number];

function listAt(map: Map<number, RegisteredModel[]>, key: number): RegisteredModel[] {
  const list = map.get(key) ?? [];
  map.set(key, list);
  return list;
}

/** Equal for equal models; hardly ever for others. */
function checksum(model: ObservationModel, names: readonly Coefficients[]): number {
  let sum = 0;
  let weight = 1;
  for (const name of names)
    for (const value of model[name]) {
      weight = (weight * GOLDEN) % 1;
      sum += weight * value;
    }
  return sum;
}

/** Any number without a short period will do. */
const GOLDEN = (1 + Math.sqrt(5)) / 2;

const same = (a: readonly unknown[], b: readonly unknown[]): boolean =>
  a.length === b.length && a.every((value, index) => value === b[index]);

const sameIdle = (a: ObservationModel, b: ObservationModel): boolean =>
  OF_BUILDING.every((name) => same(a[name], b[name])) &&
  same(a.loose, b.loose) &&
  same(a.hasPower, b.hasPower) &&
  a.adrift === b.adrift &&
  a.voltageSdV === b.voltageSdV &&
  a.mayExport === b.mayExport &&
  a.hidesLoad === b.hidesLoad &&
  a.sumsCurrents === b.sumsCurrents &&
  a.clipA === b.clipA &&
  a.floorA === b.floorA &&
  a.scale === b.scale;

const sameCar = (a: ObservationModel, b: ObservationModel): boolean =>
  OF_CAR.every((name) => same(a[name], b[name])) && a.carSd === b.carSd && a.carLineSd === b.carLineSd;
