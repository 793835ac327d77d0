/**
 * A trace: currents recorded through time while a load manager was tried out.
 *
 * A value is the momentary rms current of its line; between two values nothing was seen, so a time is
 * known only as lying between them. What a recorder averaged over longer hides short peaks and cannot be
 * told from a momentary value here.
 *
 * Sign: import from the network is positive. A value nobody recorded is NaN, never zero.
 *
 * @module
 */
import { EngineError, LINES, type Line } from "../../quantities/index.ts";

/** Losses that a load manager must survive by turning the car down. */
export const LOSSES = ["bus-lost", "meter-lost", "manager-lost"] as const;
export type Loss = (typeof LOSSES)[number];

/** What the person at the recorder did, and noted. */
export const TRACE_EVENTS = ["load-on", ...LOSSES, "restored"] as const;

export interface TraceEvent {
  /** Seconds from the start of the trace. */
  readonly atS: number;
  readonly what: (typeof TRACE_EVENTS)[number];
}

export type LineCurrents = Readonly<Partial<Record<Line, Float64Array>>>;

export interface Trace {
  /** Seconds from the start, each greater than the one before. */
  readonly timesS: Float64Array;
  /** Current of the supply by line, one value for each time; a line that was not recorded is absent. [A] */
  readonly supplyA: LineCurrents;
  /** Current of all governed charge points together by line; null where none was recorded. [A] */
  readonly carA: LineCurrents | null;
  /** In the order of time. */
  readonly events: readonly TraceEvent[];
}

/**
 * Guards a trace before it is judged.
 *
 * @throws EngineError OUT_OF_DOMAIN unless times rise, every line has a value or NaN for each of them, and
 * events stand in the order of time.
 */
export function requireTrace({ timesS, supplyA, carA, events }: Trace): void {
  const refuse = (what: string, name: string): never => {
    throw new EngineError(
      "OUT_OF_DOMAIN",
      `${what}. Put the trace in order before it is judged; reading it from a file does.`,
      { name },
    );
  };
  if (timesS.length === 0) refuse("The trace has no times", "timesS");
  for (let i = 0; i < timesS.length; i++) {
    const isLater = i === 0 || (timesS[i] as number) > (timesS[i - 1] as number);
    if (!Number.isFinite(timesS[i]) || !isLater)
      refuse(`timesS[${i}] is ${timesS[i]}; times must be finite and rise`, "timesS");
  }
  for (const [name, currents] of [
    ["supplyA", supplyA],
    ["carA", carA ?? {}],
  ] as const)
    for (const line of LINES) {
      const values = currents[line];
      if (values === undefined) continue;
      if (values.length !== timesS.length)
        refuse(`${name}.${line} has ${values.length} values for ${timesS.length} times`, `${name}.${line}`);
      if (values.some((value) => Math.abs(value) === Number.POSITIVE_INFINITY))
        refuse(`${name}.${line} holds an infinite current`, `${name}.${line}`);
    }
  events.forEach(({ atS }, i) => {
    if (!Number.isFinite(atS) || atS < (events[i - 1]?.atS ?? Number.NEGATIVE_INFINITY))
      refuse(`events[${i}].atS is ${atS}; events must stand in the order of time`, "events");
  });
}
