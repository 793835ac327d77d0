"""Write cases.json: sites, faults and the readings they give."""

import cmath
import itertools
import json
import math
import platform
import random
from pathlib import Path

import numpy as np

import faults as model

SEED = 20250
HEALTHY_CASES = 20
PAIR_CASES = 2700
SINGLE_ROUNDS = 2
SINGLES_AT_LEAST = 4
DECIMALS = 4
THRESHOLD_MARGIN = 1e-6
ROUNDING_NOISE = 1e-14
MAX_DRAWS = 400
FOLDER = Path(__file__).resolve().parent

CONVENTIONS = (
    "Phasors are [real, imaginary], rms, all against one reference. V: line to neutral, volts. "
    "B, E: building and charge-point current, supply to load, amperes. "
    "G: generation current, source to supply, amperes. "
    "S = V * conj(I): import positive, lagging reactive power positive. "
    "Channel and line numbers run from 1. The order in which faults are listed has no meaning. "
    "A number that cannot be read, and a power factor without power, is null."
)

THREE_PHASE_ONLY = {
    "F46", "F04", "F05", "F06", "F07", "F08", "F12", "F21", "F23", "F02",
    "F10", "F11", "F14", "F16", "F41", "F42",
}
SINGLE_PHASE_ONLY = {"F22", "F09"}
NEEDS_CHARGING = {"F65", "F46", "F18", "F19"}
# Pairs in which the order shows only now and then, so that they are drawn more often.
DRAWN_OFTEN = [
    ("F37", "F38"), ("F60", "F59"), ("F59", "F58"), ("F60", "F58"), ("F14", "F16"), ("F03", "F59"),
    ("F26", "F38"), ("F29", "F37"), ("F30", "F37"), ("F40", "F37"), ("F40", "F38"), ("F37", "F41"),
    ("F04", "F20"), ("F04", "F23"), ("F08", "F23"), ("F21", "F01"), ("F21", "F25"), ("F04", "F25"),
    ("F23", "F25"), ("F08", "F25"), ("F14", "F15"), ("F43", "F58"), ("F04", "F05"), ("F05", "F01"),
]
TIMES_DRAWN_OFTEN = 15
# The broken neutral treats every current as an admittance, which generation is not.
NEVER_PAIRED = {frozenset({"F17", "F44"})}
# On one line a broken neutral leaves nothing but rounding errors, and these two magnify them.
NOT_ON_ONE_LINE_WITH_F17 = {"F58", "F59"}


def line_counts(fault_id):
    if fault_id in THREE_PHASE_ONLY:
        return (3,)
    if fault_id in SINGLE_PHASE_ONLY:
        return (1,)
    return (1, 3)


def uniform(rng, low, high, decimals=3):
    return round(rng.uniform(low, high), decimals)


def each_channel(lines):
    return [[channel] for channel in range(1, lines + 1)]


def channel_sets(lines):
    numbers = range(1, lines + 1)
    return [
        list(chosen) for size in numbers for chosen in itertools.combinations(numbers, size)
    ]


def unordered_pairs(lines):
    return [list(pair) for pair in itertools.combinations(range(1, lines + 1), 2)]


def ordered_pairs(lines):
    return [list(pair) for pair in itertools.permutations(range(1, lines + 1), 2)]


def other_orders(lines):
    straight = tuple(range(1, lines + 1))
    return [list(order) for order in itertools.permutations(straight) if order != straight]


def combine(**choices):
    names = list(choices)
    return [dict(zip(names, values)) for values in itertools.product(*choices.values())]


def channel_and_line(lines):
    return [{"channels": [c], "line": line} for c, line in ordered_pairs(lines)]


def per_line_numbers(lines, draw):
    """One line at a time, then all lines together, with `draw(on)` for each line."""
    patterns = [[k == one for k in range(lines)] for one in range(lines)]
    patterns += [[True] * lines] * 3
    return [[draw(on) for on in pattern] for pattern in patterns]


