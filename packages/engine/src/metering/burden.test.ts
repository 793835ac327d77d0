import { GREAT_BRITAIN } from "@underfuse/knowledge";
import { describe, expect, it } from "vitest";
import { known, NOT_RECORDED } from "../job/index.ts";
import { changed } from "../testing/findings.ts";
import { knownValue, plain } from "../testing/plain.ts";
import { opened } from "../testing/sketch.ts";
import { figureOn } from "../worked/index.ts";
import { leadThatWouldDo, secondaryBurden } from "./burden.ts";
import { chainError, leastCurrentInClass } from "./chain-error.ts";

const at = (field: string) => `metering.currentTransformers[ct1].${field}`;
const cold = (id: keyof typeof GREAT_BRITAIN.figures) => {
  const quantity = figureOn(GREAT_BRITAIN.figures[id], "2026-11-25");
  // Printed examples take the lead at 20 °C and leave the contacts out.
  if (quantity.kind !== "figure") return quantity;
  return id === "leadTemperature"
    ? { ...quantity, value: 20 }
    : id === "secondaryContacts"
      ? { ...quantity, value: 0 }
      : quantity;
};

function inputs(changes: Record<string, unknown>) {
  const { job } = opened(changed(changes));
  const { metering } = job;
  const transformer = metering?.currentTransformers[0];
  if (metering === null || transformer === undefined) throw new Error("the sound job has a transformer");
  return {
    transformer,
    meterBurdenVa: metering.meterBurdenVa,
    meterClass: metering.meterClass,
    tables: GREAT_BRITAIN.metering,
    figures: cold,
  };
}

describe(secondaryBurden, () => {
  // Source: burden of a lead by Ohm's law with the resistances of IEC 60228 class 5, both ways, as tabled
  // elsewhere to these digits.
  it.each([
    ["5-A", 5, 0.75, 6.5],
    ["5-A", 10, 0.75, 13],
    ["5-A", 10, 1.5, 6.65],
    ["5-A", 10, 2.5, 3.99],
    ["5-A", 30, 4, 7.425],
    ["1-A", 10, 0.75, 0.52],
    ["1-A", 30, 2.5, 0.4788],
  ])("%s, %d m of %f mm²: %f VA in the lead", (output, length, mm2, va) => {
    const { lead } = secondaryBurden(
      inputs({
        [at("output")]: known(output),
        [at("leadLengthM")]: known(length),
        [at("leadMm2")]: known(mm2),
      }),
    );
    expect(knownValue(lead)).toBeCloseTo(va, 9);
  });

  it("leaves 0.070 Ω for the lead of a 2.5 VA transformer with an instrument of 0.75 VA", () => {
    // Source: a published chart of transformer burdens: 1.75 VA left at 5 A are 0.070 Ω.
    const { longestLead } = secondaryBurden(
      inputs({
        [at("ratedBurdenVa")]: known(2.5),
        "metering.meterBurdenVa": known(0.75),
        [at("leadMm2")]: known(2.5),
      }),
    );
    expect((knownValue(longestLead) * 2 * 7.98) / 1000).toBeCloseTo(0.07, 9);
  });

  it("finds the thinnest lead that would do, or none", () => {
    expect(leadThatWouldDo(inputs({ [at("leadLengthM")]: known(10) }))).toBe(2.5);
    expect(leadThatWouldDo(inputs({ [at("leadLengthM")]: known(400) }))).toBeUndefined();
  });

  it("knows no lead that the table has not", () => {
    const { lead } = secondaryBurden(inputs({ [at("leadMm2")]: known(0.6) }));
    expect(lead).toMatchObject({ kind: "unknown", missing: [{ what: "figure" }] });
  });
});

describe(chainError, () => {
  // Source: class 1 transformer at 20 % (1.5 %) with a meter of 1.0 %: 2.5 % at the worst, 2.08 % for k = 2,
  // as combined elsewhere; without the error of position.
  const without = { ...inputs({ "metering.meterClass": known("class 1") }) };
  const noPosition = (id: keyof typeof GREAT_BRITAIN.figures) => {
    const quantity = figureOn(GREAT_BRITAIN.figures[id], "2026-11-25");
    return id === "transformerPositionError" && quantity.kind === "figure"
      ? { ...quantity, value: 0 }
      : quantity;
  };

  it.each([
    [20, 2.5, 2.08],
    [5, 4, 3.65],
    [100, 2, 1.63],
    [19.9, 4, 3.65],
  ])("at %f A of 100 A: %f %% at the worst", (amps, worst, expanded) => {
    const error = chainError(plain("I", amps, "A"), { ...without, figures: noPosition });
    expect(knownValue(error.worst)).toBeCloseTo(worst, 9);
    expect(knownValue(error.expanded)).toBeCloseTo(expanded, 2);
  });

  it("is unknown below the class, and while a class is", () => {
    expect(chainError(plain("I", 4.9, "A"), without).worst.kind).toBe("unknown");
    expect(chainError(plain("I", 50, "A"), inputs({ "metering.meterClass": NOT_RECORDED })).worst.kind).toBe(
      "unknown",
    );
  });
});

describe(leastCurrentInClass, () => {
  it.each([
    ["1", 5],
    ["0.5S", 1],
    ["3", 50],
  ])("class %s of 100 A from %d A", (accuracyClass, amps) => {
    const { transformer } = inputs({ [at("accuracyClass")]: known(accuracyClass) });
    expect(knownValue(leastCurrentInClass(transformer, GREAT_BRITAIN.metering))).toBeCloseTo(amps, 9);
  });
});
