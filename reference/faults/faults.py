"""Predict what a meter reads when faults sit in its metering chain.

Written from docs/fault-model.md alone. A site is worked through six stages:
site, window, secondary, taps, meter, decoding. In each stage the faults act in
the order of the stage's table, whatever order the caller lists them in.

Every function returns new values and leaves its arguments as they were.
Channel and line numbers in fault parameters run from 1, array indices from 0.
"""

from dataclasses import dataclass, replace

import numpy as np

NO_POWER_FACTOR_BELOW_VA = 1e-9
SETTING_FAULTS = frozenset({"F26", "F27", "F28", "F29", "F30", "F33"})
MODE_FAULTS = frozenset({"F41", "F42"})


@dataclass(frozen=True)
class Site:
    """Phasors of each line, all against one reference."""

    V: np.ndarray
    B: np.ndarray
    E: np.ndarray
    G: np.ndarray


@dataclass(frozen=True)
class Window:
    """Which conductors each current transformer holds, and in which sense."""

    W: np.ndarray
    A: np.ndarray
    b: np.ndarray
    e: np.ndarray
    g: np.ndarray
    h: float


@dataclass(frozen=True)
class Channels:
    """Channel values as numbers."""

    V: list
    I: list
    P: list
    Q: list
    totalP: float
    totalQ: float


def indices(numbers):
    return [number - 1 for number in numbers]


def unit_phasors(V):
    return V / np.abs(V)


def with_row(matrix, row, values):
    changed = matrix.copy()
    changed[row] = values
    return changed


def with_rows_scaled(matrix, rows, factor):
    changed = matrix.copy()
    changed[rows] = changed[rows] * factor
    return changed


def with_rows_exchanged(matrix, first, second):
    changed = matrix.copy()
    changed[[first, second]] = matrix[[second, first]]
    return changed


def unit_row(lines, line):
    return np.eye(lines, dtype=complex)[line]


# Site


def generation_runs(site, fault):
    amps = np.array(fault["amps"], dtype=float)
    return replace(site, G=site.G + amps * unit_phasors(site.V))


def vehicle_draws_less(site, fault):
    return replace(site, E=site.E * np.array(fault["shares"], dtype=float))


def charge_point_lines_permuted(site, fault):
    supply_line = indices(fault["order"])
    u = unit_phasors(site.V)
    E = np.zeros_like(site.E)
    E[supply_line] = site.E * u[supply_line] / u
    return replace(site, E=E)


def neutral_broken(site, fault):
    Y = (site.B + site.E - site.G) / site.V
    VN = np.sum(Y * site.V) / np.sum(Y)
    share = (site.V - VN) / site.V
    return Site(V=site.V - VN, B=site.B * share, E=site.E * share, G=site.G * share)


SITE_FAULTS = {
    "F44": generation_runs,
    "F65": vehicle_draws_less,
    "F46": charge_point_lines_permuted,
    "F17": neutral_broken,
}


# Window


def second_feed(window, fault):
    return replace(window, h=window.h * (1 - fault["share"]))


def downstream_on_building_side(window, fault):
    return replace(window, e=with_row(window.e, indices(fault["channels"]), 0))


def downstream_on_charge_point_side(window, fault):
    rows = indices(fault["channels"])
    return replace(window, b=with_row(window.b, rows, 0), g=with_row(window.g, rows, 0))


def clamped_on_another_line(window, fault):
    row = fault["channels"][0] - 1
    values = unit_row(len(window.W), fault["line"] - 1)
    return replace(window, W=with_row(window.W, row, values))


def transformers_exchanged(window, fault):
    first, second = indices(fault["channels"])
    return replace(window, W=with_rows_exchanged(window.W, first, second))


def transformers_rotated(window, fault):
    return replace(window, W=np.roll(window.W, -1, axis=0))


def transformers_rotated_back(window, fault):
    return replace(window, W=np.roll(window.W, 1, axis=0))


def exchanged_and_one_reversed(window, fault):
    first, second = indices(fault["channels"])
    exchanged = with_rows_exchanged(window.W, first, second)
    return replace(window, W=with_rows_scaled(exchanged, first, -1))


def currents_and_voltages_permuted(window, fault):
    order = indices(fault["order"])
    return replace(window, W=window.W[order], A=window.A[order])


