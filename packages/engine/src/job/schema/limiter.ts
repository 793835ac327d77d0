import * as z from "zod";
import { fact, laterFact, number, words, yesNo } from "../fact.ts";

const LOCKS = ["password", "pin", "seal", "none"] as const;
export const FAILURES = [
  "transformer-open",
  "transformer-reversed",
  "bus-lost",
  "meter-power-lost",
  "manager-power-lost",
  "setting-lost",
] as const;

/** How a manager finds the next offer: from the room the building leaves, or from the last offer and the error. */
const CONTROL_LAWS = ["direct", "integrating"] as const;
/** How several charge points share what room there is. */
const SHARINGS = ["equal", "max-min", "first-come"] as const;

/** The load manager: what it governs, how it is set, and what was proved of it. */
export const limiter = z.strictObject({
  chargePoints: z.array(words(60)).min(1).max(100).meta({ description: "Charge points it turns down." }),
  limitA: fact(number(0, 4000), {
    title: "limit as set, per line",
    unit: "A",
    ask: "Read the setting back after it is made.",
  }),
  marginA: fact(number(0, 1000), {
    title: "margin kept under the supply's limit",
    unit: "A",
    ask: "From the metering error; left to the tool when not recorded.",
  }),
  fallbackA: fact(number(0, 250), {
    title: "fallback current per charge point when the reading is lost",
    unit: "A",
    ask: "Read the setting back.",
  }),
  fallbackAfterS: laterFact(number(0, 86_400), {
    title: "time without a reading or a command until the fallback is taken",
    unit: "s",
    ask: "Read the setting back; it is the communication time-out of the manager and of the charge point, the longer of the two.",
  }),
  averageS: laterFact(number(0, 900), {
    title: "time over which the meter averages what it shows",
    unit: "s",
    ask: "From the meter's instructions; a display that settles in one step averages over that step.",
  }),
  readEveryS: laterFact(number(0.05, 3600), {
    title: "time between two readings of the meter by the manager",
    unit: "s",
    ask: "From the manager's instructions, or time the meter's receive light.",
  }),
  decideEveryS: laterFact(number(0, 3600), {
    title: "time between two decisions of the manager, 0 for on every reading",
    unit: "s",
    ask: "From the manager's instructions; 0 where it decides on every reading of the meter.",
  }),
  commandS: laterFact(number(0, 600), {
    title: "time from a decision until the charge point offers the new current",
    unit: "s",
    ask: "From the instructions of manager and charge point, or time it with a second person at the car.",
  }),
  riseHoldS: laterFact(number(0, 86_400), {
    title: "time room must last before the offer rises",
    unit: "s",
    ask: "Read the setting back.",
  }),
  minimumOffS: laterFact(number(0, 86_400), {
    title: "shortest pause once charging was stopped",
    unit: "s",
    ask: "Read the setting back.",
  }),
  law: laterFact(z.enum(CONTROL_LAWS), {
    title: "how the manager finds the next offer",
    ask: "From the manager's instructions: the room the building leaves (direct), or steps up and down from the last offer (integrating).",
  }),
  sharing: laterFact(z.enum(SHARINGS), {
    title: "how charge points share the room",
    ask: "Read the setting back; not applicable to a single charge point.",
  }),
  isLimitationScheme: fact(yesNo, {
    title: "holds the site to a limit agreed with the operator",
    ask: "See whether the operator agreed to a limit because of this load manager.",
  }),
  lock: fact(z.enum(LOCKS), {
    title: "how the settings are locked",
    ask: "Try to change the limit as the customer would.",
  }),
  responseS: fact(number(0, 86_400), {
    title: "time to come back under the limit, measured",
    unit: "s",
    ask: "With the car charging, switch on a large load and time it.",
  }),
  failures: z
    .array(
      z.strictObject({
        failure: z.enum(FAILURES),
        offeredA: fact(number(0, 250), {
          title: "current offered after the failure, per line",
          unit: "A",
          ask: "Cause the failure safely, wait for the time-out, read the offered current.",
        }),
      }),
    )
    .max(30),
});
