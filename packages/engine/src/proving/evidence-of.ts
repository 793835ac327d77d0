import { LINES, type Line } from "../quantities/index.ts";
import type { Evidence, EvidenceStep } from "./evidence.ts";
import { oddSteps } from "./odd-steps.ts";
import type { ReadingRemark } from "./reading-remark.ts";
import type { ReadingStep, Readings } from "./readings.ts";

type Channel = NonNullable<ReadingStep["meter"]["L1"]>;

/** What a car draws of what it is offered: a few per cent less. Common practice. */
const DRAWN_SHARE = 0.96;

interface WeighedReadings {
  readonly evidence: Evidence;
  /** The steps of the readings that the steps of the evidence stand for, one for one. */
  readonly steps: readonly ReadingStep[];
  readonly remarks: readonly ReadingRemark[];
  /** True where figures typed as watts were taken as kilowatts. */
  readonly isTakenAsKilowatts: boolean;
}

/**
 * Readings as numbers to weigh, and a remark for each that was odd.
 *
 * @param names Lines that the channels of the meter watch: one or three.
 * @param hasGeneration True where the job has generation or storage; then a step that does not say it is
 * off may export.
 * @param hasOtherLines True where the supply has lines that the meter does not watch.
 */
export function evidenceOf(
  readings: Readings,
  names: readonly Line[],
  hasGeneration: boolean,
  hasOtherLines = false,
): WeighedReadings {
  const remarks: ReadingRemark[] = [];
  const note = (path: string, what: string, done: string): void => {
    remarks.push({ path, what, done });
  };
  const kept = withoutCopies(readings.steps, note);
  const inKilowatts = kept.length > 0 && kept.every((step) => looksLikeKilowatts(step, names));
  if (inKilowatts)
    note("steps", "every figure in watts is a thousandth of volts times amperes", TAKEN_AS_KILOWATTS);
  const steps = kept.map((step) =>
    evidenceStep(step, names, { hasGeneration, hasOtherLines, inKilowatts }, note),
  );
  remarks.push(...oddSteps(kept, names));
  const charging = kept.filter((step) => (step.chargePoint?.offeredA ?? 0) > 0);
  return {
    evidence: {
      lines: names.length === 1 ? 1 : 3,
      steps,
      resolution: {
        V: leastDigit(steps.flatMap(({ V }) => V)),
        I: leastDigit(steps.flatMap(({ I }) => I)),
        P: leastDigit(steps.flatMap(({ P, totalP }) => [...P, totalP])),
        Q: leastDigit(steps.flatMap(({ Q, totalQ }) => [...Q, totalQ])),
      },
      carIsMeasured: charging.length > 0 && charging.every((step) => step.chargePoint?.drawnA !== undefined),
    },
    steps: kept,
    remarks,
    isTakenAsKilowatts: inKilowatts,
  };
}

const TAKEN_AS_KILOWATTS =
  "taken as kilowatts; if the meter or the load manager says watts there, its scale is wrong: look";

type Note = (path: string, what: string, done: string) => void;

function withoutCopies(steps: readonly ReadingStep[], note: Note): readonly ReadingStep[] {
  const seen = new Map<string, string>();
  return steps.filter((step) => {
    const text = JSON.stringify(step);
    const earlier = seen.get(step.id);
    seen.set(step.id, text);
    if (earlier === undefined) return true;
    if (earlier === text) {
      note(`steps[${step.id}]`, "this step stands in the file twice, word for word", "the copy is left out");
      return false;
    }
    note(`steps[${step.id}]`, "two different steps have this id", "both are used, in the order they stand");
    return true;
  });
}

const watts = (channel: Channel | undefined): number | undefined =>
  channel?.watts ?? (channel?.kilowatts === undefined ? undefined : channel.kilowatts * 1000);

/** P·1000 ≈ V·I on every channel that carries something, with P typed as watts. */
function looksLikeKilowatts(step: ReadingStep, names: readonly Line[]): boolean {
  const shares = names.flatMap((line) => {
    const channel = step.meter[line];
    const apparent = (channel?.volts ?? 0) * (channel?.amps ?? 0);
    return channel?.watts !== undefined && apparent > 100 ? [Math.abs(channel.watts) / apparent] : [];
  });
  return shares.length > 0 && shares.every((share) => share > 0.0004 && share < 0.00105);
}

interface Surroundings {
  readonly hasGeneration: boolean;
  readonly hasOtherLines: boolean;
  readonly inKilowatts: boolean;
}

function evidenceStep(
  step: ReadingStep,
  names: readonly Line[],
  { hasGeneration, hasOtherLines, inKilowatts }: Surroundings,
  note: Note,
): EvidenceStep {
  const { chargePoint, meter } = step;
  const at = `steps[${step.id}]`;
  if (!hasOtherLines && isDoneElsewhere(step, names, note)) return nothingTold(names, hasGeneration);
  const channels = names.map((line) =>
    channelEvidence(meter[line] ?? {}, `${at}.meter.${line}`, inKilowatts, note),
  );
  const unused = LINES.filter((line) => !names.includes(line) && meter[line] !== undefined);
  for (const line of unused)
    note(`${at}.meter.${line}`, "the job's meter has no such channel", "these readings are left out");
  const totalP =
    meter.totalWatts ?? (meter.totalKilowatts === undefined ? Number.NaN : meter.totalKilowatts * 1000);
  const summed = channels.reduce((sum, { P }) => sum + P, 0);
  if (Math.abs(totalP - summed) > 0.05 * Math.max(Math.abs(totalP), Math.abs(summed)) + 30)
    note(
      `${at}.meter`,
      `the total of ${Math.round(totalP)} W is not the sum of the channels, ${Math.round(summed)} W`,
      "the channels are weighed, the total is not",
    );
  const offered = (line: Line): number =>
    chargePoint?.lines.includes(line) ? chargePoint.offeredA * DRAWN_SHARE : 0;
  return {
    carA: names.map((line) => chargePoint?.drawnA?.[line] ?? offered(line)),
    loadW: names.map((line) =>
      (step.loads ?? []).reduce((sum, load) => (load.line === line ? sum + load.watts : sum), 0),
    ),
    mayExport:
      step.generation === undefined
        ? hasGeneration
        : step.generation === "on" || step.generation === "unknown",
    V: channels.map(({ V }) => V),
    I: channels.map(({ I }) => I),
    P: channels.map(({ P }) => P),
    Q: channels.map(({ Q }) => Q),
    totalP,
    totalQ: meter.totalVars ?? Number.NaN,
    clampA: names.map((line) => step.clampA?.[line] ?? Number.NaN),
  };
}

