import { given } from "../../job/index.ts";
import { effectivePrimary, isCurrentOutput, ratedSecondary } from "../../metering/index.ts";
import { isKnown, step } from "../../worked/index.ts";
import { compare, notApplicable, rule, shownOf, UNITED_KINGDOM } from "../rule.ts";
import { noTransformers, transformerSubject } from "./transformer-subject.ts";

/** What is set in the meter is what the transformers do. */
export const meterRatio = rule({
  id: "meter-ratio",
  title: "The ratio set in the meter is that of the transformers",
  stage: "fit",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    none: "No current transformers are planned.",
    notByRatio:
      "{transformer} has no current output of 1 A or 5 A: its meter is set by rated primary current. Set {primary}, and prove it with a known load.",
    right: "{set} is set; {transformer} is {ratio} as fitted.",
    wrong:
      "{set} is set, but {transformer} is {ratio} as fitted: every reading is {times} times what flows. Set {ratio}, read it back, and prove it with a known load.",
    ratioUnknown: "Read the plate of {transformer} and count the turns; the ratio to set follows from them.",
    unknown: "Set the ratio to {ratio} for {transformer}, read it back and record it.",
  },
  judge: ({ job, knowledge }) => {
    const { metering } = job;
    if (metering === null || metering.currentTransformers.length === 0) return [noTransformers("none")];
    return metering.currentTransformers.map((transformer) => {
      const subject = transformerSubject(transformer, "output");
      const primary = effectivePrimary(transformer);
      const ratio = step({
        symbol: "Kn",
        label: "ratio of the transformer as fitted",
        unit: "",
        clause: "meter-ratio",
        formula: "Ipr / Isr",
        inputs: { Ipr: primary, Isr: ratedSecondary(transformer, knowledge.metering) },
        compute: ({ Ipr, Isr }) => Ipr / Isr,
      });
      if (transformer.output.state === "known" && !isCurrentOutput(transformer)) {
        const judgement = notApplicable(subject, "notByRatio");
        return { ...judgement, data: { transformer: transformer.id, primary: shownOf(primary, 0) } };
      }
      const set = given(metering.ratioSetting, "Kset");
      const off = step({
        symbol: "d",
        label: "deviation of the setting from the ratio",
        unit: "%",
        clause: "meter-ratio",
        formula: "100 * abs(Kset / Kn - 1)",
        inputs: { Kset: set, Kn: ratio },
        compute: ({ Kset, Kn }) => 100 * Math.abs(Kset / Kn - 1),
      });
      const times = isKnown(set) && isKnown(ratio) ? set.value / ratio.value : Number.NaN;
      return compare({
        subject,
        check: { left: off, relation: "<=", right: ALLOWED },
        holds: "right",
        broken: "wrong",
        unknown: isKnown(ratio) ? "unknown" : "ratioUnknown",
        data: {
          transformer: transformer.id,
          set: shownOf(set, 3),
          ratio: shownOf(ratio, 3),
          times: { value: times, unit: "", decimals: 3, rounding: "nearest" },
        },
        turnsOn: metering.ratioSetting,
      });
    });
  },
});

/** A setting may be rounded, not wrong. */
const ALLOWED = {
  kind: "figure",
  symbol: "dmax",
  label: "rounding of a ratio that is still right",
  unit: "%",
  value: 0.5,
  citation: { source: "house-methods", at: "Current transformers", standing: "own" },
} as const;
