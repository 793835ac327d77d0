"""Check cases.json and faults.py against results worked out by hand.

Expected values come from plain Python complex numbers and from signatures known
by hand; faults.py is used only as the thing under test. Also writes
arrangements.json, the 48 ways to put three transformers on three lines.
"""

import cmath
import itertools
import json
import math
import struct
from collections import Counter
from pathlib import Path

import faults as model

FOLDER = Path(__file__).resolve().parent
TOLERANCE = 1e-9
# Four decimals of a current of 10 A.
ROUNDED_INPUT_TOLERANCE = 1e-5
MAX_BYTES = 3_000_000
A = cmath.rect(1, 2 * math.pi / 3)
BALANCED = (1, A.conjugate(), A)
PER_CHANNEL = ("V", "I", "P", "Q", "PF")
TOTALS = ("totalP", "totalQ")

checked = Counter()


def close(a, b, tolerance=TOLERANCE, scale=1.0):
    if a is None or b is None:
        return a is b
    return abs(a - b) <= tolerance * max(scale, abs(a), abs(b))


def require(condition, message):
    if not condition:
        raise SystemExit(f"FAILED: {message}")


def phasors(pairs):
    return [complex(*pair) for pair in pairs]


def ids_of(case):
    return tuple(sorted(fault["id"] for fault in case["faults"]))


def differences(reading, expected, tolerance=TOLERANCE):
    found = []
    for name in PER_CHANNEL:
        for channel, (a, b) in enumerate(zip(reading[name], expected[name], strict=True), start=1):
            if not close(a, b, tolerance):
                found.append(f"{name}[{channel}] {a} against {b}")
    found += [
        f"{name} {reading[name]} against {expected[name]}"
        for name in TOTALS
        if not close(reading[name], expected[name], tolerance)
    ]
    return found


# Readings by hand


def reading_of(U, J):
    """An ordinary meter with voltages U and currents J."""
    S = [u * j.conjugate() for u, j in zip(U, J)]
    V, I = [abs(u) for u in U], [abs(j) for j in J]
    return finish(V, I, [s.real for s in S], [s.imag for s in S])


def finish(V, I, P, Q):
    PF = [None if v * i < 1e-9 else p / (v * i) for v, i, p in zip(V, I, P)]
    return {"V": V, "I": I, "P": P, "Q": Q, "PF": PF, "totalP": sum(P), "totalQ": sum(Q)}


def put(values, channels, change):
    """The values with `change` applied on the named channels."""
    return [change(value) if c + 1 in channels else value for c, value in enumerate(values)]


def exchanged(values, channels):
    i, j = (channel - 1 for channel in channels)
    moved = list(values)
    moved[i], moved[j] = values[j], values[i]
    return moved


def inductance_shunt(x):
    """Secondary current through a burden r beside a magnetising reactance r/x."""
    return 1j / (1j + x)


def floating_neutral(V, Y):
    """The neutral point that leaves no current over, from two real equations."""
    total = sum(Y)
    wanted = sum(y * v for y, v in zip(Y, V))
    determinant = total.real**2 + total.imag**2
    real = (wanted.real * total.real + wanted.imag * total.imag) / determinant
    imaginary = (wanted.imag * total.real - wanted.real * total.imag) / determinant
    return complex(real, imaginary)


def broken_neutral(V, I):
    Y = [i / v for i, v in zip(I, V)]
    VN = floating_neutral(V, Y)
    moved = [v - VN for v in V]
    currents = [y * v for y, v in zip(Y, moved)]
    require(abs(sum(currents)) < 1e-9, "currents into a broken neutral must add to nothing")
    return reading_of(moved, currents)


def two_element(U, J):
    """Two wattmeters with line 2 as the common conductor."""
    elements = [(U[0] - U[1]) * J[0].conjugate(), 0j, (U[2] - U[1]) * J[2].conjugate()]
    V = [abs(U[0] - U[1]), abs(U[2] - U[0]), abs(U[2] - U[1])]
    I = [abs(J[0]), abs(J[0] + J[2]), abs(J[2])]
    reading = finish(V, I, [s.real for s in elements], [s.imag for s in elements])
    reading["PF"][1] = None
    return reading