/**
 * Notes what was done or clamped on lines that the supply has not. True where that leaves the step without what was
 * done in it: a car that charges on no line known, or a load beside the lines, would make a sound chain look faulty.
 */
function isDoneElsewhere(step: ReadingStep, names: readonly Line[], note: Note): boolean {
  const { chargePoint, clampA = {}, loads = [] } = step;
  const at = `steps[${step.id}]`;
  const has = names.length === 1 ? `${names[0]} alone` : names.join(", ");
  const isElsewhere = (line: Line): boolean => !names.includes(line);
  for (const line of LINES)
    if (isElsewhere(line) && clampA[line] !== undefined)
      note(`${at}.clampA.${line}`, `the job's meter has ${has}`, "this clamp reading is left out");
  const charging = chargePoint === undefined || chargePoint.offeredA === 0 ? [] : chargePoint.lines;
  const otherCar = charging.filter(isElsewhere);
  const isCarLost = otherCar.length > 0 && otherCar.length === charging.length;
  const isLoadLost = loads.some(({ line, watts }) => watts !== 0 && isElsewhere(line));
  const done = "this step is left out of the weighing; write the line it was done on, and run it again";
  if (otherCar.length > 0)
    note(
      `${at}.chargePoint.lines`,
      `the car is said to charge on ${otherCar.join(", ")}, and the job's meter has ${has}`,
      isCarLost
        ? done
        : `taken as charging on ${charging.filter((line) => !isElsewhere(line)).join(", ")} alone`,
    );
  if (isLoadLost)
    note(`${at}.loads`, `a load is said to be on another line, and the job's meter has ${has}`, done);
  return isCarLost || isLoadLost;
}

/** A step of which nothing is known. */
function nothingTold(names: readonly Line[], mayExport: boolean): EvidenceStep {
  const [none, unread] = [names.map(() => 0), names.map(() => Number.NaN)];
  return {
    carA: none,
    loadW: none,
    mayExport,
    V: unread,
    I: unread,
    P: unread,
    Q: unread,
    totalP: Number.NaN,
    totalQ: Number.NaN,
    clampA: unread,
  };
}

function channelEvidence(
  channel: Channel,
  path: string,
  inKilowatts: boolean,
  note: Note,
): { readonly V: number; readonly I: number; readonly P: number; readonly Q: number } {
  const V = notNegative(channel.volts, `${path}.volts`, "a voltage is never negative", note);
  const I = signless(channel.amps, `${path}.amps`, note);
  const factor = powerFactor(channel.powerFactor, `${path}.powerFactor`, note);
  const given = watts(channel);
  const P =
    given === undefined ? V * I * factor : inKilowatts && channel.watts !== undefined ? given * 1000 : given;
  const Q = channel.vars ?? (channel.kilovars === undefined ? Number.NaN : channel.kilovars * 1000);
  if (given !== undefined && Math.abs(P) > 1.05 * V * I + 20)
    note(
      path,
      `${Math.round(P)} W is more than ${Math.round(V * I)} VA allow`,
      "weighed as it stands: a wrong scale or a sum of currents reads so",
    );
  const apparent = Math.hypot(P, Q);
  if (!Number.isNaN(factor) && apparent > 50 && Math.abs(P / apparent - factor) > 0.1)
    note(
      `${path}.powerFactor`,
      "it does not fit the active and reactive power",
      "the powers are weighed, the power factor is not",
    );
  return { V, I, P, Q };
}

function notNegative(value: number | undefined, path: string, what: string, note: Note): number {
  if (value === undefined) return Number.NaN;
  if (value >= 0) return value;
  note(path, `${value}: ${what}`, "left out; read it again");
  return Number.NaN;
}

function signless(value: number | undefined, path: string, note: Note): number {
  if (value === undefined || value >= 0) return value ?? Number.NaN;
  note(path, `${value}: a current's size has no sign`, "its size is weighed; give the sign with the watts");
  return -value;
}

function powerFactor(value: number | undefined, path: string, note: Note): number {
  if (value === undefined || Math.abs(value) <= 1) return value ?? Number.NaN;
  if (Math.abs(value) > 1.5 && Math.abs(value) <= 100) {
    note(path, `${value}: a power factor lies between −1 and 1`, `taken as per cent: ${value / 100}`);
    return value / 100;
  }
  note(path, `${value}: a power factor lies between −1 and 1`, "left out; read it again");
  return Number.NaN;
}

/** The largest power of ten, from 0.001 up, that every reading is a whole multiple of. */
function leastDigit(values: readonly number[]): number {
  const read = values.filter((value) => Number.isFinite(value) && value !== 0);
  const fits = (digit: number): boolean =>
    read.every((value) => Math.abs(value / digit - Math.round(value / digit)) < 1e-6);
  return [10, 1, 0.1, 0.01].find(fits) ?? 0.001;
}
