import type { Citation, Figure, SimulationFigure } from "@underfuse/engine";

const always = (symbol: string, label: string, unit: string, value: number, citation: Citation): Figure => ({
  symbol,
  label,
  unit,
  series: [{ from: "0001-01-01", value, citation }],
});
const own = (remark: string): Citation => ({
  source: "house-methods",
  at: "Simulation",
  standing: "own",
  remark,
});
const recalled = (at: string, remark: string): Citation => ({
  source: "iec61851-1",
  at,
  standing: "recalled",
  remark,
});

/** What is taken for granted while nobody recorded it. Every result says which of these it rests on. */
export const SIMULATION_FIGURES: Readonly<Record<SimulationFigure, Figure>> = {
  averageS: always(
    "W",
    "time over which the meter averages",
    "s",
    1,
    own("Many meters settle within a second."),
  ),
  readEveryS: always(
    "P",
    "time between two readings",
    "s",
    5,
    own("Common practice lies between 1 s and 5 s; the slower end."),
  ),
  decideEveryS: always(
    "D",
    "time between two decisions, 0 for on every reading",
    "s",
    0,
    own("As often as it reads."),
  ),
  commandS: always(
    "C",
    "time from a decision to the new offer",
    "s",
    3,
    own("A charge point may take up to 10 s by its standard as recalled; most are quicker."),
  ),
  fallbackAfterS: always(
    "F",
    "time without reading or command until the fallback",
    "s",
    60,
    own("The longest reaction an operator's guidance allows."),
  ),
  riseHoldS: always(
    "Hr",
    "time room must last before an offer rises",
    "s",
    60,
    own("Long enough for a kettle not to be followed."),
  ),
  resumeExtraA: always("h", "room above the least offer that ends a pause", "A", 7, {
    source: "household-minute",
    at: "rise from one minute to the next, 99 of 100 are smaller",
    standing: "seen",
    remark: "Worked out from 25 days of one house: 6.8 A.",
  }),
  resumeHoldS: always(
    "Hp",
    "time that room must last before a pause ends",
    "s",
    120,
    own("Between 1 and 5 minutes is usual practice."),
  ),
  minimumOffS: always("To", "shortest pause", "s", 60, own("Between 1 and 2 minutes is usual practice.")),
  offerStepA: always("q", "step of the offered current", "A", 1, own("Most managers offer whole amperes.")),
  sharingTurnS: always(
    "Tt",
    "length of a turn when charge points take turns",
    "s",
    900,
    own("A quarter of an hour."),
  ),
  integratingGain: always(
    "g",
    "gain of an integrating manager",
    "",
    0.25,
    own("The largest that does not overshoot when the chain answers one decision late."),
  ),
  carDeadS: always(
    "d",
    "time before a car begins to follow",
    "s",
    2,
    recalled(
      "Annex A",
      "A car follows a lower offer within 5 s in all; dead time and fall together stay under that.",
    ),
  ),
  carFallAPerS: always("rf", "fall of a car's current", "A/s", 12, recalled("Annex A", "See the dead time.")),
  carRiseAPerS: always("rr", "rise of a car's current", "A/s", 3, own("Between 1 A/s and 5 A/s is usual.")),
  carResumeS: always(
    "r",
    "time until a car draws again after a pause",
    "s",
    15,
    own("Between 5 s and 30 s is usual; some take minutes, and a few never resume."),
  ),
  carOnboardA: always(
    "Icar",
    "most a car takes on each line",
    "A",
    32,
    own("The largest that is usual on one line: it asks most of the supply."),
  ),
  carTaperShare: always(
    "xt",
    "share of the battery over which the current tapers",
    "",
    0.05,
    own("At 7 kW the rate is flat to between 90 % and 97 %, as recalled."),
  ),
  carBatteryKwh: always("Eb", "usable capacity of a battery", "kWh", 60, own("A car of the middle size.")),
  carSessionKwh: always("E", "energy wanted in a session, half want less", "kWh", 15, {
    source: "home-charging-2017",
    at: "median energy of an event, 7.5 kWh in 2017",
    standing: "own",
    remark:
      "Doubled: cars have grown, and three charges a week at 7.5 kWh would not carry an average year's driving.",
  }),
  carSessionSpread: always(
    "se",
    "spread of the energy, as standard deviation of its logarithm",
    "",
    0.5,
    own("One session in six wants more than 1.65 times the median."),
  ),
  carChargesPerWeek: always("n", "charges a week", "", 3, {
    source: "home-charging-trial",
    at: "charges per week and driver",
    standing: "seen",
  }),
  carArrivesH: always(
    "ta",
    "time of plugging in, from midnight",
    "h",
    18,
    own("Starts at homes were most frequent from 17:00 in 2017; an hour for managed and tariff-led habits."),
  ),
  carArrivesSpreadH: always("sa", "spread of plugging in", "h", 2, own("A proposal.")),
  carLeavesH: always("tl", "time the car must be ready, from midnight", "h", 7.5, own("A proposal.")),
  carLeavesSpreadH: always("sl", "spread of leaving", "h", 0.5, own("A proposal.")),
  fuseCoolingS: always(
    "tc",
    "time constant with which a fuse takes used life back",
    "s",
    1200,
    own("Between 10 and 30 minutes; no published figure was found."),
  ),
  copperHeat: always("Qc", "heat capacity of copper by volume", "J/(K·mm³)", 3.45e-3, {
    source: "iec60949",
    at: "Table 1",
    standing: "recalled",
  }),
  copperResistivity20: always("rho", "resistivity of copper at 20 °C", "Ω·mm", 17.241e-6, {
    source: "iec60949",
    at: "Table 1",
    standing: "recalled",
  }),
  copperBeta: always("beta", "reciprocal of the temperature coefficient of copper at 0 °C", "K", 234.5, {
    source: "iec60949",
    at: "Table 1",
    standing: "recalled",
  }),
  bodyReferenceC: always("ta", "reference ambient of current-carrying capacities", "°C", 30, {
    source: "iec60364-5-52",
    at: "Table B.52.14",
    standing: "seen",
  }),
};
