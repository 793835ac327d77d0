"""four_wire.json: radial four-wire feeders with an explicit neutral, solved by OpenDSS.

Every section is an OpenDSS Line of two to four conductors, given by its primitive matrices (no sequence components)
with a zero capacitance matrix; node 4 of each bus is the neutral, earthed at the source only.
"""

import math
import random
from importlib.metadata import version

from opendssdirect import dss

import feeder as fd
from feeder import NOMINAL_VOLTAGE_V, Feeder, cable, from_power_factor as amps

SEED = 20260
TOLERANCE = 1e-13            # OpenDSS's own convergence test: change of |V| per unit
SOURCE_OHM = 1e-13           # OpenDSS has no ideal source; its "ideal" model means 5e-7 ohm
DEGREES_PER_RADIAN = 57.29577951  # OpenDSS's truncated constant, undone below
SOURCE_LIMIT_V = 1e-9        # how far OpenDSS's source may be from the ideal one
OPENDSS_MODEL = {"constant-power": 1, "constant-impedance": 2, "constant-current": 5}
CURRENT, IMPEDANCE, POWER = "constant-current", "constant-impedance", "constant-power"
MODELS = (CURRENT, IMPEDANCE, POWER)


# ---------------------------------------------------------------- the engine

def command(text: str) -> None:
    """One OpenDSS command; its errors become Python exceptions in the binding."""
    dss.Text.Command(text)


def source_angle_deg(line: str) -> float:
    """The angle to type so that OpenDSS, which adds 360 and divides by a truncated 180/pi, lands on the true one."""
    return (2 * math.pi + fd.LINE_ANGLE_RAD[line]) * DEGREES_PER_RADIAN - 360


def build_source() -> None:
    """Three single-phase sources of 230 V behind a negligible resistance, star point at node 0 (Earth)."""
    command("clear")
    command("set defaultbasefrequency=50")
    command("new circuit.feeder bus1=source.1 phases=1 basekv=0.23")
    for line in fd.LINES:
        name = "edit vsource.source" if line == "L1" else f"new vsource.{line}"
        command(f"{name} bus1=source.{line[1]} phases=1 basekv=0.23 pu=1 frequency=50 basefreq=50 "
                f"angle={source_angle_deg(line)!r} r1={SOURCE_OHM} x1=0 r0={SOURCE_OHM} x0=0")


def diagonal(values: list[float]) -> str:
    """Lower triangle of a diagonal matrix in OpenDSS notation."""
    return "[" + " | ".join(" ".join(["0"] * row + [repr(value)]) for row, value in enumerate(values)) + "]"


def build_section(section: dict) -> None:
    """One Line element of unit length: listed lines, then the neutral as last conductor."""
    nodes = ".".join(line[1] for line in section["lines"])
    start_neutral = 0 if section["from"] == "source" else 4
    count = len(section["lines"])
    resistance = [section["lineResistanceOhm"]] * count + [section["neutralResistanceOhm"]]
    reactance = [section["lineReactanceOhm"]] * count + [section["neutralReactanceOhm"]]
    command(f"new line.{section['id']} phases={count + 1} basefreq=50 units=none length=1 "
            f"bus1={section['from']}.{nodes}.{start_neutral} bus2={section['to']}.{nodes}.4 "
            f"rmatrix={diagonal(resistance)} xmatrix={diagonal(reactance)} cmatrix={diagonal([0.0] * (count + 1))}")


def build_load(load: dict) -> None:
    """A single-phase load between a line and the local neutral, its law valid from 0.1 to 10 per unit."""
    command(f"new load.{load['id']} phases=1 conn=wye bus1={load['node']}.{load['line'][1]}.4 kv=0.23 basefreq=50 "
            f"kw={load['activePowerW'] / 1000!r} kvar={load['reactivePowerVar'] / 1000!r} "
            f"model={OPENDSS_MODEL[load['model']]} status=fixed vminpu=0.1 vlowpu=0.05 vmaxpu=10")


