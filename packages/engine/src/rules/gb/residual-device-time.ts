import { given, missing } from "../../job/index.ts";
import { decide } from "../../worked/index.ts";
import { isEarthedByElectrode } from "../earthed-by-electrode.ts";
import { ownResidual, type PlacedResidual, residualDevices } from "../point-protection.ts";
import { cannotTell, compare, factsOf, type Judgement, rule, shownOf, UNITED_KINGDOM } from "../rule.ts";
import type { PointCircuit, Study } from "../study.ts";
import { type CircuitTest, testField, testOf } from "./circuit-test.ts";

type Message =
  | "inTime"
  | "inTimeDelayed"
  | "tooQuick"
  | "tooSlow"
  | "shortTimeUnproved"
  | "unknown"
  | "atFiveInTime"
  | "atFiveTooSlow"
  | "buttonWorks"
  | "buttonDead"
  | "buttonUnknown"
  | "none";

/** The residual current device trips in time, and by its own test button. */
export const residualDeviceTime = rule<Message>({
  id: "residual-device-time",
  title: "Residual current devices (RCDs) trip in time and by their button",
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
    atFiveInTime: "{point}: {measured} at five times rated residual current; not above {most}.",
    atFiveTooSlow:
      "{point}: {measured} at five times rated residual current is above {most}. Replace the device.",
    buttonWorks: "{point}: the device trips by its test button.",
    buttonDead: "{point}: the device does not trip by its test button. Replace it.",
    buttonUnknown: "{point}: press the test button after the instrument test and record whether it trips.",
    none: "{point} has no residual current device of its own to test.",
  },
  judge: (study) => study.circuits.flatMap((circuit) => judgePoint(study, circuit)),
});

function judgePoint(study: Study, circuit: PointCircuit): readonly Judgement<Message>[] {
  const own = ownResidual(residualDevices(study, circuit));
  const place = testField(circuit, "rcdTimeMs", "residual current device time");
  const data = { point: circuit.point.label };
  if (own === undefined) return [{ subject: place.subject, verdict: "fail", message: "none", data }];
  const test = testOf(study, circuit);
  const atRated =
    test === undefined
      ? cannotTell<Message>(place.subject, "unknown", place.missing, { data })
      : judgeAtRated(study, circuit, own, test);
  return [atRated, ...judgeAtFive(study, circuit, own, test), judgeButton(circuit, test)];
}

function judgeAtRated(
  study: Study,
  circuit: PointCircuit,
  own: PlacedResidual,
  test: CircuitTest,
): Judgement<Message> {
  const { subject } = testField(circuit, "rcdTimeMs", "residual current device time");
  const name = { point: circuit.point.label };
  const { figures, job } = study;
  const { isTimeDelayed } = own.device;
  if (isTimeDelayed.state !== "known")
    return cannotTell(subject, "unknown", [missing(isTimeDelayed)], { data: name });
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
  const facts = factsOf(isTimeDelayed, job.earthing.arrangement, circuit.point.openPen.method);
  const common = {
    subject,
    unknown: "unknown",
    data,
    facts,
    turnsOn: test.rcdTimeMs,
  } as const;
  const quick = { left: measured, relation: ">=", right: least } as const;
  if (isTimeDelayed.value && decide(quick).state === "broken") {
    return compare({ ...common, check: quick, holds: "inTimeDelayed", broken: "tooQuick" });
  }
  const isShort =
    decide({ left: measured, relation: "<=", right: short }).state === "holds" ||
    decide({ left: given(test.rcdTimeAtFiveMs, "t5"), relation: "<=", right: short }).state === "holds";
  return compare({
    ...common,
    check: { left: measured, relation: "<=", right: most },
    holds:
      isEarthedByElectrode(study, circuit) && !isShort
        ? { message: "shortTimeUnproved", action: "caution" }
        : isTimeDelayed.value
          ? "inTimeDelayed"
          : "inTime",
    broken: "tooSlow",
  });
}

/** Five times the rated current is not asked for any more; a reading somebody took is judged all the same. */
function judgeAtFive(
  { figures }: Study,
  circuit: PointCircuit,
  { device: { isTimeDelayed } }: PlacedResidual,
  test: CircuitTest | undefined,
): readonly Judgement<Message>[] {
  if (test?.rcdTimeAtFiveMs.state !== "known" || isTimeDelayed.state !== "known") return [];
  const { subject } = testField(circuit, "rcdTimeAtFiveMs", "time at five times rated current");
  const measured = given(test.rcdTimeAtFiveMs, "t5");
  const most = figures(isTimeDelayed.value ? "residualTimeDelayedAtFiveMs" : "residualTimeAtFiveMs");
  return [
    compare({
      subject: { ...subject, id: `${subject.id}-at-five` },
      check: { left: measured, relation: "<=", right: most },
      holds: "atFiveInTime",
      broken: "atFiveTooSlow",
      unknown: "unknown",
      data: { point: circuit.point.label, measured: shownOf(measured, 0, "up"), most: shownOf(most, 0) },
      facts: factsOf(isTimeDelayed),
      turnsOn: test.rcdTimeAtFiveMs,
    }),
  ];
}

function judgeButton(circuit: PointCircuit, test: CircuitTest | undefined): Judgement<Message> {
  const field = testField(circuit, "rcdButtonWorks", "test button works");
  const subject = { ...field.subject, id: `${field.subject.id}-button` };
  const data = { point: circuit.point.label };
  const works = test?.rcdButtonWorks;
  if (works?.state !== "known")
    return cannotTell(subject, "buttonUnknown", works ? [missing(works)] : field.missing, { data });
  const facts = factsOf(works);
  return works.value
    ? { subject, verdict: "pass", message: "buttonWorks", data, facts }
    : { subject, verdict: "fail", message: "buttonDead", data, facts };
}
