"""iec60909.json: short-circuit currents of radial MV/LV networks to IEC 60909-0:2016, by pandapower.

Every network is calculated as max and min, for low-voltage tolerances of 6 % and 10 %, at every low-voltage bus, for
three-phase, two-phase and line-to-earth faults.
"""

import math
import random
import warnings
from importlib.metadata import version

import pandapower as pp
from pandapower.shortcircuit import calc_sc
from pandapower.pypower.idx_brch_sc import K_T
from pandapower.pypower.idx_bus_sc import C_MAX, C_MIN

import feeder as fd

SEED = 60909
NOMINAL_LV_KV = 0.4
NOMINAL_MV_KV = {20.8: 20}  # where the rated voltage of the transformer is another
DURATIONS_S = (0.1, 1.0)
RUNS = [(case, tolerance) for case in ("max", "min") for tolerance in (6, 10)]
FAULTS = {"threePhase": "3ph", "twoPhase": "2ph", "lineToEarth": "1ph"}

CONVENTIONS = (
    "IEC 60909-0:2016, far from generators, 50 Hz, equivalent voltage source c Un at the fault, no motors, no shunt "
    "capacitance, no loads. All inputs of a network are under grid, transformer and sections; the rest follows: "
    "grid Z_Q = voltageFactorMv nominalVoltageKV^2 / shortCircuitPower in ohm on its own side, split by R/X, brought "
    "to the low-voltage side with the square of the transformer's RATED ratio. shortCircuitPowerMaxMVA and rOverXMax "
    "serve case max, the other two case min. Transformer Dyn, tap at its neutral position: Z_T = "
    "shortCircuitVoltagePercent/100 ratedLowVoltageKV^2 / ratedPowerMVA with resistance from resistiveVoltagePercent = "
    "100 loadLossesKW / (1000 ratedPowerMVA); case max multiplies R, X and the zero-sequence R0, X0 by "
    "transformerCorrectionFactor K_T = 0.95 c_max / (1 + 0.6 x_T), c_max that of the low-voltage side; case min does "
    "not (K_T = 1). The transformer's zero-sequence impedance follows likewise from "
    "zeroSequenceShortCircuitVoltagePercent and zeroSequenceResistiveVoltagePercent; its star point is solidly earthed "
    "and its delta keeps the grid out of the zero-sequence system. Section resistances, also the zero-sequence ones, "
    "are at 20 degrees C; case min multiplies them by 1 + 0.004 (endTemperatureC - 20). The zero-sequence values of a "
    "section already contain its return path. voltageFactorLv multiplies nominalLowVoltageKV. kappa = 1.02 + 0.98 "
    "exp(-3 R/X) with R and X at the fault (series circuit; no 1.8 ceiling), ip = kappa sqrt(2) ikss, ith = ikss "
    "sqrt(m + n) with n = 1 and m of IEC 60909-0 at 50 Hz; in case min R is the hot resistance here too. The two-phase "
    "fault has ikss = c Un / (2 |Z1|) and the kappa and m of the three-phase fault; the line-to-earth fault gives "
    "ikss = sqrt(3) c Un / |2 Z1 + Z0| alone. Results per low-voltage bus: ikss_ka, ip_ka (peak), ith_ka keyed by the "
    "duration in seconds, all in kA; r1_ohm, x1_ohm, r0_ohm, x0_ohm, the impedances at the fault on the low-voltage "
    "side; kappa, which is ip_ka / (sqrt(2) ikss_ka) of the three-phase fault."
)

# name: rated power MVA, vk %, load losses kW
TRANSFORMERS = {"100": (0.1, 4, 1.75), "160": (0.16, 4, 2.35), "250": (0.25, 4, 3.25), "400": (0.4, 4, 4.6),
                "500": (0.5, 4, 5.5), "630": (0.63, 4, 6.5), "630-6": (0.63, 6, 6.75), "800": (0.8, 6, 8.4),
                "1000": (1.0, 6, 10.5), "1250": (1.25, 6, 11.0), "1600": (1.6, 6, 14.0), "2500": (2.5, 6, 22.0)}
# name: ohm/km at 20 degrees C and reactance; the return conductor is taken as equal to the line conductor
CABLES = {"al240": (0.125, 0.080), "al150": (0.206, 0.080), "al95": (0.320, 0.082), "cu120": (0.153, 0.080),
          "cu50": (0.387, 0.083), "cu35": (0.524, 0.083), "cu16": (1.15, 0.090), "cu10": (1.83, 0.094),
          "cu6": (3.08, 0.100)}
