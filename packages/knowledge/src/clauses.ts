import type { Citation, Clause, Edition, Standing } from "@underfuse/engine";

const A2: Edition = "bs7671-2018-a2-2022";
const A4: Edition = "bs7671-2018-a4-2026";

/** A clause of the wiring rules, read in its numbering up to the second amendment. */
function wiringRules(
  title: string,
  at: string,
  standing: Standing,
  seenAt?: string,
  remark?: string,
): Clause {
  const citation: Citation = {
    source: "bs7671",
    at,
    standing,
    ...(seenAt && { seenAt }),
    ...(remark && { remark }),
  };
  return {
    title,
    printed: [
      { edition: "bs7671-2018-a1-2020", citation },
      {
        edition: A4,
        citation: {
          ...citation,
          standing: "recalled",
          remark: `Numbered as up to amendment 2; amendment 4 has not been read.${remark ? ` ${remark}` : ""}`,
        },
      },
    ],
  };
}

const other = (title: string, citation: Citation): Clause => ({
  title,
  printed: [{ edition: null, citation }],
});
const method = (title: string, at: string): Clause =>
  other(title, { source: "house-methods", at, standing: "own" });
const guidance = (
  source: string,
  title: string,
  at: string,
  standing: Standing,
  seenAt?: string,
  remark?: string,
): Clause => other(title, { source, at, standing, ...(seenAt && { seenAt }), ...(remark && { remark }) });