def converge() -> None:
    """Solve to TOLERANCE; a second call settles what the test on |V| alone left open."""
    command("set voltagebases=[0.4]")
    command("calcvoltagebases")
    command(f"set mode=snapshot controlmode=off algorithm=normal maxiterations=2000 tolerance={TOLERANCE}")
    for _ in range(2):
        command("solve")
        if not dss.Solution.Converged():
            raise RuntimeError("OpenDSS did not converge")


def bus_voltages(bus: str) -> dict[int, complex]:
    """Node number -> voltage to Earth (V)."""
    dss.Circuit.SetActiveBus(bus)
    flat = dss.Bus.Voltages()
    return {node: complex(flat[2 * k], flat[2 * k + 1]) for k, node in enumerate(dss.Bus.Nodes())}


def element_currents(name: str) -> list[complex]:
    """Currents (A) into every conductor of an element, first terminal first."""
    dss.Circuit.SetActiveElement(name)
    flat = dss.CktElement.Currents()
    return [complex(re, im) for re, im in zip(flat[::2], flat[1::2])]


def check_source() -> None:
    """Refuse a solution whose source is not the ideal one."""
    voltages = bus_voltages("source")
    for line, angle in fd.LINE_ANGLE_RAD.items():
        ideal = NOMINAL_VOLTAGE_V * complex(math.cos(angle), math.sin(angle))
        if abs(voltages[int(line[1])] - ideal) > SOURCE_LIMIT_V:
            raise RuntimeError("the OpenDSS source is off")


def solve(network: dict) -> dict:
    """The network with OpenDSS's results added."""
    build_source()
    for section in network["sections"]:
        build_section(section)
    for load in network["loads"]:
        build_load(load)
    converge()
    check_source()
    return network | {"results": {"nodes": node_results(network), "sections": section_results(network)}}


def node_results(network: dict) -> dict:
    """Line to local neutral voltages and the neutral's own potential (V), node by node."""
    results = {}
    for section in network["sections"]:
        voltages = bus_voltages(section["to"])
        results[section["to"]] = {line: fd.phasor(voltages[int(line[1])] - voltages[4]) for line in section["lines"]}
        results[section["to"]]["neutralToSourceNeutral"] = fd.phasor(voltages[4])
    return results


def section_results(network: dict) -> dict:
    """Line currents outwards and neutral current inwards (A), section by section."""
    results = {}
    for section in network["sections"]:
        currents = element_currents(f"line.{section['id']}")
        results[section["id"]] = {line: fd.phasor(currents[k]) for k, line in enumerate(section["lines"])}
        results[section["id"]]["N"] = fd.phasor(-currents[len(section["lines"])])
    return results


# ------------------------------------------------------------ the networks