def only_first(U, J, copies):
    first = reading_of(U[:1], J[:1])
    if copies:
        return {name: first[name] * 3 for name in PER_CHANNEL} | {
            name: 3 * first[name] for name in TOTALS
        }
    rest = {name: first[name] + [0.0, 0.0] for name in PER_CHANNEL}
    rest["PF"] = first["PF"] + [None, None]
    return rest | {name: first[name] for name in TOTALS}


def change_numbers(reading, names, change):
    changed = dict(reading)
    for name in names:
        value = reading[name]
        changed[name] = [change(v) for v in value] if isinstance(value, list) else change(value)
    return changed


def summed_currents(reading):
    return reading | {"I": [sum(reading["I"])] * len(reading["I"])}


def shifted_point(reading, fault):
    names = {"P": ["P", "totalP"], "Q": ["Q", "totalQ"], "all": ["V", "I", "P", "Q", *TOTALS]}
    quantity, exponent = fault["quantity"], fault["exponent"]
    return change_numbers(
        reading, names.get(quantity, [quantity]), lambda v: v * float(f"1e{exponent}")
    )


def unsigned(reading, fault):
    span = (65536 if fault["bits"] == 16 else 4294967296) * fault["unit"]
    return change_numbers(reading, ["P", "Q", *TOTALS], lambda v: span + v if v < 0 else v)


def swapped_float(value):
    try:
        packed = struct.pack(">f", value)
    except OverflowError:
        packed = struct.pack(">f", math.copysign(math.inf, value))
    (read,) = struct.unpack(">f", packed[2:] + packed[:2])
    return read if math.isfinite(read) else None


def swapped_int(value, unit):
    try:
        packed = struct.pack(">i", math.floor(value / unit + 0.5))
    except struct.error:
        return None
    (read,) = struct.unpack(">i", packed[2:] + packed[:2])
    return read * unit


def swapped_halves(reading, fault):
    def change(value):
        if fault["kind"] == "float32":
            return swapped_float(value)
        return swapped_int(value, fault["unit"])

    return change_numbers(reading, ["V", "I", "P", "Q", *TOTALS], change)


def scaled_all(factor):
    return lambda s, f: reading_of(s.V, [factor(f) * i for i in s.I])


def scaled_one(factor):
    return lambda s, f: reading_of(s.V, put(s.I, f["channels"], lambda i: factor(f) * i))


def negated(s, f):
    return reading_of(s.V, put(s.I, f["channels"], lambda i: -i))


def moved_currents(order):
    return lambda s, f: reading_of(s.V, [s.I[k] for k in order(len(s.I), f)])


def mean(values):
    return sum(values) / len(values)


class Supply:
    """The phasors of a case, with the current of the main fuse."""

    def __init__(self, case):
        self.V, self.B, self.E, self.G = (phasors(case[name]) for name in "VBEG")
        self.I = [b + e - g for b, e, g in zip(self.B, self.E, self.G)]
        self.u = [v / abs(v) for v in self.V]


def fed_from(s, order):
    """Charge-point currents when line k+1 of the charge point hangs on supply line order[k]."""
    moved = [0j] * len(s.E)
    for own, supply in enumerate(order):
        turn = cmath.phase(s.V[supply - 1]) - cmath.phase(s.V[own])
        moved[supply - 1] = s.E[own] * cmath.rect(1, turn)
    return moved


def with_charging(s, E):
    return reading_of(s.V, [b + e - g for b, e, g in zip(s.B, E, s.G)])


