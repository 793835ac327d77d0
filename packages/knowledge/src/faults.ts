/**
 * The faults of the metering chain in the trade's words: look, check, danger, cure.
 *
 * What each does to a reading is docs/fault-model.md. Import is positive; D1 is the bus wire that stands
 * above the other when the bus is idle, because makers do not agree on which is A and which is B.
 * Weights are this project's own judgement: no statistics of these faults are known.
 *
 * @module
 */
import type { Citation, FaultCatalogue, Standing } from "@underfuse/engine";

const cite = (source: string, at: string, standing: Standing, remark?: string): Citation => ({
  source,
  at,
  standing,
  ...(remark !== undefined && { remark }),
});

/** Worked out here from phasors or from how the parts act. */
const OWN = cite("house-methods", "fault catalogue", "own");
/** Reversed and exchanged inputs, alone and in pairs, are treated as matrices in the open literature. */
const WIRING = cite(
  "power-meter-installation-faults",
  "abstract",
  "seen",
  "Only the abstract was read, for the method; signs, sizes and checks here are this project's own working.",
);
const CLAUSE_ONLY =
  "The clause gives what is right; what goes wrong without it is this project's own working.";
const serialLine = (at: string, remark = CLAUSE_ONLY) => cite("modbus-serial-line", at, "seen", remark);
const application = (at: string, remark = CLAUSE_ONLY) => cite("modbus-application", at, "seen", remark);

// Openings of cures, so that the safe order reads alike everywhere.
const SHORT_FIRST =
  "Isolate and prove dead, and short the secondary of a current-output transformer before disturbing it.";
const TAPS_DEAD = "Isolate and prove dead before touching the voltage taps.";

// Dangers shared by several faults.
const IMPORT_AS_EXPORT =
  "Import is taken for export, so the load manager may let the main fuse be overloaded unnoticed.";
const POWER_WRONG =
  "A load manager that works from power sees too little, so the main fuse may be overloaded unnoticed.";
const EXCHANGED =
  "Power reads too low and current shows on the wrong line, so the main fuse may be overloaded unnoticed.";
const WRONG_LINE = "The load manager may turn down the wrong line and leave the overloaded one alone.";
const READS_LOW = "The load manager sees too little, so the main fuse may be overloaded unnoticed.";
const BLIND = "The load manager is blind here, so the main fuse may be overloaded unnoticed.";
const MAY_READ_LOW =
  "Where the reading comes out low, the main fuse may be overloaded unnoticed; stop charging until it is right.";

