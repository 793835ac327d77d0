import type { LatencyPart } from "../limiter/index.ts";
import type { TrialKind } from "../simulation/index.ts";

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
  nothing: "nothing",
  "reading-frozen": "reading stands still",
  "bus-lost": "bus to the meter broken",
  "meter-lost": "meter without power",
  "transformer-reversed": "transformer of the fullest line reversed",
  "ratio-half": "ratio set to half",
  "line-missing": "fullest line not seen",
  "manager-restarted": "manager off for five minutes",
  "clock-jump": "manager's clock an hour ahead",
  "car-ignores-offer": "car ignores its offer",
};