SINGLE = {
    "F44": lambda s, f: reading_of(s.V, [i - a * u for i, a, u in zip(s.I, f["amps"], s.u)]),
    "F65": lambda s, f: with_charging(s, [e * share for e, share in zip(s.E, f["shares"])]),
    "F46": lambda s, f: with_charging(s, fed_from(s, f["order"])),
    "F17": lambda s, f: broken_neutral(s.V, s.I),
    "F45": lambda s, f: reading_of(s.V, [i - f["share"] * b for i, b in zip(s.I, s.B)]),
    "F18": lambda s, f: reading_of(
        s.V, [i - e if c in f["channels"] else i for c, (i, e) in enumerate(zip(s.I, s.E), 1)]
    ),
    "F19": lambda s, f: reading_of(
        s.V, [e if c in f["channels"] else i for c, (i, e) in enumerate(zip(s.I, s.E), 1)]
    ),
    "F04": lambda s, f: reading_of(s.V, put(s.I, f["channels"], lambda i: s.I[f["line"] - 1])),
    "F05": lambda s, f: reading_of(s.V, exchanged(s.I, f["channels"])),
    "F06": moved_currents(lambda n, f: [1, 2, 0]),
    "F07": moved_currents(lambda n, f: [2, 0, 1]),
    "F08": lambda s, f: reading_of(
        s.V, put(exchanged(s.I, f["channels"]), f["channels"][:1], lambda i: -i)
    ),
    "F12": lambda s, f: reading_of([s.V[k - 1] for k in f["order"]], [s.I[k - 1] for k in f["order"]]),
    "F20": scaled_one(lambda f: 0),
    "F21": lambda s, f: reading_of(s.V, put(s.I, f["channels"], lambda i: i + s.I[f["line"] - 1])),
    "F22": negated,
    "F23": lambda s, f: reading_of(s.V, put(s.I, f["channels"], lambda i: -sum(s.I))),
    "F01": negated,
    "F02": negated,
    "F03": scaled_all(lambda f: -1),
    "F24": scaled_one(lambda f: complex(*f["factor"])),
    "F25": scaled_one(lambda f: f["turns"]),
    "F34": scaled_one(lambda f: inductance_shunt(f["x"])),
    "F35": scaled_one(lambda f: inductance_shunt(f["x"])),
    "F36": scaled_one(lambda f: complex(math.cos(f["angleRad"]), math.sin(f["angleRad"]))),
    "F39": scaled_one(lambda f: f["factor"]),
    "F31": scaled_one(lambda f: f["factor"]),
    "F32": scaled_one(lambda f: f["factor"]),
    "F40": lambda s, f: reading_of(s.V, [i - mean(s.I) for i in s.I]),
    "F09": lambda s, f: reading_of([s.V[0] * (A if f["angleRad"] > 0 else A.conjugate())], s.I),
    "F10": lambda s, f: reading_of(exchanged(s.V, f["channels"]), s.I),
    "F11": lambda s, f: reading_of([s.V[k] for k in ([2, 0, 1] if f["back"] else [1, 2, 0])], s.I),
    "F13": lambda s, f: reading_of(put(s.V, f["channels"], lambda v: -v), s.I),
    "F14": lambda s, f: reading_of(
        put(s.V, f["channels"], lambda v: v - s.V[f["channels"][0] % 3]), s.I
    ),
    "F15": lambda s, f: reading_of(put(s.V, f["channels"], lambda v: 0j), s.I),
    "F16": lambda s, f: reading_of([v - mean(s.V) for v in s.V], s.I),
    "F26": scaled_all(lambda f: 1 / f["ratio"]),
    "F27": scaled_all(lambda f: f["secondary"]),
    "F28": scaled_all(lambda f: 1 / f["ratio"] / f["ratio"]),
    "F29": scaled_all(lambda f: f["factor"]),
    "F30": scaled_all(lambda f: f["factor"]),
    "F33": scaled_all(lambda f: f["factor"]),
    "F37": lambda s, f: reading_of(
        s.V, [cmath.rect(min(abs(i), f["limitA"]), cmath.phase(i)) for i in s.I]
    ),
    "F38": lambda s, f: reading_of(s.V, [0j if abs(i) < f["floorA"] else i for i in s.I]),
    "F41": lambda s, f: two_element(s.V, s.I),
    "F42": lambda s, f: only_first(s.V, s.I, f["copies"]),
    "F43": lambda s, f: summed_currents(reading_of(s.V, s.I)),
    "F60": lambda s, f: shifted_point(reading_of(s.V, s.I), f),
    "F59": lambda s, f: unsigned(reading_of(s.V, s.I), f),
    "F58": lambda s, f: swapped_halves(reading_of(s.V, s.I), f),
}


def clipped(i, limit):
    return i if abs(i) <= limit else i * (limit / abs(i))


