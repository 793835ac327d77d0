import { isCurrentOutput, leadThatWouldDo, secondaryBurden } from "../../metering/index.ts";
import { decide, isKnown, step } from "../../worked/index.ts";
import { compare, notApplicable, rule, shownOf, UNITED_KINGDOM } from "../rule.ts";
import { noTransformers, transformerSubject } from "./transformer-subject.ts";

/** Lead, contacts and meter together load the transformer no more than it is rated for. */
export const transformerBurden = rule({
  id: "transformer-burden",
  title: "Lead and meter do not overburden the transformers",
  stage: "size",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    none: "No current transformers are planned.",
    ownOutput:
      "{transformer} gives volts or milliamperes to a meter made for it. Keep the pair together and the lead as supplied: changed on site, no accuracy is promised.",
    within:
      "{transformer}: lead, contacts and meter take {burden} of the rated {rated}; the lead may be {longest} long.",
    light:
      "{transformer}: lead, contacts and meter take only {burden} of the rated {rated}, below the {least} from which the class is promised. In practice errors shrink.",
    over: "{transformer}: lead, contacts and meter take {burden}, more than the rated {rated}. {cure}",
    leadAlone:
      "{transformer}: the lead alone takes {lead} of the rated {rated}. Shorten it, make it thicker, or fit a transformer of 1 A output.",
    unknown: "Record output, rated burden, lead and the meter's own burden for {transformer}.",
  },
  judge: ({ job, knowledge, figures }) => {
    const { metering } = job;
    if (metering === null || metering.currentTransformers.length === 0) return [noTransformers("none")];
    return metering.currentTransformers.map((transformer) => {
      const subject = transformerSubject(transformer, "ratedBurdenVa");
      const data = { transformer: transformer.id };
      if (transformer.output.state === "known" && !isCurrentOutput(transformer)) {
        return { ...notApplicable(subject, "ownOutput"), data };
      }
      const inputs = {
        transformer,
        meterBurdenVa: metering.meterBurdenVa,
        tables: knowledge.metering,
        figures,
      };
      const { lead, total, rated, longestLead } = secondaryBurden(inputs);
      const shown = {
        ...data,
        burden: shownOf(total, 2, "up"),
        lead: shownOf(lead, 2, "up"),
        rated: shownOf(rated, 2),
        longest: shownOf(longestLead, 1, "down"),
        least: shownOf(figures("burdenLeastPercent"), 0),
        cure: cureFor(isKnown(longestLead) ? longestLead.value : 0, leadThatWouldDo(inputs)),
      };
      const overall = { left: total, relation: "<=", right: rated } as const;
      if (decide({ ...overall, left: lead }).state === "broken") {
        return compare({
          subject,
          check: { ...overall, left: lead },
          holds: "within",
          broken: "leadAlone",
          unknown: "unknown",
          data: shown,
        });
      }
      const share = step({
        symbol: "ps",
        label: "burden over rated burden",
        unit: "%",
        clause: "transformer-burden",
        formula: "100 * S / Sr",
        inputs: { S: total, Sr: rated },
        compute: ({ S, Sr }) => (100 * S) / Sr,
      });
      const isLight =
        isKnown(share) && share.value < (figures("burdenLeastPercent") as { value: number }).value;
      return compare({
        subject,
        check: overall,
        holds: isLight ? { message: "light", action: "caution" } : "within",
        broken: "over",
        unknown: "unknown",
        data: shown,
        workings: [share, longestLead].filter(isKnown),
        turnsOn: transformer.leadLengthM,
      });
    });
  },
});

function cureFor(longestM: number, thickerMm2: number | undefined): string {
  const shorter =
    longestM > 0.05
      ? `The lead may be ${(Math.floor(longestM * 10) / 10).toString()} m`
      : "No lead of this kind is short enough";
  return thickerMm2 === undefined
    ? `${shorter}. Fit a transformer of larger rated burden or of 1 A output.`
    : `${shorter}; ${thickerMm2} mm² would do at this length.`;
}