export const FAULTS: FaultCatalogue = {
  // Current transformers: direction and place
  F01: {
    name: "current transformer reversed",
    looksLike: "One channel shows the right current but negative power, though nothing generates.",
    partedBy:
      "Look at the arrow, then prove the polarity of the voltage tap; readings alone cannot part the two.",
    danger: IMPORT_AS_EXPORT,
    cure: `${SHORT_FIRST} Turn it round, reconnect, remove the short and repeat the load step.`,
    weight: 10,
    citation: WIRING,
  },
  F02: {
    name: "two current transformers reversed",
    looksLike:
      "Two channels show the right current but negative power, and the total is negative at even load.",
    partedBy: "Turn generation off, switch on a known load on each line in turn and watch the sign.",
    danger: IMPORT_AS_EXPORT,
    cure: `${SHORT_FIRST} Turn both round, reconnect, remove the shorts and repeat the step on each line.`,
    weight: 2,
    citation: WIRING,
  },
  F03: {
    name: "all current transformers reversed",
    looksLike: "Every channel shows negative power, and the export counter runs while the site only imports.",
    partedBy:
      "Turn generation off, check the arrows, then check which sign the load manager takes as import.",
    danger: IMPORT_AS_EXPORT,
    cure: "If the arrows are right, correct the sign setting only. Otherwise isolate and prove dead, short current-output secondaries, turn every transformer, reconnect and remove the shorts.",
    weight: 6,
    citation: WIRING,
  },
  F04: {
    name: "current transformer on another line",
    looksLike: "Two channels always show the same current, and the power of one is wrong in size and sign.",
    partedBy: "Load each line in turn: one step moves two channels alike, and another step moves none.",
    danger: "One line is not measured at all, so its main fuse may be overloaded unnoticed.",
    cure: `${SHORT_FIRST} Move it to its own line, reconnect, remove the short and load each line again.`,
    weight: 3,
    citation: OWN,
  },
  F05: {
    name: "two current transformers exchanged",
    looksLike:
      "Two channels show negative half power on resistive load, and the total is near zero at even load.",
    partedBy:
      "Load one line: the current rises on the other channel, while the phase sequence at the taps is right.",
    danger: EXCHANGED,
    cure: `${SHORT_FIRST} Exchange the two transformers or their secondaries, remove the shorts and load each line again.`,
    weight: 8,
    citation: WIRING,
  },
  F06: {
    name: "current transformers moved on by one line",
    looksLike: "Every channel shows negative half power on even resistive load, with lagging reactive power.",
    partedBy: "Load line 1 alone: the current rises on channel 3.",
    danger: EXCHANGED,
    cure: `${SHORT_FIRST} Put each secondary on the channel of its own line, remove the shorts and load each line again.`,
    weight: 2,
    citation: WIRING,
  },
  F07: {
    name: "current transformers moved back by one line",
    looksLike: "Every channel shows negative half power on even resistive load, with leading reactive power.",
    partedBy: "Load line 1 alone: the current rises on channel 2.",
    danger: EXCHANGED,
    cure: `${SHORT_FIRST} Put each secondary on the channel of its own line, remove the shorts and load each line again.`,
    weight: 2,
    citation: WIRING,
  },
  F08: {
    name: "two current transformers exchanged and one reversed",
    looksLike: "At even resistive load two channels show half power, one positive and one negative.",
    partedBy:
      "Load one line: the current rises on another channel; with one merely reversed it rises on its own.",
    danger: EXCHANGED,
    cure: `${SHORT_FIRST} Correct both places and the direction, remove the shorts and load each line again.`,
    weight: 2,
    citation: WIRING,
  },

  // Voltage taps
  F09: {
    name: "voltage taken from another line",
    looksLike: "Current is right, but a resistive load shows a power factor near −0.5.",
    partedBy:
      "Switch on a resistive load: a reversed transformer shows a power factor of −1, a wrong line −0.5.",
    danger: POWER_WRONG,
    cure: `${TAPS_DEAD} Take the voltage from the line that passes through the transformer, then repeat the load step.`,
    weight: 3,
    citation: OWN,
  },
  F10: {
    name: "two voltage taps exchanged",
    looksLike: "Two channels show negative half power on resistive load, with the right currents.",
    partedBy: "Load one line: its own channel rises, and the phase sequence at the taps is reversed.",
    danger: POWER_WRONG,
    cure: `${TAPS_DEAD} Exchange the two taps, re-energise, then check phase sequence and load each line.`,
    weight: 4,
    citation: WIRING,
  },
  F11: {
    name: "voltage taps moved round by one line",
    looksLike:
      "Every channel shows negative half power on even resistive load, and the phase sequence is right.",
    partedBy: "Load line 1 alone: the current rises on channel 1, so the transformers are in place.",
    danger: POWER_WRONG,
    cure: `${TAPS_DEAD} Put each tap on the channel of its own line, re-energise and load each line again.`,
    weight: 1,
    citation: WIRING,
  },
  F12: {
    name: "lines named differently at the meter",
    looksLike: "Every reading and total agrees, yet each load shows under another line's name.",
    partedBy: "Load a known line alone: current and power both rise, healthy, on another channel.",
    danger: WRONG_LINE,
    cure: "Set and label the true order where the meter allows. Otherwise isolate and prove dead, short current-output secondaries, move taps and transformers together, then remove the shorts.",
    weight: 2,
    citation: WIRING,
  },
  F13: {
    name: "line and neutral exchanged at a voltage tap",
    looksLike:
      "The channel shows the right voltage and current but negative power, as if its transformer were reversed.",
    partedBy: "Prove the polarity of the tap with an approved voltage indicator and look at the arrow.",
    danger: `${IMPORT_AS_EXPORT} The neutral terminal of the meter is live.`,
    cure: `${TAPS_DEAD} Exchange line and neutral, re-energise, prove polarity and repeat the load step.`,
    weight: 2,
    citation: WIRING,
  },
  F14: {
    name: "voltage tap fed line to line",
    looksLike: "One channel shows about 400 V and half as much power again as it should on resistive load.",
    partedBy:
      "Measure at the voltage terminals: one channel near 400 V is this, all of them suggest two-element mode.",
    danger:
      "An input made for line to neutral may be damaged or burn at line-to-line voltage: isolate first.",
    cure: `${TAPS_DEAD} Connect the channel line to neutral, re-energise and check for 216 to 253 V.`,
    weight: 1,
    citation: OWN,
  },
  F15: {
    name: "voltage tap open or its fuse blown",
    looksLike: "One channel shows current, but hardly any voltage and no power.",
    partedBy:
      "Compare voltage and current: a dead tap loses the voltage, a dead transformer loses the current.",
    danger: `${POWER_WRONG} A blown tap fuse may point to a short circuit.`,
    cure: `${TAPS_DEAD} Find why the fuse blew or the lead parted, repair it and check every voltage.`,
    weight: 3,
    citation: OWN,
  },
  F16: {
    name: "neutral missing at the meter's voltage taps",
    looksLike: "Voltages and powers are slightly out whenever the supply voltages are unequal.",
    partedBy:
      "Measure line to neutral at the supply: steady there means the tap, moving apart there means the supply.",
    danger: "A broken supply neutral looks alike and is an emergency: rule it out first.",
    cure: `${TAPS_DEAD} Restore the neutral tap, re-energise and compare each voltage with a voltmeter.`,
    weight: 1,
    citation: OWN,
  },
  F17: {
    name: "neutral broken",
    looksLike: "Line voltages move apart as load changes: low on the loaded line, high on the others.",
    partedBy:
      "Use records already taken: with a missing tap the supply terminals stay steady, here they move with load; test no further.",
    danger:
      "Appliances may burn, and earthed metalwork and the vehicle may be live even with the main switch off: keep clear.",
    cure: "Stop, isolate at the main switch, keep everyone off metalwork and call the network operator's emergency line. Restore nothing until the neutral is repaired and tested.",
    weight: 0.5,
    citation: OWN,
  },

  // Current transformers: what passes through them
  F18: {
    name: "current transformer misses the charge point",
    looksLike: "Building loads move the channel, but charging does not.",
    partedBy: "Charge a car, then switch on a building load: a dead transformer follows neither.",
    danger:
      "The load manager cannot see the charging current, so the main fuse may be overloaded unnoticed: stop charging.",
    cure: `${SHORT_FIRST} Move it upstream of the split and remove the short; ask the network operator where you cannot make that conductor dead.`,
    weight: 12,
    citation: OWN,
  },
  F19: {
    name: "current transformer misses the building",
    looksLike: "Charging moves the channel, but building loads do not.",
    partedBy: "Switch on a known building load with no car charging: the channel stays still.",
    danger:
      "The load manager cannot see the building, so the main fuse may be overloaded unnoticed: stop charging.",
    cure: `${SHORT_FIRST} Move it upstream of the split and remove the short; ask the network operator where you cannot make that conductor dead.`,
    weight: 3,
    citation: OWN,
  },
  F20: {
    name: "current transformer round line and neutral",
    looksLike: "The channel stays near zero at any load, with voltage present.",
    partedBy: "Clamp the insulated line alone for the true current and look what passes through the window.",
    danger: BLIND,
    cure: `${SHORT_FIRST} Take the neutral out of the window, remove the short and repeat the load step.`,
    weight: 3,
    citation: OWN,
  },
  F21: {
    name: "current transformer round two lines",
    looksLike: "Current looks right at even load, but the power factor is near 0.5 on resistive load.",
    partedBy: "Load each line in turn: this channel moves for two lines, each of the others for its own.",
    danger:
      "With uneven load the channel can read below its own line, so the fuse may be overloaded unnoticed.",
    cure: `${SHORT_FIRST} Leave only its own line in the window, remove the short and load each line again.`,
    weight: 1,
    citation: OWN,
  },
  F22: {
    name: "current transformer on the neutral, single phase",
    looksLike: "Current is right, but power is negative though nothing generates.",
    partedBy:
      "Trace the conductor through the window; readings alone cannot part this from a reversed transformer.",
    danger: `${IMPORT_AS_EXPORT} Current from line to earth is not seen either.`,
    cure: `${SHORT_FIRST} Move it to the line with the arrow towards the load, remove the short and repeat the step.`,
    weight: 3,
    citation: OWN,
  },
  F23: {
    name: "current transformer on the neutral, three phase",
    looksLike: "The channel is near zero at even load, yet moves in full for a load on any one line.",
    partedBy: "Load each line in turn: this channel moves every time.",
    danger: "One line is not measured at all, so its main fuse may be overloaded unnoticed.",
    cure: `${SHORT_FIRST} Move it to its own line, reconnect, remove the short and load each line again.`,
    weight: 1,
    citation: OWN,
  },
  F24: {
    name: "current transformer on one of several parallel conductors",
    looksLike: "The channel shows a steady share of the true current, such as a half or a third.",
    partedBy: "Clamp each insulated parallel conductor in turn and add them: the channel matches one alone.",
    danger: READS_LOW,
    cure: `${SHORT_FIRST} Pass every parallel conductor of the line through one transformer, remove the short and compare with a clamp.`,
    weight: 1,
    citation: OWN,
  },
  F25: {
    name: "conductor passed several times through the transformer",
    looksLike: "The channel shows two, three or more times the true current, at the right power factor.",
    partedBy: "Count the passes through the window; a wrong setting leaves one pass.",
    danger: "At full load the secondary may carry more than the meter input stands, and overheat it.",
    cure: `${SHORT_FIRST} Leave one pass and remove the short; if several are meant, divide the rated primary by the passes.`,
    weight: 2,
    citation: OWN,
  },

  // Ratio and rating as set
  F26: {
    name: "ratio left at one",
    looksLike: "Current and power are far too small by the plate ratio, at the right power factor.",
    partedBy: "Compare with a clamp: true current divided by the reading equals the ratio on the plate.",
    danger: READS_LOW,
    cure: "Stop charging and set the ratio from the nameplate. Compare with a clamp at a fifth of the rating or more.",
    weight: 8,
    citation: OWN,
  },
  F27: {
    name: "rated primary typed as the ratio",
    looksLike: "Current and power are five times too large with a 5 A secondary, at the right power factor.",
    partedBy: "Read the setting: the rated primary stands where primary divided by secondary belongs.",
    danger: null,
    cure: "Set primary divided by secondary from the nameplate. Compare with a clamp at a fifth of the rating or more.",
    weight: 4,
    citation: OWN,
  },
  F28: {
    name: "ratio inverted",
    looksLike: "Current and power read almost nothing, smaller than with the ratio left at one.",
    partedBy: "Compare with a clamp: the reading is short by the square of the plate ratio.",
    danger: READS_LOW,
    cure: "Stop charging and set primary over secondary, not the reverse. Compare with a clamp at a fifth of the rating or more.",
    weight: 1,
    citation: OWN,
  },
  F29: {
    name: "wrong primary rating set",
    looksLike: "Current and power are wrong by one factor at every load, at the right power factor.",
    partedBy:
      "Compare the setting with the nameplate; if they agree, look for parallel conductors or extra passes.",
    danger: MAY_READ_LOW,
    cure: "Set the rated primary from the nameplate. Compare with a clamp at a fifth of the rating or more.",
    weight: 8,
    citation: OWN,
  },
  F30: {
    name: "wrong secondary rating",
    looksLike: "Current and power are a fifth of the truth, or five times it, at the right power factor.",
    partedBy: "Read the nameplate, the setting and the rating of the meter input: 1 A and 5 A must match.",
    danger:
      "A 1 A input fed from a 5 A transformer overheats and can burn out, leaving the secondary open; a low reading hides overload.",
    cure: `${SHORT_FIRST} Match transformer, input and setting, remove the short and compare with a clamp.`,
    weight: 5,
    citation: OWN,
  },

  // Secondary
  F31: {
    name: "secondary open or left shorted",
    looksLike: "The channel stays near zero while the line is loaded, with voltage present.",
    partedBy: "Clamp the insulated line, then isolate, prove dead and look for a break or a shorting link.",
    danger:
      "An open secondary reaches dangerous crest voltage while current flows: do not touch it. The load manager is blind meanwhile.",
    cure: "Isolate and prove dead before touching the secondary. Make it off through the meter, remove any shorting link last, and repeat the load step.",
    weight: 5,
    citation: OWN,
  },
  F32: {
    name: "wrong kind of transformer output",
    looksLike: "The channel is dead, or wrong by one factor such as a third or three.",
    partedBy: "Compare both nameplates: amperes or volts at the output, and how many at rated current.",
    danger:
      "A current output on a voltage input is as good as open and may reach dangerous crest voltage; a low reading hides overload.",
    cure: `${SHORT_FIRST} Fit a transformer the meter input is made for, remove the short and compare with a clamp.`,
    weight: 4,
    citation: OWN,
  },
  F33: {
    name: "ratio applied twice or not at all",
    looksLike: "The meter's display is right, but the load manager is out by the ratio, up or down.",
    partedBy: "Compare three values at one moment: display, register and load manager.",
    danger: MAY_READ_LOW,
    cure: "Apply the ratio in one place only and record where. Compare the load manager's value with a clamp.",
    weight: 4,
    citation: OWN,
  },
  F34: {
    name: "burden of the transformer too high",
    looksLike: "The channel agrees at small load, and falls short and turns leading as current grows.",
    partedBy:
      "Compare with a clamp at a fifth and at four fifths of rating: only burden worsens with current.",
    danger: "The channel reads low just where the limit acts, so the main fuse may be overloaded unnoticed.",
    cure: `${SHORT_FIRST} Shorten or thicken the lead, or fit a 1 A transformer and input, then remove the short and compare again.`,
    weight: 3,
    citation: OWN,
  },
  F35: {
    name: "transformer core not closed",
    looksLike: "The channel reads low at every current, with much leading reactive power on resistive load.",
    partedBy:
      "Compare with a clamp at two loads: the shortfall stays alike, where high burden grows with current.",
    danger: READS_LOW,
    cure: `${SHORT_FIRST} Clean both faces, close the core until it latches, remove the short and repeat the step.`,
    weight: 5,
    citation: OWN,
  },
  F36: {
    name: "phase displacement of the transformer",
    looksLike: "Current is right, but a resistive load shows a little reactive power it does not have.",
    partedBy: "Switch on a kettle: the extra reactive power is a steady share of its power at any load.",
    danger: null,
    cure: "Set the meter's angle correction from the transformer's data, or work the limit from current instead of power.",
    weight: 2,
    citation: OWN,
  },
  F37: {
    name: "current above the measuring range",
    looksLike: "Current stays flat at one value while the load grows, and voltage still moves.",
    partedBy:
      "Look at the record: current piles up at one value, whereas a frozen reading holds voltage too.",
    danger: "Overload above the range is not seen, and the transformer or meter input may overheat.",
    cure: "Stop charging, isolate and prove dead, and short the secondary of a current-output transformer before disturbing it. Fit transformer and input rated above the main fuse, then remove the short.",
    weight: 1,
    citation: OWN,
  },
  F38: {
    name: "current below the measuring range",
    looksLike: "Small loads read zero or poorly, and larger loads read right.",
    partedBy: "Raise the load to a tenth of the rating: a dead channel stays at zero, this one comes right.",
    danger: null,
    cure: "Test with a larger load. Choose a smaller primary rating, still above the main fuse, if small loads matter.",
    weight: 1,
    citation: OWN,
  },
  F39: {
    name: "loose secondary terminal",
    looksLike: "The channel jumps between two values while the load is steady.",
    partedBy: "Record the channel beside a clamp at steady load: a wrong setting never jumps.",
    danger:
      "The terminal may heat and burn, and an opened secondary reaches dangerous crest voltage: touch nothing live. Overload may pass unnoticed.",
    cure: `${SHORT_FIRST} Remake the terminal to the stated torque, replace heat-marked parts, remove the short and repeat the step.`,
    weight: 3,
    citation: OWN,
  },
  F40: {
    name: "common of the transformers open",
    looksLike: "A load on one line shows two thirds there and one third on each other channel.",
    partedBy: "Load one line alone and clamp the others: no current flows where the channels show some.",
    danger:
      "Uneven load reads low, so overload may pass unnoticed; current outputs may reach dangerous crest voltage: do not touch.",
    cure: "Isolate and prove dead, and short every current-output secondary before disturbing it. Remake the common, remove the shorts and load each line again.",
    weight: 1,
    citation: OWN,
  },

  // Mode of the meter
  F41: {
    name: "two-element mode on a four-wire supply",
    looksLike: "Voltages show about 400 V, and load between line 2 and neutral shows no power.",
    partedBy:
      "Load each line in turn: total power reads one and a half, nothing, one and a half times the truth.",
    danger: "Load on line 2 is hidden, so its main fuse may be overloaded unnoticed.",
    cure: "Stop charging and set the meter for three phases and neutral. Check for 216 to 253 V and load each line again.",
    weight: 1,
    citation: OWN,
  },
  F42: {
    name: "single-phase mode on a three-phase supply",
    looksLike: "Channels 2 and 3 read nothing, or exactly what channel 1 reads.",
    partedBy:
      "Load line 2 alone: nothing moves, and the silent channels lack voltage as well, or copy channel 1.",
    danger: "Lines 2 and 3 are not measured, so their main fuses may be overloaded unnoticed.",
    cure: "Stop charging and set the meter for three phases and neutral. Load each line again.",
    weight: 2,
    citation: OWN,
  },
  F43: {
    name: "sum of the currents read as line current",
    looksLike: "Every channel shows the same current, up to three times the true one.",
    partedBy: "Load one line alone: every channel rises alike, while a clamp finds current on one line.",
    danger: null,
    cure: "Read the current of each line from its own register. Load each line again.",
    weight: 1,
    citation: OWN,
  },

  // The site
  F44: {
    name: "generation running unnoticed",
    looksLike: "Current falls, then rises again as load grows, and power may be negative with sound wiring.",
    partedBy: "Turn generation off at its isolator, or measure at night: signs and sums come right.",
    danger:
      "Conductors stay live from a second source, and those past the transformer may carry more than it shows.",
    cure: "Isolate generation and storage, prove dead and repeat the proof. Set the load manager to signed power, and check what the shared conductors may carry.",
    weight: 4,
    citation: OWN,
  },
  F45: {
    name: "second feed not measured",
    looksLike: "Charging shows in full, but only part of the building does.",
    partedBy: "Compare a clamp on the insulated tails with the channel, then find the load that is missing.",
    danger: `${READS_LOW} A second feed may also keep conductors live.`,
    cure: "Isolate every feed and prove dead, and short any current-output secondary before disturbing it. Measure where all the fuse's current passes, or add a transformer for each feed, then remove the short.",
    weight: 1,
    citation: OWN,
  },
  F46: {
    name: "charge point lines in another order",
    looksLike:
      "Readings are true, but charging on one line of the charge point moves another line's channel.",
    partedBy:
      "Charge on one line and clamp the supply: clamp and meter agree, the charge point's name differs.",
    danger: WRONG_LINE,
    cure: "Set the line order in the charge point or load manager and label it. To rewire instead, isolate, prove dead, reconnect and check phase sequence.",
    weight: 5,
    citation: OWN,
  },

  // The bus
  F47: {
    name: "bus wires D0 and D1 exchanged",
    looksLike: "No valid reply comes at any address, and the idle bus stands with D1 below D0.",
    partedBy: "Measure D1 to D0 on the idle bus: below zero is exchanged wires, above 0.2 V is a setting.",
    danger: null,
    cure: "Isolate and prove dead where mains is within reach. Put the wire that is positive at idle on D1 at every device, whatever its letter.",
    weight: 6,
    citation: serialLine("3.3.2, page 22"),
  },
  F48: {
    name: "bus termination missing",
    looksLike: "Checksum errors come at every address and grow with speed and length.",
    partedBy:
      "Halve the speed of every device: errors of a missing terminator go, those of missing bias stay.",
    danger: null,
    cure: "Isolate and prove dead where mains is within reach. Fit a terminator at each of the two ends, none between, and count the errors again.",
    weight: 2,
    citation: serialLine("3.4.5, page 28"),
  },
  F49: {
    name: "too many bus terminators",
    looksLike: "Replies fail or come corrupt, and the idle voltage falls below 0.2 V.",
    partedBy: "Measure across the pair with the bus unpowered: two of 120 Ω give 60 Ω, three give 40 Ω.",
    danger: null,
    cure: "Isolate and prove dead where mains is within reach. Leave terminators only at the two ends; switch off those inside other devices.",
    weight: 3,
    citation: serialLine("3.4.5, page 28"),
  },
  F50: {
    name: "bus bias missing or fitted twice",
    looksLike: "The first byte of a reply is often corrupt, and stray characters come when the bus is idle.",
    partedBy:
      "Measure the idle voltage, then the pair unpowered: right resistance and under 0.2 V means no bias.",
    danger: null,
    cure: "Isolate and prove dead where mains is within reach. Fit bias at one place only, usually the master, and measure above 0.2 V at idle.",
    weight: 4,
    citation: serialLine("3.4.6, page 28"),
  },
  F51: {
    name: "bus common missing or earthed twice",
    looksLike: "Errors come and go as large equipment switches, at every speed.",
    partedBy: "Measure D0 and D1 to common at each device: outside −7 to +12 V the common is at fault.",
    danger: "A bus without its common may float to a dangerous voltage: measure to earth before touching it.",
    cure: "Isolate and prove dead, then run the common to every device. Earth it at one point only and the screen at one end.",
    weight: 4,
    citation: serialLine("3.3.2, page 22 and 3.4.4"),
  },
  F52: {
    name: "two devices with one bus address",
    looksLike: "Checksum errors come on one address only, and the others answer cleanly.",
    partedBy: "Unplug one device's bus: the address then answers cleanly from the other.",
    danger: null,
    cure: "Give each device its own address, with one connected at a time. Label the addresses and read each again.",
    weight: 3,
    citation: serialLine(
      "2.2, page 8",
      "Read for the range of addresses, 1 to 247; that each must be unique is recalled. The look is own working.",
    ),
  },
  F53: {
    name: "wrong bus speed",
    looksLike:
      "Every request times out though the idle voltage is right, and a listener sees broken characters.",
    partedBy:
      "Try each speed with one register at the known address; a wrong address still shows clean characters.",
    danger: null,
    cure: "Set one speed on every device, restart those that need it and read again.",
    weight: 5,
    citation: serialLine("3.2, page 20"),
  },
  F54: {
    name: "wrong parity or stop bits",
    looksLike: "Nearly every request times out, and a listener at the right speed sees only some characters.",
    partedBy: "Try each parity at the same speed: with a wrong speed hardly any character passes.",
    danger: null,
    cure: "Set the same parity and stop bits on every device; even parity with one stop bit is the default. Read again.",
    weight: 5,
    citation: serialLine("2.5.1, page 12"),
  },
  F55: {
    name: "wrong bus address",
    looksLike:
      "Every request times out with clean characters, or a gateway reports that its target did not answer.",
    partedBy: "Ask each address from 1 to 247 for one register: the device answers under another number.",
    danger: null,
    cure: "Set the load manager to the device's address, or the reverse. Label the device and compare its reading with its display.",
    weight: 5,
    citation: serialLine("2.2, page 8"),
  },
  F56: {
    name: "wrong function code",
    looksLike: "The device answers with exception 01, or with values that have nothing to do with the site.",
    partedBy: "Read the same register with function 03 and then 04: one of them gives a known value.",
    danger: "Unrelated values may pass for a small current, so the main fuse may be overloaded unnoticed.",
    cure: "Set the function code from the meter's register list. Check voltage and current against a voltmeter and a clamp.",
    weight: 4,
    citation: application("6.3, 6.4 and 7, pages 48 and 49"),
  },
  F57: {
    name: "wrong register",
    looksLike:
      "Values look possible but belong to another quantity, or exception 02 comes at the list's end.",
    partedBy: "Read voltage one register up and one down: a value of 216 to 253 V shows the offset.",
    danger: "A wrong quantity may pass for a small current, so the main fuse may be overloaded unnoticed.",
    cure: "Correct the register, remembering that number N is sent as N − 1. Check every quantity used against an instrument.",
    weight: 5,
    citation: application("4.4, page 8 and 7, pages 48 and 49"),
  },

  // The numbers
  F58: {
    name: "halves of a number exchanged",
    looksLike: "Values are nearly zero or huge, and jump without sense as the load changes.",
    partedBy: "Try each word and byte order: only one gives 216 to 253 V and 49 to 51 Hz.",
    danger: "A value near zero passes for no load, so the main fuse may be overloaded unnoticed.",
    cure: "Set the word order that gives true voltage and frequency. Compare the current with a clamp.",
    weight: 3,
    citation: application(
      "4.2, page 5",
      "The specification orders the bytes of 16 bits only and leaves 32 bits open; the look is own working.",
    ),
  },
  F59: {
    name: "negative number read as positive",
    looksLike: "Power jumps to an enormous value whenever the site exports.",
    partedBy: "Stop generation: values come right, where exchanged halves stay wrong on import too.",
    danger: null,
    cure: "Read the register as signed. Check with generation running that export shows as a small negative power.",
    weight: 2,
    citation: OWN,
  },
  F60: {
    name: "wrong unit or power of ten",
    looksLike: "One quantity, or all of them, is ten, a hundred or a thousand times out.",
    partedBy:
      "Multiply voltage, current and power factor: shown power out by a power of ten betrays the unit.",
    danger: MAY_READ_LOW,
    cure: "Set the unit and scale from the meter's register list. Compare voltage and current with a voltmeter and a clamp.",
    weight: 4,
    citation: OWN,
  },

  // Time
  F61: {
    name: "reading frozen",
    looksLike: "Voltage, current and power repeat to the last digit for several seconds or more.",
    partedBy: "Count different values in a minute: over range freezes only the current, this freezes all.",
    danger: "The load manager acts on an old reading, so the main fuse may be overloaded unnoticed.",
    cure: "Stop charging and restart the part that holds the value, then set it to pass fresh readings. Prove that the charge point falls back when readings stop.",
    weight: 4,
    citation: OWN,
  },
  F62: {
    name: "average read instead of the present value",
    looksLike: "After a load step the reading climbs in a ramp over seconds or minutes.",
    partedBy: "Step a kettle or heater, not a car: a straight ramp even then is the meter's averaging.",
    danger: "The load manager acts late, so an overload of the main fuse lasts longer than planned.",
    cure: "Read the register of the present value instead. Step a load and time how soon the reading settles.",
    weight: 3,
    citation: OWN,
  },
  F63: {
    name: "values taken at different moments",
    looksLike: "Power disagrees with voltage times current times power factor, but only while load changes.",
    partedBy: "Hold the load steady: the values then agree, where a wrong unit still disagrees.",
    danger: null,
    cure: "Read all values in one block. Repeat the load step and compare them again.",
    weight: 2,
    citation: OWN,
  },
  F64: {
    name: "polling slower than the control needs",
    looksLike: "Readings are right but come too seldom, and gaps grow when a device is absent.",
    partedBy:
      "Time each request: a slow cycle leaves gaps between requests, a frozen meter answers every one alike.",
    danger: "The load manager acts late, so an overload of the main fuse lasts longer than planned.",
    cure: "Remove absent devices from the list, read fewer registers in larger blocks, or raise the speed. Time the cycle again.",
    weight: 4,
    citation: serialLine(
      "2.4.1, page 10",
      "Read for the usual response time-out of one second or more; the sum of a cycle is own working.",
    ),
  },

  // The vehicle
  F65: {
    name: "vehicle takes less than offered",
    looksLike: "Charging current is below what is offered, or missing on some lines, with sound metering.",
    partedBy: "Clamp the charge point's lines, then try another vehicle: clamp and channel agree throughout.",
    danger: null,
    cure: "Change nothing in the metering. Repeat the proof with a charge simulator or a vehicle that takes the full offer.",
    weight: 6,
    citation: OWN,
  },
  F66: {
    name: "vehicle or charge point follows late",
    looksLike: "The offered current falls, but the charging current stays up for many seconds.",
    partedBy:
      "Time offer, clamp and reading: a late reading trails the clamp, a late vehicle holds the clamp up.",
    danger: "An overload of the main fuse lasts until the current falls, or goes on if it never does.",
    cure: "Lower the limit, or widen the margin, for the delay measured. Have the charge point open its contactor when the current stays up.",
    weight: 3,
    citation: OWN,
  },
};