# Pairs in which the order of the two faults matters, worked by hand.
PAIRS = {
    ("F44", "F65"): lambda s, f: reading_of(
        s.V,
        [
            b + e * share - g - a * u
            for b, e, g, u, share, a in zip(s.B, s.E, s.G, s.u, f["F65"]["shares"], f["F44"]["amps"])
        ],
    ),
    ("F01", "F05"): lambda s, f: reading_of(
        s.V, put(exchanged(s.I, f["F05"]["channels"]), f["F01"]["channels"], lambda i: -i)
    ),
    ("F01", "F21"): lambda s, f: reading_of(
        s.V,
        put(
            put(s.I, f["F21"]["channels"], lambda i: i + s.I[f["F21"]["line"] - 1]),
            f["F01"]["channels"],
            lambda i: -i,
        ),
    ),
    ("F04", "F05"): lambda s, f: reading_of(
        s.V,
        exchanged(
            put(s.I, f["F04"]["channels"], lambda i: s.I[f["F04"]["line"] - 1]), f["F05"]["channels"]
        ),
    ),
    ("F05", "F18"): lambda s, f: reading_of(
        s.V,
        [
            i - e if c in f["F18"]["channels"] else i
            for c, (i, e) in enumerate(
                zip(exchanged(s.I, f["F05"]["channels"]), exchanged(s.E, f["F05"]["channels"])), 1
            )
        ],
    ),
    ("F05", "F23"): lambda s, f: reading_of(
        s.V, put(exchanged(s.I, f["F05"]["channels"]), f["F23"]["channels"], lambda i: -sum(s.I))
    ),
    ("F21", "F24"): lambda s, f: reading_of(
        s.V,
        put(
            put(s.I, f["F21"]["channels"], lambda i: i + s.I[f["F21"]["line"] - 1]),
            f["F24"]["channels"],
            lambda i: i * complex(*f["F24"]["factor"]),
        ),
    ),
    ("F12", "F13"): lambda s, f: reading_of(
        put([s.V[k - 1] for k in f["F12"]["order"]], f["F13"]["channels"], lambda v: -v),
        [s.I[k - 1] for k in f["F12"]["order"]],
    ),
    ("F34", "F40"): lambda s, f: common_after(
        s, put(s.I, f["F34"]["channels"], lambda i: i * inductance_shunt(f["F34"]["x"]))
    ),
    ("F01", "F40"): lambda s, f: common_after(s, put(s.I, f["F01"]["channels"], lambda i: -i)),
    ("F15", "F16"): lambda s, f: taps_floating(s, put(s.V, f["F15"]["channels"], lambda v: 0j)),
    ("F13", "F14"): lambda s, f: line_to_line(
        s, put(s.V, f["F13"]["channels"], lambda v: -v), f["F14"]["channels"][0]
    ),
    ("F14", "F16"): lambda s, f: taps_floating(
        s, put(s.V, f["F14"]["channels"], lambda v: v - s.V[f["F14"]["channels"][0] % 3])
    ),
    ("F26", "F37"): lambda s, f: reading_of(
        s.V, [clipped(i / f["F26"]["ratio"], f["F37"]["limitA"]) for i in s.I]
    ),
    ("F27", "F37"): lambda s, f: reading_of(
        s.V, [clipped(i * f["F27"]["secondary"], f["F37"]["limitA"]) for i in s.I]
    ),
    ("F29", "F38"): lambda s, f: reading_of(
        s.V,
        [0j if abs(i * f["F29"]["factor"]) < f["F38"]["floorA"] else i * f["F29"]["factor"] for i in s.I],
    ),
    ("F37", "F38"): lambda s, f: reading_of(
        s.V,
        [
            0j if min(abs(i), f["F37"]["limitA"]) < f["F38"]["floorA"] else clipped(i, f["F37"]["limitA"])
            for i in s.I
        ],
    ),
    ("F37", "F41"): lambda s, f: two_element(s.V, [clipped(i, f["F37"]["limitA"]) for i in s.I]),
    ("F41", "F43"): lambda s, f: summed_currents(two_element(s.V, s.I)),
    ("F43", "F60"): lambda s, f: shifted_point(summed_currents(reading_of(s.V, s.I)), f["F60"]),
    ("F59", "F60"): lambda s, f: unsigned(shifted_point(reading_of(s.V, s.I), f["F60"]), f["F59"]),
    ("F58", "F59"): lambda s, f: swapped_halves(unsigned(reading_of(s.V, s.I), f["F59"]), f["F58"]),
    ("F58", "F60"): lambda s, f: swapped_halves(shifted_point(reading_of(s.V, s.I), f["F60"]), f["F58"]),
}


