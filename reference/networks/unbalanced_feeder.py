"""unbalanced_feeder.json: low-voltage feeders by pandapower's sequence-component load flow, mapped to four wires.

Mapping. Without mutual coupling a section with line impedance Zl and neutral impedance Zn obeys, line to LOCAL
neutral, dU_a = Zl I_a + Zn (I_a + I_b + I_c); in sequence components that is Z1 = Z2 = Zl and Z0 = Zl + 3 Zn. So a
pandapower line with r, x = Zl and r0, x0 = Zl + 3 Zn gives, as its "phase to earth" voltages, exactly the line to
local neutral voltages of the four-wire feeder. The model has no neutral node: the neutral's potential is added up
afterwards as the sum of Zn (I_a + I_b + I_c) along the path from the source.
"""

import cmath
import math
import random
from importlib.metadata import version

import pandapower as pp
from pandapower.pf.runpp_3ph import runpp_3ph

import feeder as fd
from feeder import NOMINAL_VOLTAGE_V, Feeder, cable, from_power_factor as amps

SEED = 3
# The load flow stops at 3e-8 times the base power, a limit that cannot be set: a small base makes it tight.
BASE_MVA = 1e-6
INNER_TOLERANCE_MVA = 1e-17
GRID_MVA = 1e12
LINE_TO_LINE_KV = 0.23 * math.sqrt(3)
LETTER = {"L1": "a", "L2": "b", "L3": "c"}
POWER = "constant-power"

MAPPING = (
    "Solved in sequence components, where the neutral is no node of its own: each section is a line with Z1 = Z2 = Zl "
    "(line conductor) and Z0 = Zl + 3 Zn (Zn = neutral conductor), no mutual coupling, no capacitance. The model's "
    "phase voltages are then exactly the line to local neutral voltages of the four-wire feeder with an isolated "
    "neutral conductor; neutralToSourceNeutral is the sum of Zn N along the path, computed from the model's currents. "
    "Section currents come from the model's section powers and voltages, I = conj(S/U) at 'from'. All loads are "
    "constant power."
)


def shaped_feeders() -> list[Feeder]:
    """Hand-shaped feeders."""
    single = Feeder("single-section", "One section, unequal lagging loads on the three lines")
    single.section("source", "n1", cable(16, 80))
    for line, (current, factor) in zip("123", ((50, 0.95), (25, 0.9), (10, 1.0))):
        single.load("n1", line, POWER, amps(current, factor))

    one = Feeder("one-line-only", "Loads on L2 only along three sections")
    for node in one.chain(3, cable(25, 40), cable(16, 40)):
        one.load(node, "2", POWER, amps(14, 0.97))

    balanced = Feeder("balanced", "Balanced loads along five sections: no neutral current")
    for node in balanced.chain(5, cable(70, 35)):
        balanced.load(node, "123", POWER, amps(16, 0.92))

    row = Feeder("rotated-row", "Fifteen single-phase points, lines rotated, neutral of half the section")
    for k, node in enumerate(row.chain(15, cable(95, 12), cable(50, 12))):
        row.load(node, "123"[k % 3], POWER, amps(10 + k, 0.99))

    mixed = Feeder("generation", "Generation on L1 and L2, leading and lagging load on L3, with a side branch")
    mixed.section("source", "n1", cable(35, 70)).section("n1", "n2", cable(16, 40))
    mixed.section("n1", "n3", cable(10, 30), 2 * cable(10, 30))
    mixed.load("n2", "1", POWER, amps(-25)).load("n2", "3", POWER, amps(30, 0.9))
    mixed.load("n3", "2", POWER, amps(-12, 0.95)).load("n3", "3", POWER, amps(10, 0.9, leading=True))

    behind = Feeder("source-impedance", "Source impedance with its own neutral part as first section, then two cables")
    behind.section("source", "busbar", 0.012 + 0.035j, 0.006 + 0.01j).section("busbar", "n1", cable(35, 50))
    behind.section("busbar", "n2", cable(16, 60), cable(10, 60))
    behind.load("busbar", "123", POWER, amps(40, 0.9)).load("n1", "1", POWER, amps(60, 0.98))
    behind.load("n2", "3", POWER, amps(25))
    return [single, one, balanced, row, mixed, behind]


def random_feeders() -> list[Feeder]:
    """Four random trees of 8 to 40 nodes."""
    dice = random.Random(SEED)
    found = []
    for number, size in enumerate((8, 14, 24, 40)):
        tree = Feeder(f"random-{number + 1}", f"Random tree of {size} nodes, single-phase loads, some generation")
        names = ["source"]
        for k in range(1, size):
            line_ohm = cable(dice.choice((16, 25, 35, 50)), dice.uniform(10, 60))
            tree.section(dice.choice(names[-5:]), f"n{k}", line_ohm, line_ohm * dice.choice((1, 1.5, 2)))
            names.append(f"n{k}")
            current = dice.choice((-1, 1, 1, 1, 1)) * dice.uniform(1, 260 / size)
            tree.load(f"n{k}", dice.choice("123"), POWER, amps(current, dice.uniform(0.85, 1), dice.random() < 0.2))
        found.append(tree)
    return found