HAND_MADE = [  # transformer, grid MVA max, R/X, MV kV, rated LV kV, [(cable, metres), ...]
    ("630", 500, 0.10, 20, 0.40, [("al150", 180), ("cu50", 60)]),
    ("400", 250, 0.10, 20, 0.40, [("al150", 250)]),
    ("250", 150, 0.20, 20, 0.40, [("al95", 300), ("cu16", 35)]),
    ("100", 80, 0.30, 20, 0.40, [("al95", 400), ("cu16", 40), ("cu10", 25)]),
    ("160", 100, 0.25, 10, 0.40, [("al95", 220)]),
    ("1000", 500, 0.10, 10, 0.40, [("cu120", 20), ("cu50", 45), ("cu10", 30)]),
    ("1600", 750, 0.05, 20, 0.40, [("al240", 12), ("cu120", 50)]),
    ("2500", 1000, 0.05, 20, 0.40, [("al240", 5), ("al240", 40), ("cu35", 30)]),
    ("800", 350, 0.10, 30, 0.40, [("al240", 120)]),
    ("1250", 5000, 0.10, 20, 0.40, [("al240", 8), ("cu16", 20)]),
    ("630-6", 40, 0.50, 10, 0.40, [("al150", 30), ("cu6", 15)]),
    ("500", 150, 0.15, 11, 0.40, [("al240", 90), ("cu35", 25)]),
    ("500", 250, 0.15, 11, 0.433, [("al240", 150), ("cu35", 12)]),
    ("1000", 300, 0.10, 20, 0.42, [("cu120", 60), ("cu16", 22)]),
    ("250", 120, 0.20, 20.8, 0.40, [("al150", 75)]),
]


def hand_made_networks() -> list[dict]:
    """The listed networks; the minimum grid has 60 % of the maximum power and a higher R/X."""
    return [network(f"hand-{k + 1}", name, (power, ratio, 0.6 * power, 1.2 * ratio), kv, lv, cables,
                    end_c=(160, 90, 70)[k % 3], forked=k % 4 == 3)
            for k, (name, power, ratio, kv, lv, cables) in enumerate(HAND_MADE)]


def random_networks() -> list[dict]:
    """Nine random networks of one to three sections."""
    dice = random.Random(SEED)
    found = []
    for k in range(9):
        power, ratio = dice.uniform(60, 900), dice.uniform(0.05, 0.5)
        cables = [(dice.choice(list(CABLES)), dice.uniform(5, 150)) for _ in range(k % 3 + 1)]
        grid = (power, ratio, power * dice.uniform(0.3, 0.95), ratio * dice.uniform(0.8, 1.5))
        found.append(network(f"random-{k + 1}", dice.choice(list(TRANSFORMERS)), grid, dice.choice((10, 11, 20)), 0.4,
                             cables, dice.choice((70, 90, 160, 250)), bool(k % 2)))
    return found


def network(identifier: str, name: str, grid: tuple, kv: float, lv: float, cables: list, end_c: float,
            forked: bool) -> dict:
    """One network's inputs; forked hangs the last section on the busbar instead of on the one before."""
    power, vk, losses = TRANSFORMERS[name]
    sections = [section(k, cable, metres, "busbar" if k == 0 or forked and k == len(cables) - 1 else f"n{k}", end_c)
                for k, (cable, metres) in enumerate(cables)]
    keys = ("shortCircuitPowerMaxMVA", "rOverXMax", "shortCircuitPowerMinMVA", "rOverXMin")
    resistive = losses / power / 10
    return {
        "id": identifier, "nominalLowVoltageKV": NOMINAL_LV_KV,
        "what": f"{power * 1000:g} kVA, {kv:g}/{lv:g} kV, {len(cables)} low-voltage section(s)"
                + (", the last from the busbar" if forked and len(cables) > 1 else ""),
        "grid": {"bus": "grid", "nominalVoltageKV": NOMINAL_MV_KV.get(kv, kv)}
                | {key: fd.tidy(value) for key, value in zip(keys, grid)},
        "transformer": {
            "highVoltageBus": "grid", "lowVoltageBus": "busbar", "ratedPowerMVA": power, "ratedHighVoltageKV": kv,
            "ratedLowVoltageKV": lv, "shortCircuitVoltagePercent": vk, "loadLossesKW": losses,
            "resistiveVoltagePercent": resistive, "vectorGroup": "Dyn", "tapPosition": 0, "tapNeutralPosition": 0,
            "zeroSequenceShortCircuitVoltagePercent": fd.tidy(0.95 * vk),
            "zeroSequenceResistiveVoltagePercent": resistive},
        "sections": sections}


def section(k: int, cable: str, metres: float, start: str, end_c: float) -> dict:
    """One cable section; zero sequence = line conductor + 3 times an equal return conductor."""
    resistance, reactance = CABLES[cable]
    return {"id": f"s{k + 1}", "from": start, "to": f"n{k + 1}", "lengthKm": fd.tidy(metres / 1000),
            "resistanceOhmPerKm": resistance, "reactanceOhmPerKm": reactance,
            "zeroSequenceResistanceOhmPerKm": fd.tidy(4 * resistance),
            "zeroSequenceReactanceOhmPerKm": fd.tidy(4 * reactance), "endTemperatureC": end_c}


# ------------------------------------------------------------- pandapower

