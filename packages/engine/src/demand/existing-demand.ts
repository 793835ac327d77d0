/**
 * What the building draws without the charge points, on one line, from the best evidence there is.
 *
 * Measured evidence goes before the list of circuits when it is long enough; the reason is part of the
 * result. A mean over minutes hides the peak inside it, so a recording is never one number: it is
 * inflated to a band, and decisions use the high end.
 *
 * @module
 */
import { given, type Job, type Located, type LocatedFact } from "../job/index.ts";
import type { Line } from "../quantities/index.ts";
import type { NodeOfKind, SupplyTree } from "../supply/index.ts";
import {
  type Citation,
  type Figures,
  isKnown,
  largest,
  numberOf,
  type Quantity,
  step,
  total,
  unknownFigure,
} from "../worked/index.ts";
import { type AllowanceTables, diversifiedDemand, type Purpose } from "./allowances.ts";
import { type IntervalSeries, summarise } from "./interval-series.ts";
import type { ApplianceTable } from "./synthetic/index.ts";

/** What a recording may lack: a load, or storage that charges. Charge points are counted by themselves. */
type Drawing = NodeOfKind<"load"> | NodeOfKind<"storage">;
export type Recording = Located<Job["demand"]["recordings"][number]>;

/** How far a short peak may stand above the highest mean, by averaging time. */
export interface PeakRatioTable {
  readonly citation: Citation;
  /** Averaging time [min], the least and the greatest ratio seen on a day, and the quartiles of the days. */
  readonly rows: readonly (readonly [
    averagingMin: number,
    low: number,
    high: number,
    lowerQuartile: number,
    median: number,
    upperQuartile: number,
  ])[];
}

export interface DemandTables {
  readonly allowances: AllowanceTables;
  readonly peakRatios: PeakRatioTable;
  readonly appliances: ApplianceTable;
}

export type DemandFigure = "fullShare" | "leastShareDrawn" | "minRecordingDays";

/** The recordings' files as the shell read them; one it could not read is absent. */
export type SeriesByRecording = ReadonlyMap<string, IntervalSeries>;

/** Least and greatest of a current that is not known better. [A] */
export interface Band {
  readonly low: Quantity;
  readonly high: Quantity;
}

export interface DemandEvidence extends Band {
  readonly kind: "circuit-list" | "recorded-maximum" | "interval-series";
  /** Id of the recording; "circuits" for the list. */
  readonly id: string;
  /** Length of a recording. [days] */
  readonly days: Quantity | null;
  /** Loads that are said to be in the recording though it stays below each of them; counted on top. */
  readonly cannotContain: readonly Drawing[];
}

export type ChoiceReason = "longest-recording" | "recordings-too-short" | "no-recording";

export interface ExistingDemand {
  readonly line: Line;
  readonly used: DemandEvidence;
  readonly because: ChoiceReason;
  /** Recordings that are not used but reached higher, by their ids. */
  readonly raisedBy: readonly string[];
  /** Everything else that was weighed. */
  readonly others: readonly DemandEvidence[];
}

export interface DemandInputs {
  readonly tree: SupplyTree;
  readonly premises: LocatedFact<"dwelling" | "shop-or-office" | "guest-house" | "other">;
  readonly recordings: readonly Recording[];
  readonly series: SeriesByRecording;
  readonly tables: DemandTables;
  readonly figures: Figures<DemandFigure>;
}

/** Weighs the evidence for one line. */
export function existingDemand(line: Line, inputs: DemandInputs): ExistingDemand {
  const list = circuitList(line, inputs);
  const recordings = inputs.recordings
    .filter((recording) => recording.line === line)
    .map((recording) => recordedEvidence(recording, inputs));
  const least = inputs.figures("minRecordingDays");
  const longEnough = recordings
    .filter(({ days, high }) => isLongEnough(days, least) && isKnown(high))
    .sort((a, b) => daysOf(b) - daysOf(a));
  const best = longEnough[0];
  const used = best ?? list;
  const others = recordings.filter((item) => item !== used);
  return {
    line,
    ...raised(used, others),
    because:
      best !== undefined
        ? "longest-recording"
        : recordings.length === 0
          ? "no-recording"
          : "recordings-too-short",
    others: best === undefined ? others : [...others, list],
  };
}

