import type { Recording } from "../../demand/index.ts";
import { decide, isKnown, type Missing, type Quantity } from "../../worked/index.ts";
import {
  cannotTell,
  compare,
  type Judgement,
  notApplicable,
  rule,
  type Subject,
  shownOf,
  UNITED_KINGDOM,
} from "../rule.ts";
import type { Study } from "../study.ts";

type Message =
  | "none"
  | "used"
  | "cannotContain"
  | "betterUsed"
  | "raises"
  | "tooShort"
  | "unreadable"
  | "empty"
  | "noSuchLine"
  | "unknown";

const nothing: Subject = { id: "recordings", label: "the recordings", path: "demand.recordings" };

/** No recording is left out, or believed too far, without a word. */
export const recordingUsed = rule<Message>({
  id: "recording-used",
  title: "Each recording of the demand can be used",
  stage: "decide",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    none: "There is no recording; the list of circuits is the demand.",
    used: 'The recording "{recording}" of {line} covers {days} and goes before the list of circuits.',
    cannotContain:
      'The recording "{recording}" of {line} stays below {loads} alone, so it cannot contain that load; it is counted on top. List it as not included, or record again with it in use.',
    betterUsed: 'A longer recording of {line} than "{recording}" is used.',
    raises:
      'The recording "{recording}" of {line} reached {low}, more than the longer one: the demand is raised to it.',
    tooShort:
      'The recording "{recording}" of {line} is left out: it covers {days}, and {least} are wanted before it goes before the list of circuits; only the highest it reached counts. Record for longer.',
    unreadable: 'The recording "{recording}" of {line} is left out: {why}.',
    empty:
      'The recording "{recording}" of {line} is left out: its file holds no reading in the days that count. Compare the days and columns with the file.',
    noSuchLine:
      'The recording "{recording}" is of {line}, which this supply does not have. It is left out; correct the line.',
    unknown:
      'The recording "{recording}" of {line} does not go before the list of circuits until its missing facts are recorded.',
  },
  judge: (study) => {
    const { recordings } = study.job.demand;
    if (recordings.length === 0) return [notApplicable(nothing, "none")];
    return recordings.map((recording) => judgeRecording(study, recording));
  },
});

function judgeRecording(study: Study, recording: Recording): Judgement<Message> {
  const path = `demand.recordings[${recording.id}]`;
  const subject: Subject = { id: recording.id, label: `the recording "${recording.id}"`, path };
  const name = { recording: recording.id, line: recording.line };
  const existing = study.demand.find(({ line }) => line === recording.line)?.existing;
  if (existing === undefined) {
    const lacks = [{ path: `${path}.line`, label: `the line of "${recording.id}"`, what: "fact" as const }];
    return cannotTell(subject, "noSuchLine", lacks, { data: name });
  }
  const { used, others } = existing;
  const evidence = [used, ...others].find(({ id, kind }) => id === recording.id && kind === recording.kind);
  const { high, days } = evidence ?? used;
  if (evidence === undefined || days === null || !isKnown(high) || !isKnown(days)) {
    const isFile = recording.kind === "interval-series";
    const why = study.inputs.unread?.get(recording.id) ?? "its file was not read";
    const isRead = study.inputs.series.has(recording.id);
    const message = !isFile || (days !== null && isKnown(days)) ? "unknown" : isRead ? "empty" : "unreadable";
    return cannotTell(subject, message, lacksOf(high, days), { data: { ...name, why } });
  }
  if (evidence !== used && used.kind !== "circuit-list") {
    return existing.raisedBy.includes(recording.id)
      ? {
          subject,
          verdict: "pass",
          message: "raises",
          action: "caution",
          data: { ...name, low: shownOf(evidence.low, 1, "up") },
          workings: [evidence.low],
        }
      : { ...notApplicable(subject, "betterUsed"), data: name };
  }
  const least = study.figures("minRecordingDays");
  const data = { ...name, days: shownOf(days, 1, "down"), least: shownOf(least, 0) };
  if (evidence.cannotContain.length > 0 && evidence === used) {
    const loads = evidence.cannotContain.map(({ label }) => label).join(", ");
    const lacks = [
      {
        path: `${path}.doesNotInclude`,
        label: `whether ${loads} was on while recording`,
        what: "fact" as const,
      },
    ];
    return cannotTell(subject, "cannotContain", lacks, {
      data: { ...data, loads },
      workings: [high],
    });
  }
  return compare({
    subject,
    check: { left: days, relation: ">=", right: least },
    holds: "used",
    broken: {
      message: "tooShort",
      verdict: "cannot-tell",
      missing: [
        { path: "demand.recordings", label: `a longer recording of ${recording.line}`, what: "fact" },
      ],
    },
    unknown: "unknown",
    data,
  });
}

/** What both lack, each thing once. */
function lacksOf(high: Quantity, days: Quantity | null): readonly Missing[] {
  const result = decide({ left: high, relation: ">=", right: days ?? high });
  return result.state === "unknown" ? result.missing : [];
}