def common_after(s, J):
    return reading_of(s.V, [j - mean(J) for j in J])


def taps_floating(s, U):
    return reading_of([u - mean(U) for u in U], s.I)


def line_to_line(s, U, channel):
    changed = list(U)
    changed[channel - 1] = U[channel - 1] - U[channel % 3]
    return reading_of(changed, s.I)


def expected_by_hand(case):
    supply, ids = Supply(case), ids_of(case)
    if not ids:
        return reading_of(supply.V, supply.I)
    if len(ids) == 1:
        return SINGLE[ids[0]](supply, case["faults"][0])
    if ids in PAIRS:
        return PAIRS[ids](supply, {fault["id"]: fault for fault in case["faults"]})
    return None


# The file


def check_form(path, cases):
    require(path.stat().st_size < MAX_BYTES, "cases.json is too large")
    require(len(cases) >= 2400, "too few cases")
    require([case["id"] for case in cases] == list(range(1, len(cases) + 1)), "ids do not count up")
    for case in cases:
        for name in (*"VBEG", *PER_CHANNEL):
            values = case[name] if name in "VBEG" else case["reading"][name]
            require(len(values) == case["lines"] in (1, 3), f"case {case['id']}: length of {name}")
        ids = set(ids_of(case))
        require(len(ids) == len(case["faults"]) <= 2, f"case {case['id']}: same id twice")
        require(len(ids & {"F26", "F27", "F28", "F29", "F30", "F33"}) < 2, "two settings together")
        require(not {"F41", "F42"} <= ids, "two modes together")
        if "F17" in ids:
            require(not any(any(pair) for pair in case["G"]), "F17 with generation")
    require({ids_of(case)[0] for case in cases if len(ids_of(case)) == 1} == set(SINGLE), "an id is missing")


def check_by_hand(cases):
    for case in cases:
        expected = expected_by_hand(case)
        if expected is not None:
            wrong = differences(case["reading"], expected)
            require(not wrong, f"case {case['id']} {case['faults']}: {wrong}")
            checked["cases against a reading by hand"] += 1
    done = {ids_of(case) for case in cases}
    require(set(PAIRS) <= done, "a pair worked by hand is not among the cases")


def check_simulator_again(cases):
    for case in cases:
        site = model.site_from_pairs(*(case[name] for name in "VBEG"))
        for listed in (case["faults"], case["faults"][::-1]):
            wrong = differences(model.simulate(site, listed), case["reading"])
            require(not wrong, f"case {case['id']} does not come out again: {wrong}")
        checked["cases come out again, faults listed either way"] += 1


def check_sums(cases):
    not_sums = {"F58", "F59", "F60"}
    for case in cases:
        ids, reading = set(ids_of(case)), case["reading"]
        if not ids & not_sums:
            for total, name in (("totalP", "P"), ("totalQ", "Q")):
                scale = sum(abs(value) for value in reading[name])
                require(
                    close(reading[total], sum(reading[name]), scale=max(1, scale)),
                    f"case {case['id']}: {total} is not a sum",
                )
            checked["totals are sums"] += 1
        for factor in reading["PF"]:
            require(factor is None or abs(factor) <= 1 + 1e-12, f"case {case['id']}: PF beyond 1")


# Signatures known by hand


def signature(faults, currents=(1, 1, 1)):
    """The simulator's reading of a balanced supply of 1 V with these currents at unity."""
    V = [[complex(u).real, complex(u).imag] for u in BALANCED]
    B = [[(amps * u).real, (amps * u).imag] for amps, u in zip(currents, map(complex, BALANCED))]
    nothing = [[0, 0]] * 3
    return model.simulate(model.site_from_pairs(V, B, nothing, nothing), faults)


def expect(what, got, wanted, tolerance=1e-12):
    for a, b in zip(got, wanted, strict=True):
        require(close(a, b, tolerance), f"{what}: {got} against {wanted}")
    checked["signatures"] += 1


