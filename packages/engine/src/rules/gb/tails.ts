import { given } from "../../job/index.ts";
import type { SupplyCable } from "../../supply/index.ts";
import { decide, isKnown, total } from "../../worked/index.ts";
import {
  cannotTell,
  compare,
  factsOf,
  type Judgement,
  rule,
  type Subject,
  shownOf,
  UNITED_KINGDOM,
} from "../rule.ts";
import type { Study } from "../study.ts";
import { cableSubject, undescribed } from "../subjects.ts";
import { tailsOf } from "./tails-of.ts";

type Message =
  | "short"
  | "long"
  | "agreed"
  | "longUnknown"
  | "size"
  | "thin"
  | "sizeUnknown"
  | "notSurveyed"
  | "none";

const lengthSubject: Subject = { id: "tails", label: "the tails", path: "cables" };

/** Tails that only the cut-out protects are short and thick enough. */
export const tails = rule<Message>({
  id: "tails",
  title: "The tails are short and thick enough",
  stage: "survey",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    none: "A device follows the cut-out directly.",
    short: "{length} from the cut-out to the next device; up to {most} is usual.",
    long: "{length} from the cut-out to the next device is more than {most}. Fit a switch-fuse near the meter, or get the operator's agreement.",
    agreed: "{length} from the cut-out to the next device; the operator agrees.",
    longUnknown: "Measure the tails from the cut-out to the next device.",
    size: "{cable}: {size}; at least {least} behind a fuse of {fuse}.",
    thin: "{cable}: {size} is less than the {least} asked for behind a fuse of {fuse}. Replace the tails; 25 mm² is also the most that common terminals take.",
    sizeUnknown: "{cable}: record the size of the tails and the main fuse.",
    notSurveyed: "{cable} has not been described.",
  },
  judge: (study) => {
    const cables = tailsOf(study);
    if (cables.length === 0)
      return [{ subject: lengthSubject, verdict: "not-applicable", message: "none", data: {} }];
    return [judgeLength(study, cables), ...cables.map((cable) => judgeSize(study, cable))];
  },
});

/** The longest way along the tails. */
function judgeLength({ job, tree, figures }: Study, cables: readonly SupplyCable[]): Judgement<Message> {
  const ends = cables.filter((cable) => !cables.some((other) => other.from === cable.to));
  const lengths = ends.map((end) =>
    total(
      { symbol: "Lt", label: `length of the tails to ${end.to}`, unit: "m", clause: "tails" },
      tree
        .pathTo(end.to)
        .filter((cable) => cables.includes(cable))
        .map((cable) =>
          typeof cable.run === "string"
            ? {
                kind: "unknown",
                symbol: "L",
                label: "length",
                unit: "m",
                missing: undescribed(cable).missing,
              }
            : given(cable.run.lengthM, "L"),
        ),
    ),
  );
  const longest =
    lengths.find((length) => !isKnown(length)) ??
    lengths.reduce((most, length) =>
      isKnown(length) && isKnown(most) && length.value > most.value ? length : most,
    );
  const most = figures("tailsMaxM");
  const { agreesLongTails } = job.supply.operator;
  const data = { length: shownOf(longest, 1, "up"), most: shownOf(most, 1) };
  const check = { left: longest, relation: "<=", right: most } as const;
  const isAgreed = agreesLongTails.state === "known" && agreesLongTails.value;
  if (decide(check).state === "broken" && isAgreed) {
    return {
      subject: lengthSubject,
      verdict: "pass",
      message: "agreed",
      data,
      facts: factsOf(agreesLongTails),
      check,
    };
  }
  return compare({
    subject: lengthSubject,
    check,
    holds: "short",
    broken: "long",
    unknown: "longUnknown",
    data,
  });
}

function judgeSize({ tree, figures }: Study, cable: SupplyCable): Judgement<Message> {
  const name = { cable: cable.name };
  if (typeof cable.run === "string") {
    const { subject, missing } = undescribed(cable);
    return cannotTell(subject, "notSurveyed", missing, { data: name });
  }
  const fuse = given(tree.cutOut.overcurrent.ratingA, "In");
  const size = given(cable.run.lineMm2, "S");
  const is100A = isKnown(fuse) && fuse.value > 80;
  const least = figures(is100A ? "tailsMinMm2At100A" : "tailsMinMm2");
  return compare({
    subject: cableSubject(cable, "lineMm2"),
    check: { left: size, relation: ">=", right: isKnown(fuse) ? least : fuse },
    holds: "size",
    broken: "thin",
    unknown: "sizeUnknown",
    data: { ...name, size: shownOf(size, 1, "down"), least: shownOf(least, 0), fuse: shownOf(fuse, 0) },
    facts: factsOf(tree.cutOut.overcurrent.ratingA),
    turnsOn: cable.run.lineMm2,
  });
}
