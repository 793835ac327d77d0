"""Independent check of every oracle file with numpy alone: no solver, and no code of the generators, is used.

Feeders: Ohm's law, KCL and the load laws on the stored results, then a Newton solution of the full complex nodal
system from a flat start. Broken neutral: Millman's theorem. Short circuits: the IEC 60909 formulae by hand.
Exits with status 1 when anything misses LIMIT (relative).
"""

import json
import math
import sys
from pathlib import Path

import numpy as np

HERE = Path(__file__).parent
LIMIT = 1e-9
NOMINAL_V = 230.0
STEP_V = 1e-12            # a smaller Newton step ends the iteration
UNIT = {"L1": 1 + 0j, "L2": np.exp(-2j * np.pi / 3), "L3": np.exp(2j * np.pi / 3)}


def load_file(name: str) -> dict:
    """One oracle file."""
    return json.loads((HERE / name).read_text(encoding="utf-8"))


def number(value: dict) -> complex:
    """{re, im} -> complex."""
    return complex(value["re"], value["im"])


def impedance(section: dict, conductor: str) -> complex:
    """Series impedance (ohm) of one conductor of a section."""
    kind = "neutral" if conductor == "N" else "line"
    return complex(section[f"{kind}ResistanceOhm"], section[f"{kind}ReactanceOhm"])


def load_law(load: dict, voltage: complex) -> tuple[complex, complex, complex]:
    """Current (A) at a line to local neutral voltage (V), with its derivatives by the voltage and its conjugate (S)."""
    power = complex(load["activePowerW"], -load["reactivePowerVar"])
    size = abs(voltage)
    if load["model"] == "constant-power":
        back = 1 / voltage.conjugate()
        return power * back, 0j, -power * back * back
    if load["model"] == "constant-impedance":
        return power * voltage / NOMINAL_V**2, power / NOMINAL_V**2, 0j
    held = power / NOMINAL_V
    return held * voltage / size, held / (2 * size), -held * voltage**2 / (2 * size**3)


# ------------------------------------------------------------------ feeders

def newton(network: dict) -> dict[tuple[str, str], complex]:
    """Voltages to Earth (V) of every node and conductor, from the dense nodal equations Y V + I(V) = 0."""
    known = {("source", line): NOMINAL_V * unit for line, unit in UNIT.items()} | {("source", "N"): 0j}
    keys = [(s["to"], c) for s in network["sections"] for c in [*s["lines"], "N"]]
    index = {key: k for k, key in enumerate(keys)}
    admittance, injected = np.zeros((len(keys), len(keys)), complex), np.zeros(len(keys), complex)
    for section in network["sections"]:
        for conductor in [*section["lines"], "N"]:
            y = 1 / impedance(section, conductor)
            start, end = (section["from"], conductor), index[section["to"], conductor]
            admittance[end, end] += y
            if start in known:
                injected[end] += y * known[start]
            else:
                admittance[index[start], index[start]] += y
                admittance[index[start], end] -= y
                admittance[end, index[start]] -= y
    voltage = np.array([known["source", conductor] for _, conductor in keys])
    for _ in range(50):
        step = newton_step(network["loads"], index, admittance, injected, voltage)
        voltage = voltage + step
        if np.abs(step).max() < STEP_V * NOMINAL_V:
            break
    return known | dict(zip(keys, voltage))


def newton_step(loads, index, admittance, injected, voltage) -> np.ndarray:
    """One Newton step (V) on real and imaginary parts, since load currents are not analytic in the voltage."""
    residual = admittance @ voltage - injected
    direct, conjugate = admittance.copy(), np.zeros_like(admittance)
    for load in loads:
        pair = index[load["node"], load["line"]], index[load["node"], "N"]
        current, by_voltage, by_conjugate = load_law(load, voltage[pair[0]] - voltage[pair[1]])
        for row, sign in zip(pair, (1, -1)):
            residual[row] += sign * current
            for column, other in zip(pair, (1, -1)):
                direct[row, column] += sign * other * by_voltage
                conjugate[row, column] += sign * other * by_conjugate
    plus, minus = direct + conjugate, direct - conjugate
    jacobian = np.block([[plus.real, -minus.imag], [plus.imag, minus.real]])
    step = np.linalg.solve(jacobian, -np.concatenate([residual.real, residual.imag]))
    return step[:len(voltage)] + 1j * step[len(voltage):]


def stored_voltages(network: dict) -> dict[tuple[str, str], complex]:
    """The file's voltages, turned from line to local neutral into volts to Earth."""
    found = {("source", line): NOMINAL_V * unit for line, unit in UNIT.items()} | {("source", "N"): 0j}
    for node, values in network["results"]["nodes"].items():
        neutral = found[node, "N"] = number(values["neutralToSourceNeutral"])
        found |= {(node, line): number(values[line]) + neutral for line in UNIT if line in values}
    return found