def check_signatures():
    root = math.sqrt(3) / 2

    def total(faults, currents=(1, 1, 1)):
        reading = signature(faults, currents)
        power = sum(currents)
        return reading["totalP"] / power, reading["totalQ"] / power

    for c in (1, 2, 3):
        others = [k for k in (1, 2, 3) if k != c]
        expect("one reversed", total([{"id": "F01", "channels": [c]}]), (1 / 3, 0))
        expect("two reversed", total([{"id": "F02", "channels": others}]), (-1 / 3, 0))
        expect("exchanged", total([{"id": "F05", "channels": others}]), (0, 0))
        expect("taps exchanged", total([{"id": "F10", "channels": others}]), (0, 0))
        expect("clamp closed", total([{"id": "F20", "channels": [c]}]), (2 / 3, 0))
        expect("on a balanced neutral", total([{"id": "F23", "channels": [c]}]), (2 / 3, 0))
        line_to_line = signature([{"id": "F14", "channels": [c]}])
        expect("fed line to line", (line_to_line["V"][c - 1],), (math.sqrt(3),))
        for line in others:
            reading = total([{"id": "F21", "channels": [c], "line": line}])
            expect("round two lines", reading[:1], (5 / 6,))
        for first, second in (others, others[::-1]):
            reading = total([{"id": "F08", "channels": [first, second]}])
            expect("exchanged, one reversed: real", reading[:1], (1 / 3,))
            expect("exchanged, one reversed: reactive", (abs(reading[1]),), (2 * root / 3,))
    expect("all reversed", total([{"id": "F03"}]), (-1, 0))
    expect("rotated", total([{"id": "F06"}]), (-0.5, root))
    expect("rotated back", total([{"id": "F07"}]), (-0.5, -root))
    expect("taps rotated", total([{"id": "F11", "back": False}]), (-0.5, -root))
    expect("taps rotated back", total([{"id": "F11", "back": True}]), (-0.5, root))
    expect("common open, balanced", total([{"id": "F40"}]), (1, 0))
    expect("neutral tap missing, balanced", total([{"id": "F16"}]), (1, 0))
    expect("neutral broken, balanced", total([{"id": "F17"}]), (1, 0))
    for order in itertools.permutations((1, 2, 3)):
        reading = signature([{"id": "F12", "order": list(order)}])
        expect("permuted together", reading["P"] + reading["Q"], [1, 1, 1, 0, 0, 0])

    for line, times in zip(range(3), (1.5, 0, 1.5)):
        alone = tuple(1 if k == line else 0 for k in range(3))
        expect("two elements, one load", total([{"id": "F41"}], alone)[:1], (times,))
        opened = signature([{"id": "F40"}], alone)
        expect("common open: currents", opened["I"], [2 / 3 if k == line else 1 / 3 for k in range(3)])
        expect("common open: powers", opened["P"], [2 / 3 if k == line else 1 / 6 for k in range(3)])
    expect("two elements, balanced", total([{"id": "F41"}]), (1, 0))


def arrangement_by_hand(order, signs):
    """Per-channel and total power when channel c holds line order[c] with a sign."""
    powers = [
        complex(BALANCED[c] * (sign * BALANCED[line - 1]).conjugate())
        for c, (line, sign) in enumerate(zip(order, signs))
    ]
    return powers, sum(powers)


def key(*numbers):
    return tuple(round(number, 9) + 0.0 for number in numbers)


def key_of_powers(P, Q):
    return key(*P, *Q)


def faults_of(order, signs):
    """Two faults of the catalogue that make an arrangement."""
    permutations = {
        (1, 2, 3): [],
        (2, 1, 3): [{"id": "F05", "channels": [1, 2]}],
        (3, 2, 1): [{"id": "F05", "channels": [1, 3]}],
        (1, 3, 2): [{"id": "F05", "channels": [2, 3]}],
        (2, 3, 1): [{"id": "F06"}],
        (3, 1, 2): [{"id": "F07"}],
    }
    reversals = {
        (1, 1, 1): [],
        (-1, 1, 1): [{"id": "F01", "channels": [1]}],
        (1, -1, 1): [{"id": "F01", "channels": [2]}],
        (1, 1, -1): [{"id": "F01", "channels": [3]}],
        (-1, -1, 1): [{"id": "F02", "channels": [1, 2]}],
        (-1, 1, -1): [{"id": "F02", "channels": [1, 3]}],
        (1, -1, -1): [{"id": "F02", "channels": [2, 3]}],
        (-1, -1, -1): [{"id": "F03"}],
    }
    return permutations[order] + reversals[signs]