# ------------------------------------------------------------- pandapower

def build(network: dict):
    """The pandapower network, with its bus numbers in the order of the nodes."""
    net = pp.create_empty_network(f_hz=50.0, sn_mva=BASE_MVA)
    buses = {node: pp.create_bus(net, LINE_TO_LINE_KV) for node in network["nodes"]}
    pp.create_ext_grid(net, buses["source"], vm_pu=1.0, s_sc_max_mva=GRID_MVA, rx_max=0.1, x0x_max=1.0, r0x0_max=0.1)
    for section in network["sections"]:
        line = complex(section["lineResistanceOhm"], section["lineReactanceOhm"])
        zero = line + 3 * complex(section["neutralResistanceOhm"], section["neutralReactanceOhm"])
        pp.create_line_from_parameters(
            net, buses[section["from"]], buses[section["to"]], length_km=1.0, max_i_ka=1.0, r_ohm_per_km=line.real,
            x_ohm_per_km=line.imag, c_nf_per_km=0, r0_ohm_per_km=zero.real, x0_ohm_per_km=zero.imag, c0_nf_per_km=0)
    for load in network["loads"]:
        powers = {f"{kind}_{letter}_{unit}": 0.0 for letter in "abc" for kind, unit in (("p", "mw"), ("q", "mvar"))}
        letter = LETTER[load["line"]]
        powers |= {f"p_{letter}_mw": load["activePowerW"] / 1e6, f"q_{letter}_mvar": load["reactivePowerVar"] / 1e6}
        pp.create_asymmetric_load(net, buses[load["node"]], **powers)
    return net, buses


def solve(network: dict) -> dict:
    """The network with pandapower's results added, in four-wire form."""
    net, buses = build(network)
    runpp_3ph(net, tolerance_mva=INNER_TOLERANCE_MVA, max_iteration=300)
    voltages = {(node, line): phase_voltage(net, bus, letter)
                for node, bus in buses.items() for line, letter in LETTER.items()}
    flows = {section["id"]: section_currents(net, row, section, voltages)
             for row, section in enumerate(network["sections"])}
    nodes, potential = {}, {"source": 0j}
    for section in network["sections"]:
        neutral = complex(section["neutralResistanceOhm"], section["neutralReactanceOhm"])
        node = section["to"]
        potential[node] = potential[section["from"]] + neutral * flows[section["id"]]["N"]
        nodes[node] = {line: fd.phasor(voltages[node, line]) for line in LETTER}
        nodes[node]["neutralToSourceNeutral"] = fd.phasor(potential[node])
    sections = {key: {name: fd.phasor(current) for name, current in flow.items()} for key, flow in flows.items()}
    return network | {"results": {"nodes": nodes, "sections": sections}}


def phase_voltage(net, bus: int, letter: str) -> complex:
    """The model's phase voltage (V): line to local neutral under the mapping."""
    table = net.res_bus_3ph
    angle = math.radians(table.at[bus, f"va_{letter}_degree"])
    return cmath.rect(NOMINAL_VOLTAGE_V * table.at[bus, f"vm_{letter}_pu"], angle)


def section_currents(net, row: int, section: dict, voltages: dict) -> dict[str, complex]:
    """Line currents (A) from the powers entering at 'from', and their sum as neutral current."""
    table = net.res_line_3ph
    flow = {line: (complex(table.at[row, f"p_{letter}_from_mw"], table.at[row, f"q_{letter}_from_mvar"]) * 1e6
                   / voltages[section["from"], line]).conjugate() for line, letter in LETTER.items()}
    return flow | {"N": sum(flow.values())}


def main() -> None:
    """Solve everything and write unbalanced_feeder.json."""
    size = 1.1 * (LINE_TO_LINE_KV * 1e3)**2 / (GRID_MVA * 1e6)
    grid = {"shortCircuitPowerMVA": GRID_MVA, "rOverX": 0.1, "impedanceMagnitudeOhm": size,
            "resistanceOhm": size * 0.1 / math.hypot(0.1, 1), "reactanceOhm": size / math.hypot(0.1, 1),
            "note": "in the negative- and zero-sequence systems; the positive-sequence system has an ideal source"}
    fd.write_json("unbalanced_feeder.json", {
        "tool": {"name": "pandapower", "function": "runpp_3ph", "version": version("pandapower"),
                 "basePowerMVA": BASE_MVA},
        "generatedBy": "unbalanced_feeder.py", "seed": SEED, "conventions": fd.CONVENTIONS, "mapping": MAPPING,
        "externalGrid": grid, "networks": [solve(case.data) for case in shaped_feeders() + random_feeders()]})


if __name__ == "__main__":
    main()
