import type { Line } from "../quantities/index.ts";
import type { ReadingRemark } from "./reading-remark.ts";
import type { ReadingStep } from "./readings.ts";

/**
 * Remarks on whole steps: nothing read in one, a car charging on no line, a total whose unit does not fit what
 * was done, and two steps in which the same was done and something else was read.
 *
 * Changes nothing: every reading is weighed as it stands.
 */
export function oddSteps(steps: readonly ReadingStep[], names: readonly Line[]): readonly ReadingRemark[] {
  return [
    ...steps.flatMap((step) => [...nothingRead(step, names), ...nowhere(step), ...unitOfTotal(step)]),
    ...contradictions(steps, names),
  ];
}

const placeOf = ({ id }: ReadingStep): string => `steps[${id}]`;

function nothingRead(step: ReadingStep, names: readonly Line[]): readonly ReadingRemark[] {
  const { meter, clampA = {} } = step;
  const isRead = [meter.totalWatts, meter.totalKilowatts, meter.totalVars, ...Object.values(clampA)].some(
    (value) => value !== undefined,
  );
  const isChannelRead = names.some((line) => Object.keys(meter[line] ?? {}).length > 0);
  return isRead || isChannelRead
    ? []
    : [
        {
          path: placeOf(step),
          what: "nothing was read in this step",
          done: "it says nothing; read it again",
        },
      ];
}

function nowhere(step: ReadingStep): readonly ReadingRemark[] {
  const { chargePoint } = step;
  return chargePoint !== undefined && chargePoint.offeredA > 0 && chargePoint.lines.length === 0
    ? [
        {
          path: `${placeOf(step)}.chargePoint.lines`,
          what: `the car is offered ${chargePoint.offeredA} A on no line`,
          done: "taken as drawing nothing; name the lines",
        },
      ]
    : [];
}

/** Watts of one ampere on a line, to the nearest ten: only powers of a thousand are told apart by it. */
const WATTS_PER_AMPERE = 230;
/** A total this many times too large or too small is of another unit, not of another load. [1] */
const UNIT_APART = 100;

/** A total held against what was knowingly switched on; a building may add to it, and rarely a hundredfold. */
function unitOfTotal(step: ReadingStep): readonly ReadingRemark[] {
  const { meter, chargePoint, loads = [] } = step;
  const car =
    chargePoint === undefined ? 0 : chargePoint.offeredA * chargePoint.lines.length * WATTS_PER_AMPERE;
  const known = car + loads.reduce((sum, { watts }) => sum + watts, 0);
  if (known === 0) return [];
  const path = `${placeOf(step)}.meter`;
  const { totalWatts, totalKilowatts } = meter;
  if (totalWatts !== undefined && totalWatts !== 0 && Math.abs(totalWatts) * UNIT_APART < known)
    return [
      {
        path: `${path}.totalWatts`,
        what: `${totalWatts} W where some ${Math.round(known)} W were switched on`,
        done: "weighed as it stands; if the display shows kilowatts, give it as kilowatts",
      },
    ];
  if (totalKilowatts !== undefined && Math.abs(totalKilowatts) * 1000 > UNIT_APART * known)
    return [
      {
        path: `${path}.totalKilowatts`,
        what: `${totalKilowatts} kW where some ${Math.round(known)} W were switched on`,
        done: "weighed as it stands; if the display shows watts, give it as watts",
      },
    ];
  return [];
}

/** Share and size by which a building's load may differ between two readings without a word. [1], [W], [A] */
const SAME_SHARE = 0.3;
const SAME_W = 500;
const SAME_A = 3;

/** Steps in which the same was done, far apart in what was read: the building moved, or one is wrong. */
function contradictions(steps: readonly ReadingStep[], names: readonly Line[]): readonly ReadingRemark[] {
  const first = new Map<string, ReadingStep>();
  return steps.flatMap((step): readonly ReadingRemark[] => {
    const done = doneIn(step);
    const earlier = first.get(done);
    if (earlier === undefined) {
      first.set(done, step);
      return [];
    }
    const apart = shownOf(earlier, names).flatMap(({ name, value, slack, unit }) => {
      const other = shownOf(step, names).find((each) => each.name === name)?.value;
      if (value === undefined || other === undefined) return [];
      const most = Math.max(Math.abs(value), Math.abs(other));
      return Math.abs(value - other) > Math.max(slack, SAME_SHARE * most)
        ? [`${name} ${value} and then ${other} ${unit}`]
        : [];
    });
    return apart.length === 0
      ? []
      : [
          {
            path: placeOf(step),
            what: `the same was done as in "${earlier.id}", and it shows ${apart.slice(0, 3).join(", ")}`,
            done: "both are weighed; switch the building's own load off, or read both again",
          },
        ];
  });
}

const doneIn = ({ chargePoint, loads = [], generation }: ReadingStep): string => {
  const isCharging = chargePoint !== undefined && chargePoint.offeredA > 0;
  return JSON.stringify([
    isCharging ? [chargePoint.offeredA, [...chargePoint.lines].sort()] : null,
    loads.map(({ line, watts }) => [line, watts]),
    generation ?? null,
  ]);
};

function shownOf({ meter }: ReadingStep, names: readonly Line[]) {
  return [
    ...names.flatMap((line) => {
      const channel = meter[line];
      return [
        { name: line, value: channel?.amps, slack: SAME_A, unit: "A" },
        {
          name: `${line} power`,
          value: wattsOf(channel?.watts, channel?.kilowatts),
          slack: SAME_W,
          unit: "W",
        },
      ];
    }),
    { name: "total", value: wattsOf(meter.totalWatts, meter.totalKilowatts), slack: SAME_W, unit: "W" },
  ];
}

const wattsOf = (watts: number | undefined, kilowatts: number | undefined): number | undefined =>
  watts ?? (kilowatts === undefined ? undefined : kilowatts * 1000);