def check_feeder(network: dict) -> dict[str, float]:
    """Worst relative misses of one feeder: voltages to 230 V, currents to the feeder's largest current."""
    voltages = stored_voltages(network)
    currents = {key: {conductor: number(i) for conductor, i in values.items()}
                for key, values in network["results"]["sections"].items()}
    scale = max(abs(i) for values in currents.values() for i in values.values())
    drawn = {key: 0j for key in voltages}
    for load in network["loads"]:
        line, neutral = (load["node"], load["line"]), (load["node"], "N")
        current = load_law(load, voltages[line] - voltages[neutral])[0]
        drawn[line] += current
        drawn[neutral] += current
    left = {key: -value for key, value in drawn.items()}
    ohm, neutral_sum = [], []
    for section in network["sections"]:
        flows = currents[section["id"]]
        neutral_sum.append(flows["N"] - sum(flows[line] for line in section["lines"]))
        for conductor, flow in flows.items():
            way = -1 if conductor == "N" else 1
            ohm.append(voltages[section["from"], conductor] - voltages[section["to"], conductor]
                       - way * impedance(section, conductor) * flow)
            left[section["to"], conductor] += flow
            left[section["from"], conductor] -= flow
    kcl = [value for (node, _), value in left.items() if node != "source"]
    solution = newton(network)
    newton_currents = [(solution[s["from"], c] - solution[s["to"], c]) / impedance(s, c) * (-1 if c == "N" else 1)
                       - currents[s["id"]][c] for s in network["sections"] for c in currents[s["id"]]]
    return {"Ohm": worst(ohm) / NOMINAL_V, "KCL": worst(kcl + neutral_sum) / scale,
            "Newton V": worst(solution[key] - voltages[key] for key in voltages) / NOMINAL_V,
            "Newton I": worst(newton_currents) / scale}


def worst(values) -> float:
    """Largest magnitude."""
    return max(abs(value) for value in values)


# ----------------------------------------------------------- broken neutral

def check_broken_neutral(case: dict) -> dict[str, float]:
    """Millman: U = sum(E Y) / (sum(Y) + 1/R_E), every branch ending on the metalwork."""
    source = {line: NOMINAL_V * unit for line, unit in UNIT.items()}
    admittance = {load["line"]: load["currentA"] / NOMINAL_V * complex(
        load["powerFactor"], -math.sqrt(1 - load["powerFactor"]**2)) for load in case["loads"]}
    earth = 0 if case["electrodeResistanceOhm"] is None else 1 / case["electrodeResistanceOhm"]
    touch = sum(source[line] * y for line, y in admittance.items()) / (sum(admittance.values()) + earth)
    results, scale = case["results"], max(load["currentA"] for load in case["loads"])
    lines = {line: (source[line] - touch) * y for line, y in admittance.items()}
    return {"touch": max(abs(number(results["touchVoltageV"]) - touch),
                         abs(results["touchVoltageMagnitudeV"] - abs(touch))) / NOMINAL_V,
            "electrode": max(abs(number(results["electrodeCurrentA"]) - touch * earth),
                             abs(results["electrodeCurrentMagnitudeA"] - abs(touch * earth))) / scale,
            "load V": worst(number(results["loadVoltagesV"][line]) - source[line] + touch for line in lines) / NOMINAL_V,
            "load I": worst(number(results["loadCurrentsA"][line]) - lines[line] for line in lines) / scale}


# ----------------------------------------------------------- short circuits

def correction_factor(unit: dict, run: dict) -> float:
    """K_T of IEC 60909-0 for a network transformer; applied in case max only."""
    reactive = math.sqrt(unit["shortCircuitVoltagePercent"]**2 - unit["resistiveVoltagePercent"]**2) / 100
    c_max = 1.05 if run["lvTolerancePercent"] == 6 else 1.1
    return 0.95 * c_max / (1 + 0.6 * reactive) if run["case"] == "max" else 1.0


