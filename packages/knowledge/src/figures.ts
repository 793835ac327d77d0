import type { Citation, Figure, FigureId, Standing } from "@underfuse/engine";
import { SIMULATION_FIGURES } from "./simulation-figures.ts";

/** One value from the beginning: no earlier or later value is known here. */
const always = (symbol: string, label: string, unit: string, value: number, citation: Citation): Figure => ({
  symbol,
  label,
  unit,
  series: [{ from: "0001-01-01", value, citation }],
});

const cite = (source: string, at: string, standing: Standing, more: Partial<Citation> = {}): Citation => ({
  source,
  at,
  standing,
  ...more,
});
const wiringRules = (at: string, standing: Standing, more: Partial<Citation> = {}) =>
  cite("bs7671", at, standing, more);
const own = (at: string, remark?: string) =>
  cite("house-methods", at, "own", remark === undefined ? {} : { remark });

/** Figures of Great Britain, by the name the engine asks for. A new edition adds a line to a series. */
export const FIGURES: Readonly<Record<FigureId, Figure>> = {
  ...SIMULATION_FIGURES,

  // Supply
  supplyVoltageMin: always(
    "Umin",
    "least voltage at the supply terminals",
    "V",
    216.2,
    cite("esqcr-2002", "regulation 27(3): −6 %", "seen", { seenAt: "reprint-wm-54" }),
  ),
  supplyVoltageMax: always(
    "Umax",
    "greatest voltage at the supply terminals",
    "V",
    253,
    cite("esqcr-2002", "regulation 27(3): +10 %", "seen", { seenAt: "reprint-wm-54" }),
  ),
  zeTncsOhm: always(
    "Zt",
    "usual greatest Ze, TN-C-S",
    "Ω",
    0.35,
    cite("iet-wm-72", "figures of Engineering Recommendation P23/1", "seen", {
      remark: "Superseded by P23/2 and never guaranteed for one site: measure.",
    }),
  ),
  zeTnsOhm: always(
    "Zt",
    "usual greatest Ze, TN-S",
    "Ω",
    0.8,
    cite("iet-wm-72", "figures of Engineering Recommendation P23/1", "seen", {
      remark: "Superseded by P23/2 and never guaranteed for one site: measure.",
    }),
  ),
  zeSuspectOhm: always(
    "Zx",
    "Ze above which a TN earth is suspect",
    "Ω",
    2,
    own("External loop impedance", "A proposal: far above any declared value."),
  ),
  minVoltageFactor: {
    symbol: "Cmin",
    label: "voltage factor for the least fault current",
    unit: "",
    series: [
      {
        from: "0001-01-01",
        value: 1,
        citation: wiringRules("before amendment 3 of 2015", "seen", { seenAt: "reprint-wm-54" }),
      },
      {
        from: "2015-07-01",
        value: 0.95,
        citation: wiringRules("411.4.4", "seen", { seenAt: "reprint-zs-formula" }),
      },
    ],
  },
  maxVoltageFactor: always(
    "Cmax",
    "voltage factor for the greatest fault current",
    "",
    1.1,
    cite("iec60909-0", "table 1, tolerance +10 %", "seen", {
      seenAt: "reprint-iec60909",
      remark: "1.10 taken for the British tolerance of +10 %; own reading.",
    }),
  ),

  // Operator
  notifyThresholdA: always(
    "MDn",
    "demand up to which a dwelling's charge point is notified afterwards",
    "A",
    60,
    cite("ena-form", "earlier edition of the form", "seen", {
      remark:
        "Whether the present flow chart still uses 60 A everywhere was not seen. Operators differ; ask.",
    }),
  ),
  notifyDays: always(
    "Dn",
    "days to notify after connecting",
    "days",
    28,
    cite("ena-form", "form instructions", "seen", {
      remark: "An older code says one calendar month; the shorter is taken.",
    }),
  ),
  generationNotifyA: always(
    "Ig",
    "feed-in per line up to which generation is notified afterwards",
    "A",
    16,
    cite("erec-g98", "scope", "seen", { seenAt: "reprint-g98" }),
  ),
  tailsMaxM: always(
    "Lt_max",
    "usual greatest length of tails behind the cut-out alone",
    "m",
    3,
    cite("house-methods", "Tails", "second-hand", {
      seenAt: "reprint-tails",
      remark: "The operator decides.",
    }),
  ),
  tailsMinMm2: always(
    "St",
    "smallest tails up to 80 A",
    "mm²",
    16,
    cite("house-methods", "Tails", "second-hand", {
      seenAt: "reprint-tails-size",
      remark: "Pairing 16 mm² with 60 and 80 A is recalled; some operators want 25 mm² throughout.",
    }),
  ),
  tailsMinMm2At100A: always(
    "St",
    "smallest tails above 80 A",
    "mm²",
    25,
    cite("house-methods", "Tails", "second-hand", { seenAt: "reprint-tails" }),
  ),
  limiterResponseTypicalS: always(
    "tr_typ",
    "typical time for a limitation scheme to act",
    "s",
    15,
    cite("operator-limitation-guidance", "reaction time", "seen", {
      remark: "Two secondary texts say 5 s, which is most likely the older export-only edition.",
    }),
  ),
  carFollowsS: always(
    "Tcar",
    "longest time for a car to follow a lower offer",
    "s",
    5,
    cite("iec61851-1", "Annex A", "recalled"),
  ),
  limiterResponseLongestS: always(
    "tr_max",
    "longest time for a limitation scheme to act",
    "s",
    60,
    cite("operator-limitation-guidance", "reaction time", "seen"),
  ),

  // Cables
  copperTemperatureCoefficient: always(
    "α",
    "temperature coefficient of copper at 20 °C",
    "1/K",
    0.00393,
    cite("iec60287", "table 1", "seen", { seenAt: "reprint-iec60287" }),
  ),
  coldTemperature: always(
    "θ20",
    "reference temperature",
    "°C",
    20,
    cite("iec60228", "table values at 20 °C", "seen", { seenAt: "reprint-iec60228" }),
  ),
  thermoplasticTemperature: always(
    "θ",
    "conductor operating temperature, thermoplastic",
    "°C",
    70,
    cite("iec60364-5-52", "table 52.1", "seen", { seenAt: "reprint-nbr5410" }),
  ),
  thermosettingTemperature: always(
    "θ",
    "conductor operating temperature, thermosetting",
    "°C",
    90,
    cite("iec60364-5-52", "table 52.1", "seen", { seenAt: "reprint-nbr5410" }),
  ),
  noFactor: always("1", "no correction", "", 1, own("Factors", "Taken where the condition does not occur.")),
  semiEnclosedFuseFactor: always(
    "Cc",
    "factor for a semi-enclosed fuse",
    "",
    0.725,
    wiringRules("433.1.202", "seen", { seenAt: "reprint-4c1" }),
  ),
  buriedOverloadFactor: always(
    "Cc",
    "overload factor for a cable in the ground",
    "",
    0.9,
    wiringRules("Appendix 4, section 5.1", "recalled"),
  ),
  chargePointPowerFactor: always(
    "pf",
    "power factor of a charging car",
    "",
    0.98,
    cite("house-methods", "Voltage drop", "practice", { remark: "Only matters above 16 mm²." }),
  ),
  voltageDropPercent: always(
    "vd_max",
    "greatest voltage drop, other than lighting, public supply",
    "%",
    5,
    wiringRules("Appendix 4, table 4Ab", "second-hand", { seenAt: "reprint-vdrop" }),
  ),

  neutralFullUpToMm2: always(
    "Sn_full",
    "line up to which a three-phase neutral is as large, copper",
    "mm²",
    16,
    wiringRules("524.2.1", "recalled"),
  ),

  // Protection
  tripMultipleB: always(
    "m",
    "tripping multiple, type B",
    "",
    5,
    cite("bs-en-60898", "table 2", "seen", { seenAt: "reprint-breaker" }),
  ),
  tripMultipleC: always(
    "m",
    "tripping multiple, type C",
    "",
    10,
    cite("bs-en-60898", "table 2", "seen", { seenAt: "reprint-breaker" }),
  ),
  tripMultipleD: always(
    "m",
    "tripping multiple, type D",
    "",
    20,
    cite("bs-en-60898", "table 2", "seen", {
      seenAt: "reprint-breaker",
      remark: "The maker's manual says 15 for its own; 20 is the standard's limit.",
    }),
  ),
  zsColdShare: always(
    "c",
    "share of the limit for a reading with cold conductors",
    "",
    0.8,
    wiringRules("Appendix 3", "seen", { seenAt: "reprint-zs-cold" }),
  ),
  conditionalRatingKa: always(
    "Icc",
    "fault current up to which a dwelling's consumer unit is tested behind the cut-out fuse",
    "kA",
    16,
    wiringRules("536.4.201", "recalled", { remark: "After BS EN 61439-3 Annex ZB." }),
  ),
  conditionalFuseA: always(
    "In_cc",
    "largest cut-out fuse with which a dwelling's consumer unit is tested",
    "A",
    100,
    wiringRules("536.4.201", "recalled", {
      remark: "After BS EN 61439-3 Annex ZB: BS 88-3, or BS 1361 type II before it.",
    }),
  ),
  residualRatedMa: always(
    "IdN_max",
    "greatest rated residual current for a charge point",
    "mA",
    30,
    wiringRules("722.531.3", "seen", { seenAt: "reprint-rcd-ev" }),
  ),
  residualTimeMs: always(
    "t_max",
    "longest time of a general residual current device at rated current",
    "ms",
    300,
    wiringRules("643.8 and the product standards", "recalled", {
      remark: "The article on the second amendment's tests was not read in full.",
    }),
  ),
  residualTimeAtFiveMs: always(
    "t5_max",
    "longest time of a general residual current device at five times rated current",
    "ms",
    40,
    wiringRules("product standards", "second-hand", {
      remark: "From a discussion of the tests before the second amendment; it asks for them no longer.",
    }),
  ),
  residualTimeDelayedAtFiveMs: always(
    "t5_max",
    "longest time of a time-delayed device at five times rated current",
    "ms",
    150,
    wiringRules("product standards", "recalled"),
  ),
  residualTimeDelayedMinMs: always(
    "t_min",
    "shortest time of a time-delayed device at rated current",
    "ms",
    130,
    wiringRules("product standards", "recalled"),
  ),
  residualTimeDelayedMaxMs: always(
    "t_max",
    "longest time of a time-delayed device at rated current",
    "ms",
    500,
    wiringRules("product standards", "recalled"),
  ),
  residualTimeTtMs: always(
    "t_TT",
    "disconnection time of a final circuit with an electrode",
    "ms",
    200,
    wiringRules("Table 41.1", "second-hand", {
      remark: "One post says otherwise; the strict value is taken.",
    }),
  ),

  // Earthing
  openPenTouchV: always(
    "Vt",
    "touch voltage allowed with the supply neutral broken",
    "V",
    70,
    wiringRules("722.411.4.1", "seen", { seenAt: "reprint-722" }),
  ),
  idleLineA: always(
    "I0",
    "what a line draws, or feeds back, with everything off",
    "A",
    0,
    own("Broken neutral", "Nobody can say that a line is never idle."),
  ),
  touchVoltageTt: always(
    "UL",
    "touch voltage allowed with an electrode",
    "V",
    50,
    wiringRules("411.5.3", "recalled"),
  ),
  electrodeStableOhm: always(
    "RA_s",
    "electrode resistance above which it may be unstable",
    "Ω",
    200,
    wiringRules("Table 41.5, note", "second-hand", { seenAt: "reprint-ra200" }),
  ),
  bondingFloor: always(
    "low",
    "smallest main bonding conductor, TN-S and TT",
    "mm²",
    6,
    wiringRules("544.1.1", "seen", { seenAt: "reprint-bonding" }),
  ),
  bondingCeiling: always(
    "high",
    "main bonding need not exceed, TN-S and TT",
    "mm²",
    25,
    wiringRules("544.1.1", "seen", { seenAt: "reprint-bonding" }),
  ),
  ...rodGroupFactors(),

  // Demand and limit
  fullShare: always(
    "s",
    "counted in full",
    "",
    1,
    own("Demand", "No allowance is published for these premises."),
  ),
  leastShareDrawn: always(
    "q",
    "share of its rating that a heating element draws at the least",
    "",
    0.9,
    own("Demand", "Marked for 240 V and fed at the least voltage allowed, 216.2 V."),
  ),
  minRecordingDays: always(
    "Dmin",
    "shortest recording that goes before the circuit list",
    "days",
    14,
    own("Demand", "Two whole weeks, both weekends."),
  ),
  limiterMarginFloor: always(
    "floor",
    "least margin under the supply's limit",
    "A",
    1,
    own("Margin", "A proposal until the metering error is worked out."),
  ),
  limiterMarginShare: always(
    "share",
    "margin as a share of the supply's limit",
    "",
    0.03,
    own("Margin", "A proposal until the metering error is worked out."),
  ),
  copperTemperatureFactor: always(
    "alpha",
    "temperature coefficient of copper at 20 °C",
    "1/K",
    0.00393,
    cite("iec60228", "as read in a table of factors", "seen", { seenAt: "reprint-flexible-conductors" }),
  ),
  leadTemperature: always("T", "temperature of the secondary lead", "°C", 40, own("Current transformers")),
  secondaryContacts: always(
    "Rc",
    "resistance of the contacts in a secondary circuit",
    "Ω",
    0.02,
    own("Current transformers"),
  ),
  transformerPositionError: always(
    "ep",
    "error from the conductor's position in a split core",
    "%",
    1,
    cite("house-methods", "Current transformers", "recalled"),
  ),
  transformerOverload: always(
    "kov",
    "current a transformer's class reaches to, over rated",
    "",
    1.2,
    cite("iec61869-2", "class limits, last column", "seen", { seenAt: "reprint-transformer-classes" }),
  ),
  burdenLeastPercent: always(
    "pb",
    "least burden for which the class is promised",
    "%",
    25,
    cite("iec61869-2", "5.6.201", "seen", { seenAt: "reprint-transformer-classes" }),
  ),
  minOffer: always(
    "Imin",
    "least current a car can be offered",
    "A",
    6,
    cite("iec61851-1", "Annex A", "seen", {
      remark: "Pilot duty 10 % is 6 A; read in a test instrument's manual.",
    }),
  ),

  // Tests
  insulationMinMohm: always(
    "R_min",
    "least insulation resistance",
    "MΩ",
    1,
    wiringRules("Table 64", "seen", { seenAt: "reprint-tests" }),
  ),
  insulationTestV: always(
    "V_t",
    "insulation test voltage",
    "V",
    500,
    wiringRules("Table 64", "seen", { seenAt: "reprint-tests" }),
  ),

  readingShare: always(
    "u",
    "share by which loop readings may part",
    "",
    0.1,
    own("Loop readings", "A proposal until the instrument's own error is recorded."),
  ),
  readingSlackOhm: always(
    "d",
    "amount by which loop readings may part besides",
    "Ω",
    0.05,
    own("Loop readings", "A proposal until the instrument's own error is recorded."),
  ),

  // Law
  buildingNoticeAheadDays: always(
    "Da",
    "working days that pass between a notice to building control and the start of work",
    "days",
    2,
    cite("building-regs-2010", "regulations 2(1) and 16(1)", "recalled", {
      remark: "Saturdays, Sundays and bank holidays are no days there.",
    }),
  ),
  buildingNoticeDays: always(
    "Dp",
    "days for a self-certifier to give notice and certificate",
    "days",
    30,
    cite("building-regs-2010", "regulation 20", "seen", { seenAt: "reprint-part-p-notice" }),
  ),
  newBuildingOutputW: always(
    "P_min",
    "least nominal output of a charge point for a new building",
    "W",
    7000,
    cite("approved-document-s", "requirement S1", "seen", { seenAt: "reprint-part-s" }),
  ),
  randomDelayDefaultS: always(
    "td_max",
    "longest random delay by default",
    "s",
    600,
    cite("ev-smart-2021", "regulation 11(1)(b)", "second-hand", {
      remark: "Quoted on a page not named here; the regulation is free to read.",
    }),
  ),
  randomDelayCapabilityS: always(
    "tc_min",
    "random delay it must be able to reach",
    "s",
    1800,
    cite("ev-smart-2021", "regulation 11(1)(a)", "second-hand", {
      remark: "Quoted on a page not named here; the regulation is free to read.",
    }),
  ),
};

/** λ for rods in a line. */
function rodGroupFactors(): Pick<
  Readonly<Record<FigureId, Figure>>,
  Extract<FigureId, `rodGroupFactor${number}`>
> {
  const factor = (count: number, value: number): Figure =>
    always(
      "λ",
      `factor for ${count} rods in line`,
      "",
      value,
      cite("bs7430", "table for rods in line", "recalled"),
    );
  return {
    rodGroupFactor2: factor(2, 1.0),
    rodGroupFactor3: factor(3, 1.66),
    rodGroupFactor4: factor(4, 2.15),
    rodGroupFactor5: factor(5, 2.54),
    rodGroupFactor6: factor(6, 2.87),
    rodGroupFactor7: factor(7, 3.15),
    rodGroupFactor8: factor(8, 3.39),
    rodGroupFactor9: factor(9, 3.61),
    rodGroupFactor10: factor(10, 3.81),
  };
}