def parameters_of(fault_id, lines, rng):
    """Every channel choice of a fault, each with several parameter values."""
    one = each_channel(lines)
    small = [0, 0.02, uniform(rng, 0.001, 0.05, 4)]
    makers = {
        "F44": lambda: [
            {"amps": amps}
            for amps in per_line_numbers(lines, lambda on: uniform(rng, 1, 16, 2) if on else 0)
        ],
        "F65": lambda: [
            {"shares": shares}
            for shares in per_line_numbers(lines, lambda on: uniform(rng, 0, 0.95, 2) if on else 1)
            + per_line_numbers(lines, lambda on: 1 if on else 0)[:lines]
        ],
        "F46": lambda: combine(order=other_orders(lines)),
        "F45": lambda: combine(share=[0.25, 0.5, uniform(rng, 0.05, 0.9), uniform(rng, 0.05, 0.9)]),
        "F18": lambda: combine(channels=channel_sets(lines)),
        "F19": lambda: combine(channels=channel_sets(lines)),
        "F04": lambda: channel_and_line(lines),
        "F05": lambda: combine(channels=unordered_pairs(lines)),
        "F08": lambda: combine(channels=ordered_pairs(lines)),
        "F12": lambda: combine(order=other_orders(lines)),
        "F20": lambda: combine(channels=channel_sets(lines)),
        "F21": lambda: channel_and_line(lines),
        "F22": lambda: combine(channels=[[1]]),
        "F23": lambda: combine(channels=one),
        "F01": lambda: combine(channels=one),
        "F02": lambda: combine(channels=unordered_pairs(lines)),
        "F24": lambda: combine(
            channels=one,
            factor=[[0.5, 0], [uniform(rng, 0.2, 0.8), uniform(rng, -0.2, 0.2)],
                    [uniform(rng, 0.2, 0.8), uniform(rng, -0.2, 0.2)]],
        ),
        "F25": lambda: combine(channels=one, turns=[2, 3, 5]),
        "F34": lambda: combine(channels=one, x=[0.1, uniform(rng, 0.01, 2), uniform(rng, 0.01, 2)]),
        "F35": lambda: combine(channels=one, x=[0.3, uniform(rng, 0.01, 3), uniform(rng, 0.01, 3)]),
        "F36": lambda: combine(
            channels=one,
            angleRad=[uniform(rng, 0.01, 0.2, 4), uniform(rng, -0.2, -0.01, 4), uniform(rng, -1.5, 1.5, 4)],
        ),
        "F39": lambda: combine(channels=one, factor=[0, uniform(rng, 0.05, 0.95), uniform(rng, 0.05, 0.95)]),
        "F31": lambda: combine(channels=one, factor=small),
        "F32": lambda: combine(channels=one, factor=[0, 0.333, uniform(rng, 0.01, 5)]),
        "F09": lambda: combine(angleRad=[2 * math.pi / 3, -2 * math.pi / 3]),
        "F10": lambda: combine(channels=unordered_pairs(lines)),
        "F11": lambda: combine(back=[False, True]),
        "F13": lambda: combine(channels=one),
        "F14": lambda: combine(channels=one),
        "F15": lambda: combine(channels=one),
        "F26": lambda: combine(ratio=[20, 40, 50, 120]),
        "F27": lambda: combine(secondary=[1, 5]),
        "F28": lambda: combine(ratio=[20, 40, 50, 120]),
        "F29": lambda: combine(factor=[0.5, 2, 0.4, uniform(rng, 0.1, 4)]),
        "F30": lambda: combine(factor=[0.2, 5]),
        "F33": lambda: combine(factor=[20, 0.05, 40, 0.025, 80, 0.0125]),
        "F37": lambda: combine(limitA=[4, 6, 10, 16, 25, uniform(rng, 2, 40, 2)]),
        "F38": lambda: combine(floorA=[0.1, 0.6, 2, 6, uniform(rng, 0.5, 12, 2)]),
        "F42": lambda: combine(copies=[False, True]),
        "F60": lambda: combine(quantity=["V", "I", "P", "Q", "all"], exponent=[-3, -1, 1, 2]),
        "F59": lambda: combine(bits=[16, 32], unit=[1, 0.1, 0.01]),
        "F58": lambda: [{"kind": "float32"}] * 3 + combine(kind=["int32"], unit=[1, 0.1, 0.01, 0.001]),
    }
    found = makers[fault_id]() if fault_id in makers else [{}]
    return [{"id": fault_id, **parameters} for parameters in found]


def rounded(phasor):
    return [round(phasor.real, DECIMALS) + 0.0, round(phasor.imag, DECIMALS) + 0.0]


def random_voltages(rng, lines):
    return [
        cmath.rect(rng.uniform(216, 253), math.radians(degrees + rng.uniform(-1.5, 1.5)))
        for degrees in (0, -120, 120)[:lines]
    ]


def current_at(voltage, amps, power_factor, leading=False):
    lag = math.acos(power_factor)
    return cmath.rect(amps, cmath.phase(voltage) + (lag if leading else -lag))


def building_currents(rng, voltages):
    currents = []
    for voltage in voltages:
        leading = rng.random() < 0.1
        power_factor = 0.95 if leading else rng.uniform(0.8, 1)
        currents.append(current_at(voltage, rng.uniform(0.5, 40), power_factor, leading))
    return currents


