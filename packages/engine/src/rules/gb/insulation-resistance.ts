import { given } from "../../job/index.ts";
import { decide } from "../../worked/index.ts";
import { cannotTell, compare, rule, shownOf, UNITED_KINGDOM } from "../rule.ts";
import { testField, testOf } from "./circuit-test.ts";

/** The insulation of the new circuit is sound. */
export const insulationResistance = rule({
  id: "insulation-resistance",
  title: "Insulation resistance",
  stage: "prove",
  jurisdictions: UNITED_KINGDOM,
  messages: {
    sound: "{point}: {measured}, not less than {least}, at {volts}.",
    low: "{point}: {measured} is less than {least}. Find the fault before energising.",
    weakTest:
      "{point}: tested at {volts}; {wanted} is asked for. Repeat it, or say why the equipment could not be disconnected.",
    unknown:
      "{point}: test the insulation dead, electronics disconnected or linked, and record resistance and test voltage.",
  },
  judge: (study) =>
    study.circuits.map((circuit) => {
      const data = { point: circuit.point.label };
      const test = testOf(study, circuit);
      const { subject, missing } = testField(circuit, "insulationMohm", "insulation resistance");
      if (test === undefined) return cannotTell(subject, "unknown", missing, { data });
      const measured = given(test.insulationMohm, "R");
      const volts = given(test.insulationTestV, "V");
      const [least, wanted] = [study.figures("insulationMinMohm"), study.figures("insulationTestV")];
      const isStrongEnough = decide({ left: volts, relation: ">=", right: wanted }).state;
      return compare({
        subject,
        check:
          isStrongEnough === "holds"
            ? { left: measured, relation: ">=", right: least }
            : { left: volts, relation: ">=", right: wanted },
        holds: "sound",
        broken: isStrongEnough === "holds" ? "low" : "weakTest",
        unknown: "unknown",
        data: {
          ...data,
          measured: shownOf(measured, 1, "down"),
          least: shownOf(least, 1),
          volts: shownOf(volts, 0),
          wanted: shownOf(wanted, 0),
        },
        turnsOn: test.insulationMohm,
      });
    }),
});
