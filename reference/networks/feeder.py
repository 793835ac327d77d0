"""Shared by the generators: a builder for four-wire feeders, and the JSON form of phasors and files.

Nothing here solves anything, so a mistake here cannot make a solver and the checker agree.
"""

import json
import math
from pathlib import Path

HERE = Path(__file__).parent
NOMINAL_VOLTAGE_V = 230.0
LINES = ("L1", "L2", "L3")
LINE_ANGLE_RAD = {"L1": 0.0, "L2": math.radians(-120), "L3": math.radians(120)}

CONVENTIONS = (
    "Steady state at 50 Hz; phasors are RMS values {re, im}. The source holds 230 V line to neutral at node 'source': "
    "L1 at 0 degrees, L2 at -120 degrees, L3 at +120 degrees; the source neutral is true Earth and nothing else is "
    "earthed. Conductors have series impedance only: no mutual coupling, no shunt capacitance. A section joins two "
    "nodes, those nearer the source come first; every section carries a neutral and the lines it lists; a source "
    "impedance is simply the first section. "
    "Loads stand between one line and the local neutral. activePowerW and reactivePowerVar are what a load draws at "
    "exactly 230 V between its line and the local neutral: S = P + jQ, Q positive = lagging, P negative = generation. "
    "With U the line to local neutral voltage: constant-power I = conj(S/U); constant-impedance I = conj(S) U / 230^2; "
    "constant-current I = conj(S)/230 * U/|U|, so |I| and the angle between U and I are kept. "
    "Results, nodes: L1, L2, L3 are line to LOCAL neutral voltages in volts, neutralToSourceNeutral is the local "
    "neutral's potential against the source neutral in volts. Results, sections: line currents in amperes, positive "
    "from 'from' to 'to'; N is the current returning in the neutral, positive from 'to' to 'from', so that N equals "
    "the phasor sum of the section's line currents. The node 'source' is not repeated in the results."
)


def phasor(value: complex) -> dict:
    """JSON form of a complex RMS value."""
    return {"re": value.real, "im": value.imag}


def pick_lines(digits: str) -> list[str]:
    """'13' -> ['L1', 'L3']."""
    return [f"L{digit}" for digit in digits]


def from_power_factor(current_a: float, factor: float = 1.0, leading: bool = False) -> complex:
    """Complex power (VA) of a current (A, negative = generation) at 230 V and a displacement power factor."""
    reactive = math.sqrt(1 - factor * factor) * (-1 if leading else 1)
    return NOMINAL_VOLTAGE_V * current_a * complex(factor, reactive)


def cable(area_mm2: float, metres: float) -> complex:
    """Impedance (ohm) of a warm copper conductor: 22.5 mohm mm2/m and 0.08 mohm/m."""
    return complex(0.0225 * metres / area_mm2, 0.00008 * metres)


class Feeder:
    """A radial four-wire feeder under construction, in the very shape of the JSON file."""

    def __init__(self, identifier: str, what: str):
        self.data = {"id": identifier, "what": what, "nominalVoltageV": 230, "nodes": ["source"],
                     "sections": [], "loads": []}

    def section(self, start: str, end: str, line_ohm: complex, neutral_ohm: complex | None = None,
                lines: str = "123") -> "Feeder":
        """Add a section; without neutral_ohm the neutral equals the line conductors."""
        neutral_ohm = line_ohm if neutral_ohm is None else neutral_ohm
        sections = self.data["sections"]
        sections.append({"id": f"s{len(sections) + 1}", "from": start, "to": end, "lines": pick_lines(lines),
                         "lineResistanceOhm": tidy(line_ohm.real), "lineReactanceOhm": tidy(line_ohm.imag),
                         "neutralResistanceOhm": tidy(neutral_ohm.real),
                         "neutralReactanceOhm": tidy(neutral_ohm.imag)})
        self.data["nodes"].append(end)
        return self

    def chain(self, count: int, line_ohm: complex, neutral_ohm: complex | None = None, lines: str = "123",
              start: str = "source", prefix: str = "n") -> list[str]:
        """Append count equal sections in a row; returns the new nodes."""
        nodes = [f"{prefix}{k + 1}" for k in range(count)]
        for before, node in zip([start, *nodes], nodes):
            self.section(before, node, line_ohm, neutral_ohm, lines)
        return nodes

    def load(self, node: str, lines: str, model: str, power_va: complex) -> "Feeder":
        """Add one line-to-neutral load of power_va on each of the lines."""
        loads = self.data["loads"]
        for line in pick_lines(lines):
            loads.append({"id": f"load{len(loads) + 1}", "node": node, "line": line, "model": model,
                          "activePowerW": tidy(power_va.real), "reactivePowerVar": tidy(power_va.imag)})
        return self


def tidy(value: float) -> float:
    """Input values to seven significant digits, so that the file shows exactly what was solved."""
    return float(f"{value:.7g}") + 0.0


def paths(network: dict) -> dict[str, list[dict]]:
    """For every node, its sections from the source outwards."""
    found = {"source": []}
    for section in network["sections"]:
        found[section["to"]] = found[section["from"]] + [section]
    return found


def render(value, indent: int = 0, width: int = 330) -> str:
    """JSON text in which whatever fits on one line stays on one line; floats keep full precision."""
    flat = json.dumps(value, allow_nan=False)
    if len(flat) + indent <= width or not isinstance(value, (dict, list)):
        return flat
    pad = " " * (indent + 1)
    if isinstance(value, dict):
        rows = [f"{pad}{json.dumps(key)}: {render(item, indent + 1, width)}" for key, item in value.items()]
        return "{\n" + ",\n".join(rows) + "\n" + " " * indent + "}"
    return "[\n" + ",\n".join(pad + render(item, indent + 1, width) for item in value) + "\n" + " " * indent + "]"


def write_json(name: str, value: dict) -> None:
    """Write one oracle file beside the scripts."""
    (HERE / name).write_text(render(value) + "\n", encoding="utf-8")
