import { given, missing } from "../../job/index.ts";
import { decide } from "../../worked/index.ts";
import { ownResidual, residualDevices } from "../point-protection.ts";
import { cannotTell, compare, factsOf, type Judgement, rule, shownOf, UNITED_KINGDOM } from "../rule.ts";
import type { PointCircuit, Study } from "../study.ts";
import { testField, testOf } from "./circuit-test.ts";

type Message = "inTime" | "inTimeDelayed" | "tooQuick" | "tooSlow" | "shortTimeUnproved" | "unknown" | "none";

/** The residual current device trips in time at its rated current. */
export const residualDeviceTime = rule<Message>({
  id: "residual-device-time",
  title: "Residual current devices trip in time",
  stage: "prove",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    inTime: "{point}: {measured} at rated residual current; not above {most}.",
    inTimeDelayed: "{point}: {measured}, time-delayed, between {least} and {most}.",
    tooQuick:
      "{point}: {measured} is quicker than {least}; a time-delayed device must wait. Check which device was tested.",
    tooSlow: "{point}: {measured} is above {most}. Replace the device.",
    shortTimeUnproved:
      "{point}: {measured} passes at rated current, but with an earth electrode {short} is wanted and this test does not show it. Test at five times the rated current, or find the maker's figure.",
    unknown:
      "{point}: test at one times the rated residual current on both half-waves and record the longest time.",
    none: "{point} has no residual current device of its own to test.",
  },
  judge: (study) => study.circuits.map((circuit) => judgePoint(study, circuit)),
});

function judgePoint(study: Study, circuit: PointCircuit): Judgement<Message> {
  const { figures, job } = study;
  const own = ownResidual(residualDevices(study, circuit));
  const place = testField(circuit, "rcdTimeMs", "residual current device time");
  const name = { point: circuit.point.label };
  if (own === undefined) return { subject: place.subject, verdict: "fail", message: "none", data: name };
  const test = testOf(study, circuit);
  if (test === undefined) return cannotTell(place.subject, "unknown", place.missing, { data: name });
  const { isTimeDelayed } = own.device;
  if (isTimeDelayed.state !== "known")
    return cannotTell(place.subject, "unknown", [missing(isTimeDelayed)], { data: name });
  const measured = given(test.rcdTimeMs, "t");
  const most = figures(isTimeDelayed.value ? "residualTimeDelayedMaxMs" : "residualTimeMs");
  const least = figures("residualTimeDelayedMinMs");
  const short = figures("residualTimeTtMs");
  const data = {
    ...name,
    measured: shownOf(measured, 0, "up"),
    most: shownOf(most, 0),
    least: shownOf(least, 0),
    short: shownOf(short, 0),
  };
  const facts = factsOf(isTimeDelayed, job.earthing.arrangement);
  const common = {
    subject: place.subject,
    unknown: "unknown",
    data,
    facts,
    turnsOn: test.rcdTimeMs,
  } as const;
  const quick = { left: measured, relation: ">=", right: least } as const;
  if (isTimeDelayed.value && decide(quick).state === "broken") {
    return compare({ ...common, check: quick, holds: "inTimeDelayed", broken: "tooQuick" });
  }
  const isTt = job.earthing.arrangement.state === "known" && job.earthing.arrangement.value === "TT";
  const isShort =
    decide({ left: measured, relation: "<=", right: short }).state === "holds" ||
    decide({ left: given(test.rcdTimeAtFiveMs, "t5"), relation: "<=", right: short }).state === "holds";
  return compare({
    ...common,
    check: { left: measured, relation: "<=", right: most },
    holds: isTimeDelayed.value
      ? "inTimeDelayed"
      : isTt && !isShort
        ? { message: "shortTimeUnproved", action: "caution" }
        : "inTime",
    broken: "tooSlow",
  });
}
