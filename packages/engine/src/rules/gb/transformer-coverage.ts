import { missing } from "../../job/index.ts";
import type { Line } from "../../quantities/index.ts";
import { transformerView } from "../../supply/index.ts";
import {
  cannotTell,
  factsOf,
  type Judgement,
  notApplicable,
  rule,
  type Subject,
  UNITED_KINGDOM,
} from "../rule.ts";
import type { Study } from "../study.ts";

type Message = "none" | "noMeter" | "seesAll" | "notLookedAt" | "misses" | "lineUnseen" | "onNeutral";

const subjectOf = (line: Line): Subject => ({
  id: `line-${line}`,
  label: `the current transformer on ${line}`,
  path: "metering.currentTransformers",
});

/** The current transformer of each line carries exactly what the main fuse carries. */
export const transformerCoverage = rule<Message>({
  id: "transformer-coverage",
  title: "The meter sees everything the main fuse carries",
  stage: "size",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    none: "No load manager is planned.",
    noMeter:
      "Decide where the current transformers go: on each line, before every split, so that they see all that the main fuse carries.",
    seesAll: "{transformer} on {cable} sees everything the main fuse carries on {line}.",
    notLookedAt:
      "{transformer} is drawn on {cable}, where it would see everything the main fuse carries on {line}. Settle that this is its place, and record its plate.",
    misses:
      "{transformer} on {cable} does not see {misses}. Move it upstream of the split, next to the cut-out.",
    lineUnseen: "No current transformer watches {line}. The load manager is blind on that line; fit one.",
    onNeutral:
      "{transformer} is on the neutral: it sees the sum of the lines, not {line}. Move it to the line conductor.",
  },
  judge: (study) => {
    const { limiter, metering } = study.job;
    if (limiter === null) return [notApplicable(subjectOf("L1"), "none")];
    if (metering === null) {
      return [
        cannotTell(subjectOf("L1"), "noMeter", [
          {
            path: "metering",
            label: "the metering chain: which transformer on which conductor",
            what: "fact",
          },
        ]),
      ];
    }
    return study.lines.map((line) => judgeLine(study, line));
  },
});

function judgeLine({ job, tree }: Study, line: Line): Judgement<Message> {
  const subject = subjectOf(line);
  const views = (job.metering?.currentTransformers ?? [])
    .filter(
      (transformer) =>
        transformer.conductor === line || (transformer.conductor === "N" && transformer.channel === line),
    )
    .map((transformer) => transformerView(tree, transformer));
  const best = views.find((view) => view.seesAll) ?? views[0];
  if (best === undefined) return { subject, verdict: "fail", message: "lineUnseen", data: { line } };
  const data = {
    transformer: best.transformer.id,
    cable: tree.cable(best.transformer.cable).name,
    line,
    misses: best.misses.map((end) => end.label).join(", "),
  };
  const at = { ...subject, path: `metering.currentTransformers[${best.transformer.id}].cable` };
  if (best.seesAll) {
    const { arrow, output, ratedPrimaryA } = best.transformer;
    const facts = factsOf(arrow, output, ratedPrimaryA);
    return facts.length === 0
      ? cannotTell(at, "notLookedAt", [missing(ratedPrimaryA)], { data })
      : { subject: at, verdict: "pass", message: "seesAll", data, facts };
  }
  return { subject: at, verdict: "fail", message: best.line === null ? "onNeutral" : "misses", data };
}