def closed_round_line_and_neutral(window, fault):
    return replace(window, W=with_row(window.W, indices(fault["channels"]), 0))


def closed_round_two_lines(window, fault):
    row = fault["channels"][0] - 1
    values = window.W[row] + unit_row(len(window.W), fault["line"] - 1)
    return replace(window, W=with_row(window.W, row, values))


def on_neutral(window, fault):
    return replace(window, W=with_row(window.W, indices(fault["channels"]), -1))


def transformers_reversed(window, fault):
    return replace(window, W=with_rows_scaled(window.W, indices(fault["channels"]), -1))


def all_transformers_reversed(window, fault):
    return replace(window, W=-window.W)


def one_of_parallel_conductors(window, fault):
    factor = complex(*fault["factor"])
    return replace(window, W=with_rows_scaled(window.W, indices(fault["channels"]), factor))


def primary_passed_several_times(window, fault):
    rows = indices(fault["channels"])
    return replace(window, W=with_rows_scaled(window.W, rows, fault["turns"]))


WINDOW_FAULTS = {
    "F45": second_feed,
    "F18": downstream_on_building_side,
    "F19": downstream_on_charge_point_side,
    "F04": clamped_on_another_line,
    "F05": transformers_exchanged,
    "F06": transformers_rotated,
    "F07": transformers_rotated_back,
    "F08": exchanged_and_one_reversed,
    "F12": currents_and_voltages_permuted,
    "F20": closed_round_line_and_neutral,
    "F21": closed_round_two_lines,
    "F22": on_neutral,
    "F23": on_neutral,
    "F01": transformers_reversed,
    "F02": transformers_reversed,
    "F03": all_transformers_reversed,
    "F24": one_of_parallel_conductors,
    "F25": primary_passed_several_times,
}


# Secondary


def burden_too_high(J, fault):
    x = fault["x"]
    factor = np.exp(1j * np.arctan(x)) / np.sqrt(1 + x * x)
    return with_rows_scaled(J, indices(fault["channels"]), factor)


def phase_displaced(J, fault):
    factor = np.exp(1j * fault["angleRad"])
    return with_rows_scaled(J, indices(fault["channels"]), factor)


def secondary_scaled(J, fault):
    return with_rows_scaled(J, indices(fault["channels"]), fault["factor"])


def common_open(J, fault):
    return J - np.mean(J)


SECONDARY_FAULTS = {
    "F34": burden_too_high,
    "F35": burden_too_high,
    "F36": phase_displaced,
    "F39": secondary_scaled,
    "F31": secondary_scaled,
    "F32": secondary_scaled,
    "F40": common_open,
}


# Voltage taps


def voltage_from_another_line(A, fault):
    return with_rows_scaled(A, 0, np.exp(1j * fault["angleRad"]))


def taps_exchanged(A, fault):
    first, second = indices(fault["channels"])
    return with_rows_exchanged(A, first, second)


def taps_rotated(A, fault):
    return np.roll(A, 1 if fault["back"] else -1, axis=0)


def line_and_neutral_exchanged(A, fault):
    return with_rows_scaled(A, indices(fault["channels"]), -1)


def fed_line_to_line(A, fault):
    row = fault["channels"][0] - 1
    return with_row(A, row, A[row] - A[(row + 1) % len(A)])


def tap_open(A, fault):
    return with_row(A, indices(fault["channels"]), 0)


def neutral_tap_missing(A, fault):
    return A - np.mean(A, axis=0)


TAP_FAULTS = {
    "F09": voltage_from_another_line,
    "F10": taps_exchanged,
    "F11": taps_rotated,
    "F13": line_and_neutral_exchanged,
    "F14": fed_line_to_line,
    "F15": tap_open,
    "F16": neutral_tap_missing,
}


# Meter: setting


def ratio_left_at_one(J, fault):
    return J / fault["ratio"]


def primary_typed_as_ratio(J, fault):
    return J * fault["secondary"]


def ratio_inverted(J, fault):
    return J / fault["ratio"] ** 2


def setting_off_by_factor(J, fault):
    return J * fault["factor"]