def check_arrangements(cases):
    rows = []
    balanced = find_balanced(cases)
    for order in itertools.permutations((1, 2, 3)):
        for signs in itertools.product((1, -1), repeat=3):
            powers, total = arrangement_by_hand(order, signs)
            P, Q = [s.real for s in powers], [s.imag for s in powers]
            faults = faults_of(order, signs)
            reading = signature(faults)
            expect(f"arrangement {order} {signs}", reading["P"] + reading["Q"], P + Q)
            expect(
                f"arrangement {order} {signs}, totals",
                (reading["totalP"], reading["totalQ"]),
                (total.real, total.imag),
            )
            check_stored_arrangement(balanced, faults, P, Q)
            rows.append(
                {
                    "lineOfChannel": list(order),
                    "signs": list(signs),
                    "P": list(key(*P)),
                    "Q": list(key(*Q)),
                    "totalP": key(total.real)[0],
                    "totalQ": key(total.imag)[0],
                }
            )
    patterns = {key_of_powers(row["P"], row["Q"]) for row in rows}
    totals = {key(row["totalP"], row["totalQ"]) for row in rows}
    simulated = [signature(faults_of(tuple(row["lineOfChannel"]), tuple(row["signs"]))) for row in rows]
    require({key_of_powers(r["P"], r["Q"]) for r in simulated} == patterns, "patterns differ")
    require({key(r["totalP"], r["totalQ"]) for r in simulated} == totals, "totals differ")
    require(len(rows) == len(patterns) == 48, f"{len(patterns)} patterns, not 48")
    require(len(totals) == 19, f"{len(totals)} totals, not 19")
    return rows, len(patterns), len(totals)


def find_balanced(cases):
    """Stored cases with 230 V and 10 A in phase on every line, by their faults."""
    found = {}
    for case in cases:
        supply = Supply(case)
        if case["lines"] == 3 and all(
            abs(v - 230 * u) < 1e-3 and abs(i - 10 * u) < 1e-3
            for v, i, u in zip(supply.V, supply.I, BALANCED)
        ):
            found[json.dumps(case["faults"], sort_keys=True)] = case
    return found


def check_stored_arrangement(balanced, faults, P, Q):
    case = balanced.get(json.dumps(faults, sort_keys=True))
    require(case is not None, f"no stored case for {faults}")
    for name, wanted in (("P", P), ("Q", Q)):
        for a, b in zip(case["reading"][name], wanted, strict=True):
            require(close(a / 2300, b, ROUNDED_INPUT_TOLERANCE), f"case {case['id']}: {name}")
    checked["stored arrangements"] += 1


def write_arrangements(rows, patterns, totals):
    head = {
        "conventions": (
            "Channel c holds line lineOfChannel[c] with sign signs[c]. Balanced supply L1, L2, L3 at "
            "0, -120, +120 degrees, balanced load at unity power factor. P and Q are per unit of the "
            "true P of one channel; lagging Q is positive. Rounded to nine decimals."
        ),
        "distinctPerChannel": patterns,
        "distinctTotals": totals,
    }
    lines = ",\n".join(json.dumps(row, separators=(",", ":")) for row in rows)
    text = json.dumps(head, indent=0)[:-2] + ',\n"arrangements": [\n' + lines + "\n]}\n"
    (FOLDER / "arrangements.json").write_text(text, encoding="utf-8")


def count_kinds(cases):
    kinds = Counter(("healthy", "single", "pair")[len(case["faults"])] for case in cases)
    pairs = {ids_of(case) for case in cases if len(case["faults"]) == 2}
    return kinds, len(pairs)


def main():
    path = FOLDER / "cases.json"
    cases = json.loads(path.read_text(encoding="utf-8"))["cases"]
    check_form(path, cases)
    check_by_hand(cases)
    check_simulator_again(cases)
    check_sums(cases)
    check_signatures()
    rows, patterns, totals = check_arrangements(cases)
    write_arrangements(rows, patterns, totals)
    kinds, pairs = count_kinds(cases)
    print(f"{len(cases)} cases: {dict(kinds)}, {pairs} pairs of ids")
    for what, count in checked.items():
        print(f"{what}: {count}")
    print(f"48 arrangements: {patterns} per-channel patterns, {totals} totals")


if __name__ == "__main__":
    main()
