import { given } from "../../job/index.ts";
import type { SupplyCable } from "../../supply/index.ts";
import { decide, missingDecision } from "../../worked/index.ts";
import { compare, factsOf, type Judgement, notApplicable, rule, shownOf, UNITED_KINGDOM } from "../rule.ts";
import type { Study } from "../study.ts";
import { cableSubject } from "../subjects.ts";
import { tailsOf } from "./tails-of.ts";

type Message = "asLarge" | "smaller" | "reduced" | "noNeutral" | "unknown";

/** The neutral of a cable carries what its line carries. */
export const neutralConductor = rule<Message>({
  id: "neutral-conductor",
  title: "The neutral is as large as the line",
  stage: "size",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    asLarge: "{cable}: neutral {neutral}, line {line}.",
    smaller:
      "{cable}: the neutral of {neutral} is smaller than the line of {line} and carries as much. Replace the cable, or the neutral.",
    reduced:
      "{cable}: the neutral of {neutral} is smaller than the line of {line}. On three phases above {full} a designer may allow it by the current it will carry; let one settle it.",
    noNeutral: "{cable} has no neutral.",
    unknown: "{cable}: record the sizes of line and neutral.",
  },
  judge: (study) =>
    [...new Set([...tailsOf(study), ...study.circuits.flatMap(({ path }) => path)])].flatMap((cable) =>
      judgeCable(study, cable),
    ),
});

/** Nothing of a cable nobody has described: every other rule asks for it. */
function judgeCable({ figures }: Study, cable: SupplyCable): readonly Judgement<Message>[] {
  const { run } = cable;
  if (typeof run === "string") return [];
  const subject = cableSubject(cable, "neutralMm2");
  const isPolyphase = cable.lines.length > 1;
  if (isPolyphase && run.neutralMm2.state === "not-applicable")
    return [{ ...notApplicable(subject, "noNeutral", factsOf(run.neutralMm2)), data: { cable: cable.name } }];
  const line = given(run.lineMm2, "S");
  const full = figures("neutralFullUpToMm2");
  const mayBeReduced = isPolyphase && decide({ left: line, relation: "<=", right: full }).state === "broken";
  const neutral = given(run.neutralMm2, "Sn");
  return [
    compare({
      subject,
      check: { left: neutral, relation: ">=", right: line },
      holds: "asLarge",
      broken: mayBeReduced
        ? {
            message: "reduced",
            verdict: "cannot-tell",
            action: "refer",
            missing: [missingDecision(`whether the reduced neutral of ${cable.name} carries its current`)],
          }
        : "smaller",
      unknown: "unknown",
      data: {
        cable: cable.name,
        neutral: shownOf(neutral, 1),
        line: shownOf(line, 1),
        full: shownOf(full, 0),
      },
      workings: mayBeReduced ? [full] : [],
      turnsOn: run.neutralMm2,
    }),
  ];
}