/** Where every rule and every formula is printed. Keys are rule ids and the clauses that working steps name. */
export const CLAUSES: Readonly<Record<string, Clause>> = {
  // Rules
  "external-loop-impedance": guidance(
    "iet-wm-72",
    "External loop impedance",
    "declared and usual values",
    "seen",
  ),
  "supply-voltage": guidance("esqcr-2002", "Declared voltage", "regulation 27", "seen", "reprint-wm-54"),
  tails: method("Tails", "Tails"),
  "earthing-conductor": wiringRules(
    "Earthing conductor",
    "542.3 and 543.1, Table 54.7",
    "seen",
    "reprint-bonding",
  ),
  "main-bonding": wiringRules("Main bonding", "544.1, Table 54.8", "seen", "reprint-bonding"),
  "recording-used": method("Recordings of the demand", "Demand"),
  "supply-carries-demand": wiringRules("Adequacy of the supply", "132.16, 311.1 and 722.311", "recalled"),
  "operator-route": guidance(
    "ena-form",
    "Notify or apply",
    "conditions of the form",
    "seen",
    undefined,
    "The present flow chart was not seen; the threshold is data for each operator.",
  ),
  "generation-route": guidance("erec-g98", "Generation", "scope; above it G99", "seen", "reprint-g98"),
  "broken-neutral-protection": {
    title: "Outdoor charge point on TN-C-S",
    printed: [
      {
        edition: "bs7671-2018-a1-2020",
        citation: {
          source: "bs7671",
          at: "722.411.4.1 (i) to (v), Annex A722",
          standing: "seen",
          seenAt: "reprint-722",
        },
      },
      {
        edition: A2,
        citation: {
          source: "bs7671",
          at: "722.411.4.1 (a) to (e), Annex A722",
          standing: "second-hand",
          remark:
            "Whether the first method was deleted here or later is reported both ways; it is not offered.",
        },
      },
      {
        edition: A4,
        citation: {
          source: "bs7671",
          at: "722.411.4.1, lettering not known",
          standing: "recalled",
          remark: "Amendment 4 has not been read.",
        },
      },
    ],
  },
  electrode: wiringRules("Earth electrode", "411.5.3, Table 41.5; 542.2", "recalled"),
  "surge-protection": wiringRules(
    "Surge protection",
    "443.4.1",
    "seen",
    "reprint-spd",
    "Whether safety services remain listed after the corrigendum of 2023 is not settled.",
  ),
  "weather-protection": wiringRules("External influences at a charge point", "722.512.2", "recalled"),
  "new-building-charge-point": guidance(
    "approved-document-s",
    "Charge point for a new building",
    "regulation 44J",
    "seen",
    "reprint-part-s-44j",
  ),
  "building-control-notice": guidance(
    "building-regs-2010",
    "Notifiable work and notices",
    "regulations 12(6A) and 20",
    "seen",
    "reprint-part-p",
  ),
  "dedicated-circuit": wiringRules(
    "Own circuit",
    "722.531.101 and 722.533",
    "recalled",
    undefined,
    "A feed to a charge point with its own device may be a distribution circuit; taken as final.",
  ),
  "overload-protection": wiringRules("Overload protection", "433.1.1", "seen", "reprint-4c1"),
  "neutral-conductor": wiringRules("Neutral conductor", "524.2", "recalled"),
  "breaking-capacity": wiringRules(
    "Breaking capacity",
    "434.5.1 and 536.4.201",
    "seen",
    "reprint-16ka",
    "That the cut-out backs the consumer unit is recalled from BS EN 61439-3 Annex ZB.",
  ),
  disconnection: wiringRules(
    "Automatic disconnection",
    "411.3.2 and 411.4.4",
    "seen",
    "reprint-zs-formula",
    "0.4 s is taken for every charge-point circuit up to 63 A.",
  ),
  "residual-device": wiringRules("Residual current device of its own", "722.531.3", "seen", "reprint-rcd-ev"),
  "direct-current-protection": wiringRules("Direct current", "722.531.3.101", "seen", "reprint-rcd-series"),
  "protective-conductor": wiringRules("Protective conductor", "543.1", "seen", "reprint-bonding"),
  "voltage-drop": wiringRules(
    "Voltage drop",
    "525, Appendix 4 sections 6.1 and 6.4",
    "second-hand",
    "reprint-vdrop",
  ),
  discrimination: wiringRules("Selectivity", "536.4", "recalled"),
  "transformer-coverage": guidance(
    "operator-limitation-guidance",
    "What is measured",
    "current at the exit point",
    "seen",
  ),
  "main-fuse-withdrawal": guidance("iet-wm-106", "Cut-out fuse", "who may draw it", "seen"),
  "dead-proof": guidance("isolation-guidance", "Proving dead", "sequence", "seen"),
  "transformer-direction": method("Direction of current transformers", "Current transformers"),
  "transformer-open-secondary": guidance(
    "transformer-connections",
    "Open secondary of a current transformer",
    "never open while the primary carries current",
    "seen",
  ),
  "transformer-class-as-installed": guidance(
    "en50470-3",
    "Class of a meter with transformers of low power",
    "scope: meter and transformers tested together",
    "seen",
  ),
  "transformer-rating": method("Rating of current transformers", "Current transformers"),
  "transformer-low-end": method("Low end of current transformers", "Current transformers"),
  "transformer-burden": guidance(
    "iec61869-2",
    "Burden of current transformers",
    "5.6.201",
    "seen",
    "reprint-transformer-classes",
  ),
  "meter-ratio": method("Ratio set in the meter", "Current transformers"),
  "limit-within-supply": method("Limit and margin", "Margin"),
  polarity: wiringRules("Polarity", "643.6", "recalled"),
  "insulation-resistance": wiringRules("Insulation resistance", "643.3, Table 64", "seen", "reprint-tests"),
  "readings-agree": method("Loop readings", "Loop readings"),
  "residual-device-time": wiringRules(
    "Residual current device tests",
    "643.8",
    "recalled",
    undefined,
    "Times to the second amendment's single test.",
  ),
  "limiter-response": guidance(
    "operator-limitation-guidance",
    "Reaction time",
    "typical and longest",
    "seen",
  ),
  "limiter-fails-safe": guidance(
    "operator-limitation-guidance",
    "Fail-safe",
    "any failure brings import to the limit",
    "seen",
  ),
  "limiter-settings-locked": guidance(
    "operator-limitation-guidance",
    "Settings",
    "password, PIN or sealable enclosure",
    "seen",
  ),
  "smart-charge-point": guidance(
    "ev-smart-2021",
    "Smart charge points",
    "regulations 5 to 14",
    "seen",
    "reprint-smart",
    "A protective reduction of current is not mentioned in what was read; reduce at once, delay only increases.",
  ),
  "wiring-rules-edition": guidance(
    "bs7671",
    "Edition in force",
    "dates of the amendments",
    "seen",
    "reprint-a4",
  ),
  "certificate-kind": wiringRules("Certificates", "644 and Appendix 6", "seen", "reprint-model-forms"),
  "operator-deadline": guidance("ena-form", "Notice", "28 days", "seen"),

  // Formulas
  "conductor-resistance": guidance(
    "iec60287",
    "Conductor resistance at temperature",
    "clause for R at temperature",
    "seen",
    "reprint-iec60287",
  ),
  "current-carrying-capacity": wiringRules("Capacity as laid", "Appendix 4, section 5", "recalled"),
  "earth-fault-loop": wiringRules("Earth fault loop", "411.4.4 and Appendix 3", "seen", "reprint-zs-formula"),
  "earth-fault-current": wiringRules("Earth fault current", "411.4.4", "seen", "reprint-zs-formula"),
  "prospective-fault-current": method("Prospective fault current", "Fault current"),
  "max-loop-impedance": wiringRules(
    "Greatest loop impedance",
    "411.4.4, Tables 41.2 to 41.4",
    "seen",
    "reprint-zs-formula",
  ),
  "cold-reading": wiringRules("Reading with cold conductors", "Appendix 3", "seen", "reprint-zs-cold"),
  "partly-loaded-correction": wiringRules("Partly loaded cable", "Appendix 4, section 6.1", "recalled"),
  "shared-cable-current": method("Current in a shared cable", "Voltage drop"),
  adiabatic: wiringRules("Adiabatic size", "543.1.3", "seen", "reprint-iec60949"),
  "protective-conductor-table": wiringRules(
    "Protective conductor by table",
    "Table 54.7",
    "seen",
    "reprint-bonding",
  ),
  "overload-coordination": wiringRules(
    "Coordination of conductor and device",
    "433.1 and Appendix 4, section 5.1",
    "recalled",
  ),
  "open-pen-electrode": wiringRules("Broken neutral and electrode", "Annex A722", "seen", "reprint-a722"),
  "electrode-touch-voltage": wiringRules("Electrode and residual current device", "411.5.3", "recalled"),
  "rod-resistance": guidance(
    "bs7430",
    "Resistance of rods",
    "formulas for one rod and for rods in line",
    "seen",
    "reprint-rods",
  ),
  diversity: guidance("demand-allowances", "Diversity", "table 6.2", "seen"),
  "recorded-demand": method("Demand from a recording", "Demand"),
  "charge-point-demand": wiringRules("Charge points count in full", "722.311", "recalled"),
  "maximum-demand": wiringRules("Maximum demand", "311.1", "recalled"),
  "managed-demand": wiringRules("Managed demand", "722.311.201", "seen", "reprint-722"),
  "supply-limit": method("Limit of the supply", "Margin"),
  "chain-error": method("Error of the metering chain", "Margin"),
  "limiter-margin": method("Margin", "Margin"),
  "limiter-limit": method("Highest limit", "Margin"),
  "limiter-fallback": method("Fallback", "Fallback"),
  "lower-rate": method("Lower rate", "Options"),
};