def single_sections() -> list[Feeder]:
    """One section and one node, one idea each."""
    z = cable(6, 40)
    cases = []

    def case(identifier, what, lines="123", line_ohm=z, neutral_ohm=None):
        cases.append(Feeder(identifier, what).section("source", "n1", line_ohm, neutral_ohm, lines))
        return cases[-1]

    case("one-line-current", "32 A constant current, unity power factor, on L1 only", "1").load(
        "n1", "1", CURRENT, amps(32))
    case("one-line-power", "Constant power lagging on L2 only", "2").load("n1", "2", POWER, amps(32, 0.9))
    case("one-line-impedance", "Constant impedance leading on L3 only", "3").load(
        "n1", "3", IMPEDANCE, amps(32, 0.9, True))
    case("two-lines", "Two lines and a neutral without the third line", "12").load(
        "n1", "12", CURRENT, amps(25, 0.95))
    for model in MODELS:
        case(f"balanced-{model}", f"Balanced three-phase {model} load: no neutral current").load(
            "n1", "123", model, amps(20, 0.9))
        unbalanced = case(f"unbalanced-{model}", f"60 A, 20 A and 10 A {model} on the three lines",
                          line_ohm=cable(16, 60))
        for line, current in zip("123", (60, 20, 10)):
            unbalanced.load("n1", line, model, amps(current))
    swing = case("neutral-above-line", "Unity, leading and lagging lines; more current in the neutral than in any line")
    swing.load("n1", "1", POWER, amps(20)).load("n1", "2", POWER, amps(20, 0.5, True))
    swing.load("n1", "3", POWER, amps(20, 0.5))
    case("one-line-generation", "Generation on one line, nothing elsewhere").load("n1", "2", POWER, amps(-20))
    against = case("generation-against-load", "Generation on L1 against loads on L2 and L3")
    against.load("n1", "1", CURRENT, amps(-25)).load("n1", "2", POWER, amps(25, 0.95))
    against.load("n1", "3", IMPEDANCE, amps(10))
    cancel = case("cancelling-loads", "Load and generation on the same line that nearly cancel, by different laws")
    cancel.load("n1", "1", POWER, amps(30)).load("n1", "1", CURRENT, amps(-30))
    cancel.load("n1", "3", IMPEDANCE, amps(-5, 0.9))
    case("purely-reactive", "Reactive power only, inductive on L1, capacitive on L2", line_ohm=complex(0.1, 0.2)).load(
        "n1", "1", POWER, amps(30, 0)).load("n1", "2", CURRENT, amps(30, 0, True))
    case("resistive-conductors", "Conductors without reactance", line_ohm=0.25 + 0j).load(
        "n1", "1", POWER, amps(30, 0.8)).load("n1", "3", CURRENT, amps(20))
    case("reactive-conductors", "Conductors whose reactance is five times their resistance", line_ohm=0.04 + 0.2j).load(
        "n1", "2", POWER, amps(30, 0.8)).load("n1", "3", IMPEDANCE, amps(20))
    case("reduced-neutral", "Neutral of half the section", line_ohm=cable(35, 120), neutral_ohm=cable(16, 120)).load(
        "n1", "1", CURRENT, amps(80)).load("n1", "2", CURRENT, amps(20))
    poor = case("poor-neutral", "Neutral with twelve times the line resistance", "123", 0.05 + 0.01j, 0.6 + 0.01j)
    poor.load("n1", "1", CURRENT, amps(40)).load("n1", "2", POWER, amps(10)).load("n1", "3", IMPEDANCE, amps(5))
    deep = case("deep-drop", "Constant power near the limit; of the two solutions the one with the higher voltage",
                "1", 0.6 + 0.2j)
    deep.load("n1", "1", POWER, amps(42, 0.98))
    return cases


