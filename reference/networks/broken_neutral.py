"""broken_neutral.json: an open combined neutral-earth conductor (PEN) in the supply, solved by OpenDSS.

Node 4 of the source bus is the installation's neutral with its metalwork: cut off from the star point (node 0), held
only by the loads and, where there is one, by a single-phase Reactor element that is the earth electrode's resistance.
"""

import feeder as fd
import four_wire as engine

LOAD_SETS_A = ((32, 0, 0), (60, 20, 10), (40, 30, 20), (72, 40, 40), (100, 100, 60), (32, 32, 32), (13, 0, 0),
               (100, 0, 0))
MORE_SETS_A = ((0, 32, 0), (0, 0, 20), (32, 32, 0), (16, 0, 8))
ELECTRODES_OHM = (0.5, 2.0, 10.0, 50.0, 200.0, None)
FEW_ELECTRODES_OHM = (1.0, 20.0, None)
INDUCTIVE = (((60, 0.95), (20, 0.8), (10, 1.0)), ((32, 0.8), (0, 1.0), (0, 1.0)), ((30, 0.9), (30, 0.9), (30, 0.9)),
             ((40, 1.0), (40, 0.5), (0, 1.0)))

CONVENTIONS = (
    "Steady state at 50 Hz; phasors are RMS values {re, im}. The source star point is solidly earthed (0 ohm to true "
    "Earth) and holds 230 V line to star point: L1 at 0 degrees, L2 at -120 degrees, L3 at +120 degrees, right at the "
    "installation's line terminals (line conductors without impedance). The supply's combined neutral-earth conductor "
    "is open. The installation's neutral is joined to its metalwork and, unless electrodeResistanceOhm is null, to an "
    "earth electrode of that resistance to true Earth; there is no other path to Earth. Every load is a constant "
    "impedance between its line and that neutral which would draw currentA at exactly 230 V with the given "
    "displacement power factor (lagging where below 1); no entry means no load on that line. Results: touchVoltageV "
    "is the metalwork against true Earth; electrodeCurrentA flows from the metalwork into Earth; loadVoltagesV "
    "are line to metalwork; loadCurrentsA flow from the line into the load."
)


def build(case: dict) -> None:
    """Source, loads and electrode of one case."""
    engine.build_source()
    for load in case["loads"]:
        power = fd.from_power_factor(load["currentA"], load["powerFactor"])
        engine.build_load({"id": load["line"], "node": "source", "line": load["line"], "model": "constant-impedance",
                           "activePowerW": power.real, "reactivePowerVar": power.imag})
    if case["electrodeResistanceOhm"] is not None:
        engine.command(f"new reactor.electrode phases=1 bus1=source.4 bus2=source.0 basefreq=50 "
                       f"r={case['electrodeResistanceOhm']!r} x=0")


def solve(case: dict) -> dict:
    """The case with OpenDSS's results added."""
    build(case)
    engine.converge()
    engine.check_source()
    voltages = engine.bus_voltages("source")
    electrode = 0j if case["electrodeResistanceOhm"] is None else engine.element_currents("reactor.electrode")[0]
    lines = [load["line"] for load in case["loads"]]
    return case | {"results": {
        "touchVoltageV": fd.phasor(voltages[4]), "touchVoltageMagnitudeV": abs(voltages[4]),
        "electrodeCurrentA": fd.phasor(electrode), "electrodeCurrentMagnitudeA": abs(electrode),
        "loadVoltagesV": {line: fd.phasor(voltages[int(line[1])] - voltages[4]) for line in lines},
        "loadCurrentsA": {line: fd.phasor(engine.element_currents(f"load.{line}")[0]) for line in lines}}}


def describe(loads: list[dict], electrode_ohm: float | None) -> str:
    """One sentence."""
    parts = [f"{load['currentA']} A{'' if load['powerFactor'] == 1 else ' at power factor ' + str(load['powerFactor'])}"
             f" on {load['line']}" for load in loads]
    return f"{', '.join(parts)}; {'no electrode' if electrode_ohm is None else f'electrode of {electrode_ohm:g} ohm'}"


def cases() -> list[dict]:
    """All load sets with all their electrodes."""
    unity = [[(amps, 1.0) for amps in row] for row in LOAD_SETS_A]
    more = [[(amps, 1.0) for amps in row] for row in MORE_SETS_A] + [list(row) for row in INDUCTIVE]
    wanted = [(row, ohm) for row in unity for ohm in ELECTRODES_OHM]
    wanted += [(row, ohm) for row in more for ohm in FEW_ELECTRODES_OHM]
    result = []
    for row, ohm in wanted:
        loads = [{"line": line, "currentA": amps, "powerFactor": float(factor)}
                 for line, (amps, factor) in zip(fd.LINES, row) if amps]
        result.append({"id": f"case-{len(result) + 1}", "what": describe(loads, ohm), "nominalVoltageV": 230,
                       "electrodeResistanceOhm": ohm, "loads": loads})
    return result


def main() -> None:
    """Solve everything and write broken_neutral.json."""
    fd.write_json("broken_neutral.json", {
        "tool": engine.tool(), "generatedBy": "broken_neutral.py", "conventions": CONVENTIONS,
        "cases": [solve(case) for case in cases()]})


if __name__ == "__main__":
    main()