def short_circuit_impedances(network: dict, run: dict) -> dict[str, tuple[complex, complex]]:
    """Positive- and zero-sequence impedance (ohm, low-voltage side) at every low-voltage bus, IEC 60909 style."""
    grid, unit, largest = network["grid"], network["transformer"], run["case"] == "max"
    ratio = unit["ratedLowVoltageKV"] / unit["ratedHighVoltageKV"]
    power, r_over_x = (grid["shortCircuitPowerMaxMVA"], grid["rOverXMax"]) if largest else (
        grid["shortCircuitPowerMinMVA"], grid["rOverXMin"])
    size = run["voltageFactorMv"] * grid["nominalVoltageKV"]**2 / power * ratio**2
    z1 = complex(r_over_x, 1) / math.hypot(r_over_x, 1) * size
    base = unit["ratedLowVoltageKV"]**2 / unit["ratedPowerMVA"]
    resistive, total = unit["resistiveVoltagePercent"] / 100, unit["shortCircuitVoltagePercent"] / 100
    k_t = correction_factor(unit, run)
    z1 += k_t * base * complex(resistive, math.sqrt(total**2 - resistive**2))
    resistive = unit["zeroSequenceResistiveVoltagePercent"] / 100
    total = unit["zeroSequenceShortCircuitVoltagePercent"] / 100
    z0 = k_t * base * complex(resistive, math.sqrt(total**2 - resistive**2))
    found = {network["transformer"]["lowVoltageBus"]: (z1, z0)}
    for section in network["sections"]:
        heat = 1.0 if largest else 1 + 0.004 * (section["endTemperatureC"] - 20)
        length, (z1, z0) = section["lengthKm"], found[section["from"]]
        found[section["to"]] = (
            z1 + length * complex(section["resistanceOhmPerKm"] * heat, section["reactanceOhmPerKm"]),
            z0 + length * complex(section["zeroSequenceResistanceOhmPerKm"] * heat,
                                  section["zeroSequenceReactanceOhmPerKm"]))
    return found


def heat_factor(kappa: float, duration_s: float) -> float:
    """m of IEC 60909-0 at 50 Hz; n is 1, far from generators."""
    decay = 4 * 50 * duration_s * math.log(kappa - 1)
    return 2 * math.expm1(decay) / decay


def check_short_circuit(network: dict, run: dict) -> dict[str, float]:
    """Worst relative misses of one calculation over its buses and faults."""
    c = {("max", 6): 1.05, ("max", 10): 1.1, ("min", 6): 0.95, ("min", 10): 0.9}[run["case"], run["lvTolerancePercent"]]
    k_t = correction_factor(network["transformer"], run)
    misses = {"factors": [run["voltageFactorLv"] / c - 1, run["transformerCorrectionFactor"] / k_t - 1,
                          run["voltageFactorMv"] / (1.1 if run["case"] == "max" else 1.0) - 1],
              "ikss": [], "ip": [], "ith": [], "impedance": []}
    for bus, (z1, z0) in short_circuit_impedances(network, run).items():
        stored, volt = run["buses"][bus], c * network["nominalLowVoltageKV"]
        kappa = 1.02 + 0.98 * math.exp(-3 * z1.real / z1.imag)
        currents = {"threePhase": volt / math.sqrt(3) / abs(z1), "twoPhase": volt / 2 / abs(z1),
                    "lineToEarth": math.sqrt(3) * volt / abs(2 * z1 + z0)}
        for fault, ikss in currents.items():
            misses["ikss"].append(stored[fault]["ikss_ka"] / ikss - 1)
            if fault == "lineToEarth":
                continue
            misses["ip"].append(stored[fault]["ip_ka"] / (math.sqrt(2) * kappa * ikss) - 1)
            misses["ith"] += [stored[fault]["ith_ka"][tk] / (ikss * math.sqrt(heat_factor(kappa, float(tk)) + 1)) - 1
                              for tk in stored[fault]["ith_ka"]]
        misses["impedance"] += [abs(complex(stored[f"r{k}_ohm"], stored[f"x{k}_ohm"]) - z) / abs(z)
                                for k, z in ((1, z1), (0, z0))]
        misses["impedance"].append(stored["kappa"] / kappa - 1)
    return {key: worst(values) for key, values in misses.items()}


# ------------------------------------------------------------------ summary

def gather(checks: list[dict[str, float]]) -> dict[str, float]:
    """Worst value of every kind of check."""
    return {key: max(check[key] for check in checks) for key in checks[0]}


def main() -> int:
    """Check all files, print one line, tell whether everything holds."""
    short_circuits = [(network, run) for network in load_file("iec60909.json")["networks"]
                      for run in network["calculations"]]
    found = {
        "four_wire": [check_feeder(network) for network in load_file("four_wire.json")["networks"]],
        "unbalanced_feeder": [check_feeder(network) for network in load_file("unbalanced_feeder.json")["networks"]],
        "broken_neutral": [check_broken_neutral(case) for case in load_file("broken_neutral.json")["cases"]],
        "iec60909": [check_short_circuit(network, run) for network, run in short_circuits]}
    good = all(miss < LIMIT for checks in found.values() for check in checks for miss in check.values())
    parts = [f"{name} {len(checks)} ({', '.join(f'{key} {miss:.0e}' for key, miss in gather(checks).items())})"
             for name, checks in found.items()]
    print(f"verify: {'ok' if good else 'FAILED'} within {LIMIT:g} relative; " + "; ".join(parts))
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main())