/**
 * What a recording reached was drawn, however short it is: it bounds the demand from below, and one that reaches
 * above the high end puts its own in that place.
 */
function raised(
  used: DemandEvidence,
  recordings: readonly DemandEvidence[],
): Pick<ExistingDemand, "used" | "raisedBy"> {
  const above = (end: Quantity) =>
    recordings.filter(({ low }) => isKnown(low) && !(numberOf(low) <= numberOf(end)));
  const [low, high] = [above(used.low), isKnown(used.high) ? above(used.high) : []];
  return {
    used: {
      ...used,
      low: highest(
        "low",
        used.low,
        low.map((item) => item.low),
      ),
      high: highest(
        "high",
        used.high,
        high.map((item) => item.high),
      ),
    },
    raisedBy: low.map(({ id }) => id),
  };
}

function highest(which: keyof Band, own: Quantity, others: readonly Quantity[]): Quantity {
  const [first, ...rest] = others;
  if (first === undefined) return own;
  const named = {
    symbol: "Iex",
    label: `existing demand, ${which} end: the most of all evidence`,
    unit: "A",
    clause: "recorded-demand",
  };
  return largest(named, isKnown(own) ? [own, first, ...rest] : [first, ...rest]);
}

const isLongEnough = (days: Quantity | null, least: Quantity): boolean =>
  days !== null && isKnown(days) && isKnown(least) && days.value >= least.value;

const daysOf = ({ days }: DemandEvidence): number => (days === null ? 0 : numberOf(days));

/**
 * The list of circuits: at least its largest load by itself, at most the sum after diversity. An allowance, not a
 * measurement: between the two it cannot be told what the building draws.
 */
function circuitList(line: Line, { tree, premises, tables, figures }: DemandInputs): DemandEvidence {
  const ends = tree.endsCarried(tree.serviceCable, line).filter((end) => end.kind !== "charge-point");
  const listed = { kind: "circuit-list", id: "circuits", days: null, cannotContain: [] } as const;
  const [first, ...others] = ends
    .filter((end) => end.kind === "load")
    .map((load): Quantity => given(load.ratedA, "I", `${load.label}, full-load current`));
  const named = {
    symbol: "Iex",
    label: "existing demand, low end: the largest load",
    unit: "A",
    clause: "recorded-demand",
  };
  if (first === undefined) return { ...listed, ...noLoadsListed(line) };
  const low = largest(named, [first, ...others]);
  const high = diversifiedDemand(ends, premises, tables.allowances, figures);
  return { ...listed, low, high };
}

/** An empty list is a list nobody has made, not a building that draws nothing. */
function noLoadsListed(line: Line): Band {
  const unknown: Quantity = {
    kind: "unknown",
    symbol: "Iex",
    label: "existing demand",
    unit: "A",
    missing: [{ path: "nodes", label: `the loads on ${line}, or a recording of it`, what: "fact" }],
  };
  return { low: unknown, high: unknown };
}

