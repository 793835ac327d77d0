import * as z from "zod";
import { fact, number, words, yesNo } from "../fact.ts";

const LOCKS = ["password", "pin", "seal", "none"] as const;
export const FAILURES = [
  "transformer-open",
  "transformer-reversed",
  "bus-lost",
  "meter-power-lost",
  "manager-power-lost",
  "setting-lost",
] as const;

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