def charging_currents(rng, voltages, charging):
    if not charging:
        return [0j] * len(voltages)
    count = rng.randint(1, len(voltages))
    lines = rng.sample(range(len(voltages)), count)
    amps = rng.uniform(6, 32)
    return [
        current_at(voltage, amps * rng.uniform(0.98, 1.0), rng.uniform(0.98, 1)) if k in lines else 0j
        for k, voltage in enumerate(voltages)
    ]


def generation_currents(rng, voltages, generating):
    if not generating:
        return [0j] * len(voltages)
    lines = range(len(voltages)) if rng.random() < 0.6 else [rng.randrange(len(voltages))]
    amps = rng.uniform(1, 16)
    return [
        current_at(voltage, amps, rng.uniform(0.97, 1)) if k in lines else 0j
        for k, voltage in enumerate(voltages)
    ]


def random_site(rng, lines, fault_ids):
    voltages = random_voltages(rng, lines)
    charging = bool(NEEDS_CHARGING & set(fault_ids)) or rng.random() < 0.6
    generating = "F17" not in fault_ids and rng.random() < 0.5
    phasors = {
        "V": voltages,
        "B": building_currents(rng, voltages),
        "E": charging_currents(rng, voltages, charging),
        "G": generation_currents(rng, voltages, generating),
    }
    return {name: [rounded(value) for value in values] for name, values in phasors.items()}


def balanced_site(amps_by_line):
    """Exactly 230 V and unity power factor, but for the rounding of the inputs."""
    units = [cmath.rect(1, math.radians(degrees)) for degrees in (0, -120, 120)]
    return {
        "V": [rounded(230 * unit) for unit in units],
        "B": [rounded(amps * unit) for amps, unit in zip(amps_by_line, units)],
        "E": [[0.0, 0.0]] * 3,
        "G": [[0.0, 0.0]] * 3,
    }


def near_threshold(site, faults):
    traced = model.trace(model.site_from_pairs(**site), faults)
    currents = traced.before_range
    for fault in faults:
        if fault["id"] in ("F37", "F38"):
            threshold = fault["limitA" if fault["id"] == "F37" else "floorA"]
            if np.any(np.abs(np.abs(currents) - threshold) <= THRESHOLD_MARGIN * threshold):
                return True
            currents = model.meter_range_stage(currents, [fault])
        if fault["id"] == "F58":
            before = model.decoding_stage(
                traced.metered, [other for other in faults if other["id"] != "F58"]
            )
            values = before.V + before.I + before.P + before.Q + [before.totalP, before.totalQ]
            if any(near_rounding_tie(value, fault) for value in values):
                return True
    return False


def near_rounding_tie(value, fault):
    """Whether a value lies within a millionth of a rounding step of a tie."""
    if value == 0:
        return False
    if fault["kind"] == "int32":
        steps = value / fault["unit"]
    else:
        steps = abs(value) / float(np.spacing(np.float32(abs(value))))
    return abs(steps - math.floor(steps) - 0.5) <= THRESHOLD_MARGIN


def flatten(reading):
    flat = []
    for value in reading.values():
        flat.extend(value if isinstance(value, list) else [value])
    return flat


def same(a, b, tolerance=1e-9):
    if a is None or b is None:
        return a is b
    return abs(a - b) <= tolerance * max(1, abs(a), abs(b))


def robust(site, faults):
    """Whether disturbances of the size of rounding errors leave the reading alone."""
    exact = model.site_from_pairs(**site)
    reading = flatten(model.simulate(exact, faults))
    noise = np.random.default_rng(1)

    def disturbed(phasors):
        real, imaginary = noise.standard_normal((2, len(phasors)))
        return phasors * (1 + ROUNDING_NOISE * (real + 1j * imaginary))

    for _ in range(4):
        nearby = model.Site(*(disturbed(p) for p in (exact.V, exact.B, exact.E, exact.G)))
        if not all(same(a, b) for a, b in zip(reading, flatten(model.simulate(nearby, faults)))):
            return False
    return True


def usable(site, faults):
    in_table_order = sorted(faults, key=lambda fault: model.FAULT_IDS.index(fault["id"]))
    return not near_threshold(site, in_table_order) and robust(site, faults)


def make_case(lines, site, faults):
    reading = model.simulate(model.site_from_pairs(**site), faults)
    return {"lines": lines, **site, "faults": faults, "reading": reading}


def draw_case(rng, lines, draw_faults):
    for _ in range(MAX_DRAWS):
        faults = draw_faults()
        site = random_site(rng, lines, [fault["id"] for fault in faults])
        if usable(site, faults):
            return make_case(lines, site, faults)
    return None


def healthy_cases(rng):
    return [draw_case(rng, 1 if k % 2 else 3, list) for k in range(HEALTHY_CASES)]


