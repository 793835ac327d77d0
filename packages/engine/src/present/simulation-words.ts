import type { LatencyPart } from "../limiter/index.ts";
import type { TrialKind } from "../simulation/index.ts";
import type { Presumption } from "../through-time/index.ts";

export const PART_WORDS: Readonly<Record<LatencyPart["part"] | "time-out", string>> = {
  average: "meter averages",
  read: "between readings",
  decide: "between decisions",
  command: "command on its way",
  car: "car begins to follow",
  fall: "car's current falls",
  "time-out": "time-out",
};

export const TRIAL_WORDS: Readonly<Record<TrialKind, string>> = {
  nothing: "everything in order, on such a day",
  "reading-frozen": "reading stands still",
  "bus-lost": "bus to the meter broken",
  "bus-lost-on-rise": "bus breaks as the building rises",
  "meter-lost": "meter without power",
  "transformer-reversed": "transformer of the car's fullest line reversed",
  "ratio-half": "ratio set to half",
  "line-missing": "the car's fullest line not seen",
  "manager-restarted": "manager off for five minutes",
  "clock-jump": "manager's clock an hour ahead",
  "car-ignores-offer": "car ignores its offer",
};

export const PRESUMPTION_WORDS: Readonly<Record<Presumption, string>> = {
  "direct-law": "The manager gives the cars what the building leaves of the limit, at once (direct law).",
  "equal-sharing": "Charge points share equally.",
  "car-on-every-line": "A car draws from every line of its charge point.",
};

/** What the trials of faults are, since they are not the days of the run. */
export const TRIALS_SENTENCE =
  "One of these days made harder: the building at its highest on a line with a car, and cars that are there then, all or the largest alone, whichever is worse, and take all they are offered. Each fault begins an hour before and lasts twelve hours; a restart begins a minute before and lasts five; the bus also breaks just as the building rises most, while the last offer still stands.";
