/**
 * How a load manager is built and set: every figure that decides what it does, and when.
 *
 * The manager reads a meter, decides, and tells each charge point how much it may offer. It lowers an
 * offer at once and raises it only after room has lasted; below the least offer it can only pause.
 * Currents are per line conductor, rms; import is positive. Times are in seconds.
 *
 * @module
 */
import { EngineError, requireInRange } from "../quantities/index.ts";
import type { SharingRule } from "./sharing.ts";

export interface ControlSettings {
  /** Limit set on every line. [A] */
  readonly limitA: number;
  /** Room kept under the limit. [A] */
  readonly marginA: number;
  /**
   * Direct: the building's current is the total less the cars', read together, and the cars get what is
   * left. Integrating: the last offer is moved by a share of the error of the total.
   */
  readonly law: { readonly kind: "direct" } | { readonly kind: "integrating"; readonly gain: number };
  /** Time over which the meter averages; 0 for the momentary value. */
  readonly averageS: number;
  /** Time between two readings of the meter. */
  readonly readEveryS: number;
  /** Time between two decisions; 0 to decide on every reading. */
  readonly decideEveryS: number;
  /** From a decision until the charge point offers the new current. */
  readonly commandS: number;
  /** Least current that can be offered. [A] */
  readonly minOfferA: number;
  /** Offers are whole multiples of this. [A] */
  readonly offerStepA: number;
  /** Room must last this long before an offer rises. */
  readonly riseHoldS: number;
  /** Greatest rise of one decision. [A] */
  readonly riseStepA: number;
  /** A pause for want of room ends only with this much room above the least offer on its lines. [A] */
  readonly resumeExtraA: number;
  /** Time that room must last before a pause ends. */
  readonly resumeHoldS: number;
  /** Shortest pause. */
  readonly minimumOffS: number;
  /** What a charge point offers when readings or commands stay away; null: it holds its last offer. [A] */
  readonly fallbackA: number | null;
  /** Age of a reading, and of a command, at which the fallback is taken. */
  readonly fallbackAfterS: number;
  readonly sharing: SharingRule;
  /** While there is less than the least offer for each, charge points take turns of this length. */
  readonly turnS: number;
}

/**
 * Whether the time-out is over before the next reading comes, so that decisions between readings are taken blind
 * with nothing wrong.
 */
export const timesOutBetweenReadings = ({
  readEveryS,
  decideEveryS,
  fallbackAfterS,
}: ControlSettings): boolean => decideEveryS > 0 && readEveryS > fallbackAfterS;

/**
 * Guards settings before anything is computed with them.
 *
 * @throws EngineError OUT_OF_DOMAIN when a value leaves its range.
 */
export function requireControl(settings: ControlSettings): void {
  const within = (name: keyof ControlSettings, min: number, max: number) =>
    requireInRange(name, settings[name] as number, min, max);
  within("limitA", 0, 10_000);
  within("marginA", 0, 10_000);
  if (settings.law.kind === "integrating") requireInRange("law.gain", settings.law.gain, 1e-6, 10);
  within("averageS", 0, 900);
  within("readEveryS", 0.01, 3600);
  within("decideEveryS", 0, 3600);
  within("commandS", 0, 600);
  within("minOfferA", 1, 100);
  within("offerStepA", 0.01, 10);
  within("riseHoldS", 0, 86_400);
  if (!(settings.riseStepA > 0))
    throw new EngineError("OUT_OF_DOMAIN", `riseStepA is ${settings.riseStepA}; it must be above 0.`, {
      name: "riseStepA",
    });
  within("resumeExtraA", 0, 1000);
  within("resumeHoldS", 0, 86_400);
  within("minimumOffS", 0, 86_400);
  if (settings.fallbackA !== null) requireInRange("fallbackA", settings.fallbackA, 0, 1000);
  within("fallbackAfterS", 0, 86_400);
  within("turnS", 1, 86_400);
}