def single_cases(rng):
    cases = []
    for fault_id in model.FAULT_IDS:
        for lines in line_counts(fault_id):
            variants = []
            rounds = 0
            while rounds < SINGLE_ROUNDS or len(variants) < SINGLES_AT_LEAST:
                variants += parameters_of(fault_id, lines, rng)
                rounds += 1
            for fault in variants:
                cases.append(draw_case(rng, lines, lambda: [fault]))
    return cases


def composable_pairs():
    """Every pair of ids that composes, with the line counts on which both can be."""
    pairs = {}
    for first, second in itertools.combinations(model.FAULT_IDS, 2):
        counts = [n for n in line_counts(first) if n in line_counts(second)]
        if "F17" in (first, second) and NOT_ON_ONE_LINE_WITH_F17 & {first, second}:
            counts = [3]
        composes = model.compatible([{"id": first}, {"id": second}])
        if counts and composes and frozenset({first, second}) not in NEVER_PAIRED:
            pairs[first, second] = counts
    return pairs


def draw_pair(rng, pair, lines):
    faults = [rng.choice(parameters_of(fault_id, lines, rng)) for fault_id in pair]
    rng.shuffle(faults)
    return faults


def pair_cases(rng):
    counts = composable_pairs()
    wanted = list(counts) + DRAWN_OFTEN * TIMES_DRAWN_OFTEN
    while len(wanted) < PAIR_CASES:
        wanted.append(rng.choice(list(counts)))
    cases = []
    for pair in wanted:
        lines = 3 if 3 in counts[pair] and (len(counts[pair]) == 1 or rng.random() < 0.8) else 1
        cases.append(draw_case(rng, lines, lambda: draw_pair(rng, pair, lines)))
    return cases


def arrangement_faults(order, signs):
    """The faults that put line order[c] on channel c with sign signs[c]."""
    moved = [c + 1 for c in range(3) if order[c] != c + 1]
    faults = []
    if len(moved) == 2:
        faults.append({"id": "F05", "channels": moved})
    elif len(moved) == 3:
        faults.append({"id": "F06" if order[0] == 2 else "F07"})
    negative = [c + 1 for c in range(3) if signs[c] < 0]
    if len(negative) == 3:
        faults.append({"id": "F03"})
    elif negative:
        faults.append({"id": "F01" if len(negative) == 1 else "F02", "channels": negative})
    return faults


def signature_cases():
    """Balanced and one-line loads, where the reading is known by hand."""
    balanced = balanced_site([10, 10, 10])
    listed = [
        (balanced, arrangement_faults(order, signs))
        for order in itertools.permutations((1, 2, 3))
        for signs in itertools.product((1, -1), repeat=3)
    ]
    listed += [(balanced, [{"id": "F21", **choice}]) for choice in channel_and_line(3)]
    listed += [(balanced, [{"id": "F23", "channels": [c]}]) for c in (1, 2, 3)]
    listed += [(balanced, [{"id": fault_id}]) for fault_id in ("F40", "F41", "F16", "F17")]
    for line in range(3):
        alone = balanced_site([10 if k == line else 0 for k in range(3)])
        listed += [(alone, [{"id": fault_id}]) for fault_id in ("F40", "F41")]
    return [make_case(3, site, faults) for site, faults in listed]


def without_negative_zero(value):
    if isinstance(value, list):
        return [without_negative_zero(item) for item in value]
    if isinstance(value, dict):
        return {name: without_negative_zero(item) for name, item in value.items()}
    if isinstance(value, float):
        return value + 0.0
    return value


def write_cases(cases, path):
    head = {
        "conventions": CONVENTIONS,
        "versions": {"python": platform.python_version(), "numpy": np.__version__},
    }
    rows = [
        json.dumps(without_negative_zero({"id": number, **case}), separators=(",", ":"), allow_nan=False)
        for number, case in enumerate(cases, start=1)
    ]
    text = json.dumps(head, indent=0)[:-2] + ',\n"cases": [\n' + ",\n".join(rows) + "\n]}\n"
    path.write_text(text, encoding="utf-8")


def main():
    rng = random.Random(SEED)
    groups = {
        "healthy": healthy_cases(rng),
        "single": single_cases(rng),
        "pair": pair_cases(rng),
        "signature": signature_cases(),
    }
    missing = {name: group.count(None) for name, group in groups.items()}
    if any(missing.values()):
        raise SystemExit(f"no usable draw for some cases: {missing}")
    write_cases([case for group in groups.values() for case in group], FOLDER / "cases.json")
    for name, group in groups.items():
        print(f"{name}: {len(group)}")


if __name__ == "__main__":
    main()