def shaped_networks() -> list[Feeder]:
    """Hand-shaped feeders of several nodes."""
    cases = []

    def case(identifier, what):
        cases.append(Feeder(identifier, what))
        return cases[-1]

    tail = case("long-tail-one-line", "Twenty sections in a row on L1, a 2 A load at each node")
    for node in tail.chain(20, cable(10, 12), lines="1"):
        tail.load(node, "1", CURRENT, amps(2, 0.95))

    tail = case("long-tail-rotating", "Thirty sections in a row, loads rotating over the lines and the three laws")
    for k, node in enumerate(tail.chain(30, cable(35, 15), cable(16, 15))):
        tail.load(node, "123"[k % 3], MODELS[k // 3 % 3], amps(4 + k % 5, 0.9 if k % 2 else 1.0))

    trunk = case("trunk-and-spurs", "Three-phase trunk of six sections with single-phase spurs on different lines")
    for k, node in enumerate(trunk.chain(6, cable(50, 40), cable(25, 40), prefix="trunk")):
        line = "123"[k % 3]
        spur = trunk.chain(2, cable(4, 18), lines=line, start=node, prefix=f"spur{k + 1}-")
        trunk.load(spur[0], line, IMPEDANCE, amps(8)).load(spur[1], line, POWER, amps(9, 0.92))

    narrowing = case("narrowing", "Three lines, then two, then one, each step loaded")
    narrowing.section("source", "n1", cable(25, 50)).section("n1", "n2", cable(10, 40), lines="13")
    narrowing.section("n2", "n3", cable(4, 30), lines="3")
    narrowing.load("n1", "123", POWER, amps(15, 0.9)).load("n2", "13", CURRENT, amps(12))
    narrowing.load("n3", "3", POWER, amps(16))

    behind = case("source-impedance", "Source impedance as first section, equal in lines and neutral, before a cable")
    behind.section("source", "busbar", 0.012 + 0.03j).section("busbar", "n1", cable(25, 60))
    behind.load("busbar", "123", POWER, amps(60, 0.95)).load("n1", "1", CURRENT, amps(50))
    behind.load("n1", "2", POWER, amps(30, 0.9))

    behind = case("source-impedance-stiff-neutral", "First section: source impedance with a much smaller neutral part")
    behind.section("source", "busbar", 0.03 + 0.06j, 0.002 + 0.001j)
    for k, node in enumerate(behind.chain(3, cable(16, 25), start="busbar")):
        behind.load(node, "123"[k], POWER, amps(30, 0.97))

    row = case("rotated-row", "Twelve single-phase 32 A points along a row, lines rotated point by point")
    for k, node in enumerate(row.chain(12, cable(120, 8), cable(70, 8))):
        row.load(node, "123"[k % 3], CURRENT, amps(32))

    row = case("balanced-row", "Ten balanced three-phase points along a row: no neutral current anywhere")
    for node in row.chain(10, cable(95, 10)):
        row.load(node, "123", CURRENT, amps(16, 0.99))

    star = case("star-of-spurs", "One trunk node with 58 single-phase spurs: 60 nodes with the source")
    star.section("source", "hub", cable(240, 30), cable(120, 30))
    for k in range(58):
        star.section("hub", f"p{k + 1}", cable(2.5 if k % 2 else 6, 5 + k), lines="123"[k % 3])
        star.load(f"p{k + 1}", "123"[k % 3], MODELS[k % 3], amps(3 + k % 7, 1 - 0.02 * (k % 6), k % 4 == 0))

    bare = case("unloaded-branches", "Long branches without load, and one loaded line lifting the idle ones")
    bare.section("source", "n1", cable(16, 100), cable(10, 100)).section("n1", "n2", cable(6, 50))
    bare.section("n1", "n3", cable(6, 50), lines="2").section("n3", "n4", cable(6, 50), lines="2")
    bare.load("n1", "1", CURRENT, amps(60))

    mixture = case("mixture-at-one-node", "All laws, both directions and both reactive signs on every line of one node")
    mixture.section("source", "n1", cable(35, 80), cable(16, 80))
    for line in "123":
        for k, model in enumerate(MODELS):
            mixture.load("n1", line, model, amps(6 + 3 * k + int(line), 0.9, leading=k == int(line) % 3))
        mixture.load("n1", line, POWER, amps(-3 * int(line), 0.98))

    sun = case("rising-voltage", "Generation along a rural line lifts the far end well above nominal")
    for k, node in enumerate(sun.chain(8, cable(25, 45), cable(25, 45))):
        sun.load(node, "123"[k % 2], POWER, amps(-14)).load(node, "3", IMPEDANCE, amps(2, 0.9))

    tiny = case("short-and-long", "A busbar section of 50 micro-ohm ahead of cables of up to an ohm")
    tiny.section("source", "n1", 0.00005 + 0.00003j)
    tiny.section("n1", "n2", 0.8 + 0.05j).section("n1", "n3", 0.002 + 0.001j)
    tiny.load("n1", "123", POWER, amps(200, 0.95)).load("n2", "2", CURRENT, amps(12)).load("n3", "1", POWER, amps(63))
    return cases


def random_load(dice: random.Random, network: Feeder, node: str, lines: str, models: tuple) -> None:
    """A load of 2 to 40 A on one or all lines; one in six generates, one in four leads."""
    sign = -1 if dice.random() < 1 / 6 else 1
    power = amps(sign * dice.uniform(2, 40), dice.choice((1.0, dice.uniform(0.8, 1.0))), dice.random() < 0.25)
    on = lines if dice.random() < 0.3 else dice.choice(lines)
    network.load(node, on, dice.choice(models), power)


def random_network(dice: random.Random, number: int, size: int) -> Feeder:
    """A random tree of size nodes, source included; a child never has a line that its parent lacks."""
    models = (MODELS, MODELS, (POWER,), (CURRENT,), (IMPEDANCE,), (CURRENT, POWER))[number % 6]
    network = Feeder(f"random-{number + 1}", f"Random tree of {size} nodes with {' and '.join(models)} loads")
    lines_at = {"source": "123"}
    for k in range(1, size):
        parent = dice.choice(list(lines_at)[-6:]) if k > 1 else "source"
        lines = lines_at[parent] if dice.random() < 0.7 else dice.choice(lines_at[parent])
        line_ohm = cable(dice.choice((2.5, 6, 10, 16, 35, 70, 150)), dice.uniform(3, 80))
        node = f"n{k}"
        network.section(parent, node, line_ohm, line_ohm * dice.choice((1, 1, 1.6, 2.5)), lines)
        lines_at[node] = lines
        if dice.random() < 0.75 or k == size - 1:
            random_load(dice, network, node, lines, models)
    return scaled(network, dice.uniform(0.03, 0.16))


def scaled(network: Feeder, target_pu: float) -> Feeder:
    """Scale all loads so that a first linear estimate of the worst drop meets target_pu."""
    paths = fd.paths(network.data)
    flows = {section["id"]: {line: 0j for line in fd.LINES} for section in network.data["sections"]}
    for load in network.data["loads"]:
        power = complex(load["activePowerW"], load["reactivePowerVar"])
        turn = complex(math.cos(fd.LINE_ANGLE_RAD[load["line"]]), math.sin(fd.LINE_ANGLE_RAD[load["line"]]))
        for section in paths[load["node"]]:
            flows[section["id"]][load["line"]] += power.conjugate() / NOMINAL_VOLTAGE_V * turn

    def drop(path: list[dict], line: str) -> float:
        return abs(sum(flows[s["id"]][line] * complex(s["lineResistanceOhm"], s["lineReactanceOhm"])
                       + sum(flows[s["id"]].values()) * complex(s["neutralResistanceOhm"], s["neutralReactanceOhm"])
                       for s in path)) / NOMINAL_VOLTAGE_V

    worst = max(drop(path, line) for path in paths.values() if path for line in path[-1]["lines"])
    for load in network.data["loads"]:
        for key in ("activePowerW", "reactivePowerVar"):
            load[key] = fd.tidy(load[key] * target_pu / worst)
    return network


def random_networks() -> list[Feeder]:
    """Eighteen random trees of 2 to 60 nodes."""
    dice = random.Random(SEED)
    sizes = (2, 3, 4, 5, 6, 8, 9, 10, 12, 14, 16, 18, 20, 24, 30, 36, 45, 60)
    return [random_network(dice, number, size) for number, size in enumerate(sizes)]


def tool() -> dict:
    """What solved a file."""
    return {"name": "OpenDSS", "version": dss.Basic.Version().split("; License")[0],
            "binding": f"OpenDSSDirect.py {version('opendssdirect.py')} on DSS-Python {version('dss-python')}",
            "convergenceTolerancePerUnit": TOLERANCE}


def main() -> None:
    """Solve everything and write four_wire.json."""
    networks = [case.data for case in single_sections() + shaped_networks() + random_networks()]
    fd.write_json("four_wire.json", {
        "tool": tool(), "generatedBy": "four_wire.py", "seed": SEED, "conventions": fd.CONVENTIONS,
        "networks": [solve(network) for network in networks]})


if __name__ == "__main__":
    main()