def build(inputs: dict):
    """The pandapower network of one set of inputs; returns it with the bus numbers."""
    net = pp.create_empty_network(f_hz=50.0)
    grid, unit = inputs["grid"], inputs["transformer"]
    buses = {"grid": pp.create_bus(net, grid["nominalVoltageKV"]),
             "busbar": pp.create_bus(net, inputs["nominalLowVoltageKV"])}
    pp.create_ext_grid(net, buses["grid"], s_sc_max_mva=grid["shortCircuitPowerMaxMVA"], rx_max=grid["rOverXMax"],
                       s_sc_min_mva=grid["shortCircuitPowerMinMVA"], rx_min=grid["rOverXMin"],
                       x0x_max=1.0, r0x0_max=0.1, x0x_min=1.0, r0x0_min=0.1)
    pp.create_transformer_from_parameters(
        net, buses["grid"], buses["busbar"], sn_mva=unit["ratedPowerMVA"], vn_hv_kv=unit["ratedHighVoltageKV"],
        vn_lv_kv=unit["ratedLowVoltageKV"], vk_percent=unit["shortCircuitVoltagePercent"],
        vkr_percent=unit["resistiveVoltagePercent"], pfe_kw=0, i0_percent=0, vector_group=unit["vectorGroup"],
        shift_degree=150, vk0_percent=unit["zeroSequenceShortCircuitVoltagePercent"],
        vkr0_percent=unit["zeroSequenceResistiveVoltagePercent"], mag0_percent=100, mag0_rx=0, si0_hv_partial=0.9,
        tap_side="hv", tap_pos=unit["tapPosition"], tap_neutral=unit["tapNeutralPosition"], tap_step_percent=2.5,
        tap_min=-2, tap_max=2)
    for part in inputs["sections"]:
        buses[part["to"]] = pp.create_bus(net, inputs["nominalLowVoltageKV"])
        pp.create_line_from_parameters(
            net, buses[part["from"]], buses[part["to"]], length_km=part["lengthKm"], max_i_ka=1,
            r_ohm_per_km=part["resistanceOhmPerKm"], x_ohm_per_km=part["reactanceOhmPerKm"], c_nf_per_km=0,
            r0_ohm_per_km=part["zeroSequenceResistanceOhmPerKm"], x0_ohm_per_km=part["zeroSequenceReactanceOhmPerKm"],
            c0_nf_per_km=0, endtemp_degree=part["endTemperatureC"])
    return net, buses


def short_circuit(net, fault: str, case: str, tolerance: int, duration_s: float = 1.0):
    """pandapower's result table of one fault at every bus."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        calc_sc(net, fault=fault, case=case, lv_tol_percent=tolerance, topology="radial", ip=fault != "1ph",
                ith=fault != "1ph", tk_s=duration_s)
    return net.res_bus_sc.copy()


def phase_fault(tables: dict, bus: int) -> dict:
    """ikss, ip and ith (kA) of a three- or two-phase fault at one bus."""
    first = next(iter(tables.values())).loc[bus]
    return {"ikss_ka": float(first.ikss_ka), "ip_ka": float(first.ip_ka),
            "ith_ka": {f"{tk:g}": float(table.loc[bus].ith_ka) for tk, table in tables.items()}}


def calculate(inputs: dict, case: str, tolerance: int) -> dict:
    """All faults at all low-voltage buses for one case and tolerance."""
    net, buses = build(inputs)
    phase = {name: {tk: short_circuit(net, FAULTS[name], case, tolerance, tk) for tk in DURATIONS_S}
             for name in ("threePhase", "twoPhase")}
    factor = net._ppc["bus"][:, C_MAX if case == "max" else C_MIN]
    k_t = float(net._ppc["branch"][len(inputs["sections"]), K_T].real)
    earth = short_circuit(net, "1ph", case, tolerance)
    results = {}
    for name, bus in buses.items():
        if name == "grid":
            continue
        three, row = phase_fault(phase["threePhase"], bus), earth.loc[bus]
        results[name] = {
            "threePhase": three, "twoPhase": phase_fault(phase["twoPhase"], bus),
            "lineToEarth": {"ikss_ka": float(row.ikss_ka)}, "kappa": three["ip_ka"] / (math.sqrt(2) * three["ikss_ka"]),
            "r1_ohm": float(row.rk_ohm), "x1_ohm": float(row.xk_ohm),
            "r0_ohm": float(row.rk0_ohm), "x0_ohm": float(row.xk0_ohm)}
    return {"case": case, "lvTolerancePercent": tolerance, "voltageFactorLv": float(factor[buses["busbar"]]),
            "voltageFactorMv": float(factor[buses["grid"]]), "transformerCorrectionFactor": k_t, "buses": results}


def main() -> None:
    """Calculate everything and write iec60909.json."""
    networks = hand_made_networks() + random_networks()
    fd.write_json("iec60909.json", {
        "tool": {"name": "pandapower", "function": "shortcircuit.calc_sc, topology radial",
                 "version": version("pandapower")},
        "generatedBy": "iec60909.py", "seed": SEED, "conventions": CONVENTIONS,
        "networks": [inputs | {"calculations": [calculate(inputs, *run) for run in RUNS]} for inputs in networks]})


if __name__ == "__main__":
    main()
