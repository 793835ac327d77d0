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
  private readonly groups = new Map<number, RegisteredModel[]>();
  private groupCount = 0;

  of(model: ObservationModel): RegisteredModel {
    const { mRe, mIm, qRe, qIm, eRe, eIm, fRe, fIm } = model;
    const ofBuilding = checksum(mRe, mIm, qRe, qIm, model.gainSd, model.angleSd);
    const equals = listAt(
      this.known,
      ofBuilding + checksum(eRe, eIm, fRe, fIm, model.voltage, [model.carSd]),
    );
    for (const item of equals) if (isSameCar(item.model, model) && isSameIdle(item.model, model)) return item;
    const groups = listAt(this.groups, ofBuilding);
    let group = groups.find((item) => isSameIdle(item.model, model));
    if (group === undefined) {
      group = { model, idle: this.groupCount++ };
      groups.push(group);
    }
    const registered = { model, idle: group.idle };
    equals.push(registered);
    return registered;
  }
}

function listAt(map: Map<number, RegisteredModel[]>, key: number): RegisteredModel[] {
  let list = map.get(key);
  if (list === undefined) {
    list = [];
    map.set(key, list);
  }
  return list;
}

/** Equal for equal lists; hardly ever for others. */
function checksum(...lists: readonly (readonly number[])[]): number {
  let sum = 0;
  let weight = 1;
  for (const list of lists)
    for (let index = 0; index < list.length; index++) {
      weight *= GROWTH;
      sum += weight * (list[index] as number);
    }
  return sum;
}

/** No two sums of coefficients happen to agree for want of different weights. */
const GROWTH = 1.0437;

function isSame(a: readonly unknown[], b: readonly unknown[]): boolean {
  if (a.length !== b.length) return false;
  for (let index = 0; index < a.length; index++) if (a[index] !== b[index]) return false;
  return true;
}

const isSameIdle = (a: ObservationModel, b: ObservationModel): boolean =>
  isSame(a.mRe, b.mRe) &&
  isSame(a.mIm, b.mIm) &&
  isSame(a.qRe, b.qRe) &&
  isSame(a.qIm, b.qIm) &&
  isSame(a.voltage, b.voltage) &&
  isSame(a.gainSd, b.gainSd) &&
  isSame(a.angleSd, b.angleSd) &&
  isSame(a.gainAngleCovariance, b.gainAngleCovariance) &&
  isSame(a.loose, b.loose) &&
  isSame(a.hasPower, b.hasPower) &&
  a.adrift === b.adrift &&
  a.voltageSdV === b.voltageSdV &&
  a.mayExport === b.mayExport &&
  a.hidesLoad === b.hidesLoad &&
  a.sumsCurrents === b.sumsCurrents &&
  a.clipA === b.clipA &&
  a.floorA === b.floorA &&
  a.scale === b.scale;

const isSameCar = (a: ObservationModel, b: ObservationModel): boolean =>
  isSame(a.eRe, b.eRe) &&
  isSame(a.eIm, b.eIm) &&
  isSame(a.fRe, b.fRe) &&
  isSame(a.fIm, b.fIm) &&
  a.carSd === b.carSd &&
  a.carLineSd === b.carLineSd;