METER_SETTING_FAULTS = {
    "F26": ratio_left_at_one,
    "F27": primary_typed_as_ratio,
    "F28": ratio_inverted,
    "F29": setting_off_by_factor,
    "F30": setting_off_by_factor,
    "F33": setting_off_by_factor,
}


# Meter: range


def over_range(J, fault):
    limit = fault["limitA"]
    modulus = np.abs(J)
    over = modulus > limit
    scale = np.ones(len(J))
    scale[over] = limit / modulus[over]
    return J * scale


def below_starting_current(J, fault):
    return np.where(np.abs(J) < fault["floorA"], 0, J)


METER_RANGE_FAULTS = {
    "F37": over_range,
    "F38": below_starting_current,
}


# Meter: mode


def from_phasors(voltages, currents, S):
    return Channels(
        V=[float(value) for value in np.abs(voltages)],
        I=[float(value) for value in np.abs(currents)],
        P=[float(value) for value in S.real],
        Q=[float(value) for value in S.imag],
        totalP=float(np.sum(S.real)),
        totalQ=float(np.sum(S.imag)),
    )


def four_wire_mode(U, J):
    return from_phasors(U, J, U * np.conj(J))


def two_element_mode(U, J, fault):
    voltages = np.array([U[0] - U[1], U[2] - U[0], U[2] - U[1]])
    currents = np.array([J[0], J[0] + J[2], J[2]])
    S = voltages * np.conj(currents)
    S[1] = 0
    return from_phasors(voltages, currents, S)


def single_phase_mode(U, J, fault):
    first = four_wire_mode(U[:1], J[:1])
    others = 1 if fault["copies"] else 0

    def spread(values):
        return [values[0], others * values[0], others * values[0]]

    return Channels(
        V=spread(first.V),
        I=spread(first.I),
        P=spread(first.P),
        Q=spread(first.Q),
        totalP=first.P[0] * (1 + 2 * others),
        totalQ=first.Q[0] * (1 + 2 * others),
    )


METER_MODE_FAULTS = {
    "F41": two_element_mode,
    "F42": single_phase_mode,
}


def power_factors(channels, two_element):
    factors = [
        None if V * I < NO_POWER_FACTOR_BELOW_VA else P / (V * I)
        for V, I, P in zip(channels.V, channels.I, channels.P)
    ]
    if two_element:
        factors[1] = None
    return factors


# Decoding


def map_powers(channels, change):
    return replace(
        channels,
        P=[change(value) for value in channels.P],
        Q=[change(value) for value in channels.Q],
        totalP=change(channels.totalP),
        totalQ=change(channels.totalQ),
    )


def map_all(channels, change):
    changed = map_powers(channels, change)
    return replace(
        changed,
        V=[change(value) for value in channels.V],
        I=[change(value) for value in channels.I],
    )


def currents_read_as_sum(channels, fault):
    return replace(channels, I=[sum(channels.I)] * len(channels.I))


def decimal_point_moved(channels, fault):
    scale = 10.0 ** fault["exponent"]
    scaled = map_all(channels, lambda value: value * scale)
    taken = {
        "V": ("V",),
        "I": ("I",),
        "P": ("P", "totalP"),
        "Q": ("Q", "totalQ"),
        "all": ("V", "I", "P", "Q", "totalP", "totalQ"),
    }[fault["quantity"]]
    return replace(channels, **{name: getattr(scaled, name) for name in taken})


def signed_read_as_unsigned(channels, fault):
    span = 2.0 ** fault["bits"] * fault["unit"]
    return map_powers(channels, lambda value: value + span if value < 0 else value)


def swap_halves(word):
    return ((word & 0xFFFF) << 16) | (word >> 16)


def float32_halves_exchanged(value):
    with np.errstate(over="ignore"):
        word = int(np.array([value], dtype=np.float32).view(np.uint32)[0])
    swapped = float(np.array([swap_halves(word)], dtype=np.uint32).view(np.float32)[0])
    return swapped if np.isfinite(swapped) else None


def int32_halves_exchanged(value, unit):
    count = int(np.floor(value / unit + 0.5))
    if not -(2**31) <= count < 2**31:
        return None
    swapped = swap_halves(count & 0xFFFFFFFF)
    signed = swapped - 2**32 if swapped >= 2**31 else swapped
    return signed * unit


