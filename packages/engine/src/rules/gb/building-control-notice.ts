import { missing } from "../../job/index.ts";
import { addDays, weekdaysBetween } from "../../quantities/index.ts";
import { isKnown } from "../../worked/index.ts";
import { cannotTell, factsOf, type Judgement, notApplicable, rule, type Subject } from "../rule.ts";

const subject: Subject = { id: "work", label: "the work", path: "work.buildingControlToldOn" };

/** Building control hears of a new circuit in a dwelling, before the work or through the scheme after it. */
export const buildingControlNotice = rule({
  id: "building-control-notice",
  title: "Building control is told of a new circuit in a dwelling",
  stage: "decide",
  jurisdictions: ["england", "wales"],
  messages: {
    notDwelling: "Not a dwelling.",
    noNewCircuit: "No new circuit; not notifiable on that account.",
    unknown:
      "Record the kind of premises, whether a circuit is added, and whether the installer may self-certify.",
    selfCertifyLater:
      "Notifiable. Self-certify: notice and the customer's certificate within {days} days of completion.",
    dateUnknown:
      "Notifiable, and the certificate is signed: record the day it was made live. Notice and the customer's certificate are due {days} days after.",
    selfCertifyDue:
      "Notifiable. Send the notice and the customer's certificate by {due}, and record the day.",
    selfCertified: "Notifiable; told on {told}, due by {due}.",
    selfCertifiedLate: "Notifiable; told on {told}, after {due}. Tell the scheme and the customer.",
    noticeFirst:
      "Notifiable and the installer may not self-certify. Give notice to building control and let {ahead} working days pass before starting, or use a third-party certifier.",
    noticeGiven:
      "Notice given on {told}, {ahead} working days or more before work starts on {starts}. See that no bank holiday falls between.",
    noticeLate:
      "Notice given on {told}: {ahead} working days did not pass before work started on {starts}. Ask building control how to put it right.",
  },
  judge({ job, figures }) {
    const { premises } = job.site;
    const { addsCircuit, installerIsRegistered, buildingControlToldOn, energisedOn, signedOn, startsOn } =
      job.work;
    const facts = factsOf(
      premises,
      addsCircuit,
      installerIsRegistered,
      buildingControlToldOn,
      startsOn,
      signedOn,
    );
    if (premises.state === "known" && premises.value !== "dwelling")
      return [notApplicable(subject, "notDwelling", facts)];
    if (addsCircuit.state === "known" && !addsCircuit.value)
      return [notApplicable(subject, "noNewCircuit", facts)];
    const unknown = [premises, addsCircuit, installerIsRegistered].filter((fact) => fact.state !== "known");
    if (unknown.length > 0) return [cannotTell(subject, "unknown", unknown.map(missing), { facts })];
    const told = buildingControlToldOn;
    const say = (
      verdict: "pass" | "fail",
      message: Message,
      data: Record<string, string>,
    ): Judgement<Message> => ({
      subject,
      verdict,
      message,
      data,
      facts,
    });
    if (installerIsRegistered.state === "known" && installerIsRegistered.value) {
      const days = figures("buildingNoticeDays");
      if (energisedOn.state !== "known" || !isKnown(days)) {
        const data = { days: isKnown(days) ? String(days.value) : "–" };
        if (signedOn.state === "known")
          return [cannotTell(subject, "dateUnknown", [missing(energisedOn)], { data, facts })];
        return [{ ...notApplicable(subject, "selfCertifyLater", facts), data }];
      }
      const due = addDays(energisedOn.value, days.value);
      if (told.state !== "known")
        return [cannotTell(subject, "selfCertifyDue", [missing(told)], { data: { due }, facts })];
      const inTime = told.value <= due;
      return [
        say(inTime ? "pass" : "fail", inTime ? "selfCertified" : "selfCertifiedLate", {
          told: told.value,
          due,
        }),
      ];
    }
    const ahead = figures("buildingNoticeAheadDays");
    const data = { ahead: isKnown(ahead) ? String(ahead.value) : "–" };
    const unsaid = [told, startsOn].find((fact) => fact.state !== "known");
    if (told.state !== "known" || startsOn.state !== "known" || !isKnown(ahead))
      return [cannotTell(subject, "noticeFirst", [missing(unsaid ?? told)], { data, facts })];
    const inTime = weekdaysBetween(told.value, startsOn.value) >= ahead.value;
    return [
      say(inTime ? "pass" : "fail", inTime ? "noticeGiven" : "noticeLate", {
        ...data,
        told: told.value,
        starts: startsOn.value,
      }),
    ];
  },
});

type Message =
  | "notDwelling"
  | "noNewCircuit"
  | "unknown"
  | "selfCertifyLater"
  | "dateUnknown"
  | "selfCertifyDue"
  | "selfCertified"
  | "selfCertifiedLate"
  | "noticeFirst"
  | "noticeGiven"
  | "noticeLate";
