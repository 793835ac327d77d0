/**
 * Faults in time: what goes wrong with the metering chain, the manager or a car, from when and until when.
 *
 * @module
 */

export type TimedFaultEffect =
  /** The meter answers with the reading it had when the fault began. */
  | { readonly kind: "reading-frozen" }
  /** The meter does not answer: the bus between meter and manager is broken. */
  | { readonly kind: "bus-lost" }
  /** The meter has no power and does not answer. */
  | { readonly kind: "meter-lost" }
  /** The transformer of a line is turned round: import reads as export. */
  | { readonly kind: "transformer-reversed"; readonly line: 0 | 1 | 2 }
  /** Every line reads this multiple of the truth. */
  | { readonly kind: "ratio-wrong"; readonly multiple: number }
  /** The transformer of a line gives nothing. */
  | { readonly kind: "line-missing"; readonly line: 0 | 1 | 2 }
  /** The manager is off; when it returns it has forgotten everything. */
  | { readonly kind: "manager-restarted" }
  /** The manager's clock stands this much ahead of the truth; behind it where negative. [s] */
  | { readonly kind: "clock-jump"; readonly jumpS: number }
  /** The car at a charge point takes its most, whatever is offered. */
  | { readonly kind: "car-ignores-offer"; readonly point: number };

export type TimedFault = TimedFaultEffect & {
  readonly fromS: number;
  /** Infinity when nobody mends it. */
  readonly untilS: number;
};

/** All effects that hold at one time. */
export interface FaultsNow {
  isFrozen: boolean;
  isReadingLost: boolean;
  isManagerOff: boolean;
  clockS: number;
  /** What the meter makes of each line's current. */
  readonly multiple: Float64Array;
  /** 1 for the points whose car ignores the offer. */
  readonly isIgnored: Uint8Array;
}

export const noFaults = (pointCount: number): FaultsNow => ({
  isFrozen: false,
  isReadingLost: false,
  isManagerOff: false,
  clockS: 0,
  multiple: new Float64Array(3).fill(1),
  isIgnored: new Uint8Array(pointCount),
});

/** Brings the effects up to a time; says until when they hold. [s] */
export function faultsAt(faults: readonly TimedFault[], timeS: number, now: FaultsNow): number {
  now.isFrozen = now.isReadingLost = now.isManagerOff = false;
  now.clockS = 0;
  now.multiple.fill(1);
  now.isIgnored.fill(0);
  let nextS = Number.POSITIVE_INFINITY;
  for (const fault of faults) {
    if (timeS < fault.fromS) nextS = Math.min(nextS, fault.fromS);
    else if (timeS < fault.untilS) {
      nextS = Math.min(nextS, fault.untilS);
      add(fault, now);
    }
  }
  return nextS;
}

function add(fault: TimedFaultEffect, now: FaultsNow): void {
  const { multiple } = now;
  const times = (line: number, by: number) => {
    multiple[line] = (multiple[line] as number) * by;
  };
  switch (fault.kind) {
    case "reading-frozen":
      now.isFrozen = true;
      return;
    case "bus-lost":
    case "meter-lost":
      now.isReadingLost = true;
      return;
    case "transformer-reversed":
      times(fault.line, -1);
      return;
    case "line-missing":
      times(fault.line, 0);
      return;
    case "ratio-wrong":
      for (let line = 0; line < 3; line++) times(line, fault.multiple);
      return;
    case "manager-restarted":
      now.isManagerOff = true;
      return;
    case "clock-jump":
      now.clockS += fault.jumpS;
      return;
    case "car-ignores-offer":
      now.isIgnored[fault.point] = 1;
      return;
  }
}