function recordedEvidence(recording: Recording, inputs: DemandInputs): DemandEvidence {
  const { maximum, averagingMin, days } = measured(recording, inputs.series);
  const ratio = (which: "low" | "high") => peakRatio(averagingMin, which, inputs.tables.peakRatios);
  const loads = inputs.tree
    .endsCarried(inputs.tree.serviceCable, recording.line)
    .filter(
      (end): end is Drawing =>
        end.kind === "load" || (end.kind === "storage" && end.importA.state !== "not-applicable"),
    );
  const isNotIn = ({ id }: Drawing): boolean => recording.doesNotInclude.includes(id);
  const most = numberOf(maximum) * numberOf(ratio("high"));
  const share = numberOf(inputs.figures("leastShareDrawn"));
  const cannotContain = loads.filter(
    (load) =>
      !isNotIn(load) &&
      isDrawnInFull(load) &&
      // An unknown is above nothing.
      numberOf(given(drawnBy(load), "I")) * share > most,
  );
  const added = total(
    { symbol: "Iadd", label: "loads the recording does not contain", unit: "A", clause: "recorded-demand" },
    loads
      .filter((load) => isNotIn(load) || cannotContain.includes(load))
      .map((load) =>
        given(
          drawnBy(load),
          "I",
          `${load.label}, ${load.kind === "load" ? "full-load" : "charging"} current`,
        ),
      ),
  );
  const end = (which: "low" | "high"): Quantity =>
    step({
      symbol: "Iex",
      label: `existing demand, ${which} end`,
      unit: "A",
      clause: "recorded-demand",
      formula: which === "low" ? "max(Imax * p, Iadd)" : "Imax * p + Iadd",
      inputs: { Imax: maximum, p: ratio(which), Iadd: added },
      compute:
        which === "low"
          ? ({ Imax, p, Iadd }) => Math.max(Imax * p, Iadd)
          : ({ Imax, p, Iadd }) => Imax * p + Iadd,
    });
  return { kind: recording.kind, id: recording.id, low: end("low"), high: end("high"), days, cannotContain };
}

const drawnBy = (end: Drawing): LocatedFact<number> => (end.kind === "load" ? end.ratedA : end.importA);

/** Whenever one is on it draws its rating or little less, so a recording that contains it shows it. */
const isDrawnInFull = (end: Drawing): boolean =>
  end.kind === "storage" || DRAWN_IN_FULL.includes(end.purpose);

/** Heating elements. */
const DRAWN_IN_FULL: readonly Purpose[] = [
  "instantaneous-water-heater",
  "thermostatic-water-heater",
  "storage-or-floor-heating",
];

/** What a recording measured: its highest mean, over what time, for how long. */
function measured(
  recording: Recording,
  series: SeriesByRecording,
): { maximum: Quantity; averagingMin: Quantity; days: Quantity } {
  if (recording.kind === "recorded-maximum") {
    return {
      maximum: given(recording.maximumA, "Imax"),
      averagingMin: given(recording.averagingMin, "τ"),
      days: given(recording.days, "D"),
    };
  }
  const read = series.get(recording.id);
  const summary = read === undefined ? null : summarise(read);
  const path = `demand.recordings[${recording.id}].file`;
  const fromFile = (symbol: string, label: string, unit: string, value: number | undefined): Quantity =>
    value === undefined
      ? {
          kind: "unknown",
          symbol,
          label,
          unit,
          missing: [{ path, label: `the recording "${recording.file}", readable`, what: "fact" }],
        }
      : {
          kind: "fact",
          symbol,
          label,
          unit,
          value,
          path: `${path}#${symbol}`,
          basis: "measured",
          onIso: recording.until,
        };
  return {
    maximum: fromFile(
      "Imax",
      `highest mean of ${recording.intervalS} s in the recording "${recording.id}"`,
      "A",
      summary?.maximumA,
    ),
    averagingMin: fromFile("τ", "averaging time of the recording", "min", recording.intervalS / 60),
    days: fromFile("D", "length of the recording", "days", summary?.presentDays),
  };
}

/** The ratio for an averaging time, or for the next longer one in the table. */
function peakRatio(averagingMin: Quantity, which: "low" | "high", table: PeakRatioTable): Quantity {
  const named = { symbol: "p", label: `short peak over the highest mean, ${which} end`, unit: "" };
  if (!isKnown(averagingMin)) return { ...averagingMin, ...named };
  const row = table.rows.find(([minutes]) => minutes >= averagingMin.value * (1 - 1e-9));
  const value = which === "low" ? row?.[1] : row?.[2];
  if (value === undefined) {
    return unknownFigure(named, `peak ratio for means over ${averagingMin.value} min`);
  }
  return { kind: "figure", ...named, value, citation: table.citation };
}
