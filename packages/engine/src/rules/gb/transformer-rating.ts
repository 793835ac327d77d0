import { chainError, effectivePrimary } from "../../metering/index.ts";
import { isKnown, step } from "../../worked/index.ts";
import { compare, rule, shownOf, UNITED_KINGDOM } from "../rule.ts";
import { noTransformers, transformerSubject } from "./transformer-subject.ts";

/** The transformer measures up to what the main fuse carries, within its class. */
export const transformerRating = rule({
  id: "transformer-rating",
  title: "The current transformers are rated for the main fuse",
  stage: "size",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    none: "No current transformers are planned.",
    enough: "{transformer}, rated {rated} as fitted, measures to {most}; the main fuse carries {fuse}.",
    small:
      "{transformer}, rated {rated} as fitted, measures to {most} only; the main fuse carries {fuse}. Fit a larger one, or pass the conductor through fewer times.",
    unknown: "Read the rated primary current on {transformer} and count the turns.",
  },
  judge: ({ job: { metering }, figures, supplyLimit, knowledge }) => {
    if (metering === null || metering.currentTransformers.length === 0) return [noTransformers("none")];
    const { currentTransformers: transformers, meterClass } = metering;
    return transformers.map((transformer) => {
      const rated = effectivePrimary(transformer);
      const most = step({
        symbol: "Imax",
        label: "greatest current within the transformer's class",
        unit: "A",
        clause: "transformer-rating",
        formula: "kov * Ipr",
        inputs: { kov: figures("transformerOverload"), Ipr: rated },
        compute: ({ kov, Ipr }) => kov * Ipr,
      });
      const error = chainError(supplyLimit, { transformer, meterClass, tables: knowledge.metering, figures });
      return compare({
        subject: transformerSubject(transformer, "ratedPrimaryA"),
        check: { left: supplyLimit, relation: "<=", right: most },
        holds: "enough",
        broken: "small",
        unknown: "unknown",
        data: {
          transformer: transformer.id,
          rated: shownOf(rated, 1),
          most: shownOf(most, 1, "down"),
          fuse: shownOf(supplyLimit, 1, "up"),
        },
        workings: [error.worst, error.expanded].filter(isKnown),
        turnsOn: transformer.ratedPrimaryA,
      });
    });
  },
});