def halves_exchanged(channels, fault):
    if fault["kind"] == "float32":
        return map_all(channels, float32_halves_exchanged)
    return map_all(channels, lambda value: int32_halves_exchanged(value, fault["unit"]))


DECODING_FAULTS = {
    "F43": currents_read_as_sum,
    "F60": decimal_point_moved,
    "F59": signed_read_as_unsigned,
    "F58": halves_exchanged,
}

STAGE_TABLES = (
    SITE_FAULTS,
    WINDOW_FAULTS,
    SECONDARY_FAULTS,
    TAP_FAULTS,
    METER_SETTING_FAULTS,
    METER_RANGE_FAULTS,
    METER_MODE_FAULTS,
    DECODING_FAULTS,
)
FAULT_IDS = tuple(fault_id for table in STAGE_TABLES for fault_id in table)


# Stages


def apply_table(table, state, faults):
    for fault_id, act in table.items():
        for fault in faults:
            if fault["id"] == fault_id:
                state = act(state, fault)
    return state


def site_stage(site, faults):
    return apply_table(SITE_FAULTS, site, faults)


def window_stage(lines, faults):
    identity = np.eye(lines, dtype=complex)
    ones = np.ones(lines)
    healthy = Window(W=identity, A=identity, b=ones, e=ones, g=ones, h=1.0)
    return apply_table(WINDOW_FAULTS, healthy, faults)


def primary_currents(site, window):
    upstream = (
        np.outer(window.b, window.h * site.B)
        + np.outer(window.e, site.E)
        - np.outer(window.g, site.G)
    )
    return np.sum(window.W * upstream, axis=1)


def secondary_stage(J, faults):
    return apply_table(SECONDARY_FAULTS, J, faults)


def tap_stage(A, faults):
    return apply_table(TAP_FAULTS, A, faults)


def meter_setting_stage(J, faults):
    return apply_table(METER_SETTING_FAULTS, J, faults)


def meter_range_stage(J, faults):
    return apply_table(METER_RANGE_FAULTS, J, faults)


def meter_mode_stage(U, J, faults):
    for fault in faults:
        if fault["id"] in METER_MODE_FAULTS:
            return METER_MODE_FAULTS[fault["id"]](U, J, fault)
    return four_wire_mode(U, J)


def decoding_stage(channels, faults):
    return apply_table(DECODING_FAULTS, channels, faults)


def compatible(faults):
    ids = [fault["id"] for fault in faults]
    return (
        len(set(ids)) == len(ids)
        and len(SETTING_FAULTS.intersection(ids)) <= 1
        and len(MODE_FAULTS.intersection(ids)) <= 1
    )


@dataclass(frozen=True)
class Trace:
    """Values on the way to a reading, for tests of thresholds."""

    before_range: np.ndarray
    metered: Channels
    decoded: Channels
    power_factors: list


def trace(site, faults):
    if not compatible(faults):
        raise ValueError("these faults do not compose")
    faulty_site = site_stage(site, faults)
    window = window_stage(len(site.V), faults)
    secondary = secondary_stage(primary_currents(faulty_site, window), faults)
    U = tap_stage(window.A, faults) @ faulty_site.V
    before_range = meter_setting_stage(secondary, faults)
    J = meter_range_stage(before_range, faults)
    metered = meter_mode_stage(U, J, faults)
    two_element = any(fault["id"] == "F41" for fault in faults)
    return Trace(
        before_range=before_range,
        metered=metered,
        decoded=decoding_stage(metered, faults),
        power_factors=power_factors(metered, two_element),
    )


def site_from_pairs(V, B, E, G):
    """Make a site from lists of [real, imaginary] pairs."""
    return Site(*(np.array([complex(*pair) for pair in phasors]) for phasors in (V, B, E, G)))


def simulate(site, faults):
    """The reading of a site with these faults, as a dictionary."""
    traced = trace(site, faults)
    decoded = traced.decoded
    return {
        "V": decoded.V,
        "I": decoded.I,
        "P": decoded.P,
        "Q": decoded.Q,
        "PF": traced.power_factors,
        "totalP": decoded.totalP,
        "totalQ": decoded.totalQ,
    }
