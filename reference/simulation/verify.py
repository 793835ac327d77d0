"""Hold cases.json and simulate.py against sums and closed forms, whole arrays at a time.

Shares nothing with simulate.py but the current it says the supply carried: counts, peaks, means, energy, fuse and
cables follow from that by other means (run lengths, convolutions, one weighted sum instead of a recurrence).
"""

import json
from pathlib import Path

import numpy as np

from simulate import Site

FOLDER = Path(__file__).resolve().parent
TOLERANCE = 1e-9
ROUNDING_A = 1e-9
MAX_BYTES = 300_000
RUN_AGAIN = ("one-point", "three-equal", "first-come")
# Powers of what a step leaves of the fuse's used life stay far from the ends of the number range within this many.
BLOCK_STEPS = 5000


def require(condition, message):
    if not condition:
        raise SystemExit(f"FAILED: {message}")


def close(a, b, tolerance=TOLERANCE):
    a, b = np.asarray(a, dtype=float), np.asarray(b, dtype=float)
    return bool(np.all(np.abs(a - b) <= tolerance * np.maximum(1, np.maximum(np.abs(a), np.abs(b)))))


def building(case):
    """The recurrence by powers of the multiplier instead of one draw after another: minutes by lines."""
    demand, lines = case["demand"], case["plan"]["lineCount"]
    count = 1440 * case["days"] * lines
    x = np.array([demand["seed"] * pow(16807, draw, 2**31 - 1) % (2**31 - 1) for draw in range(1, count + 1)])
    hour = np.repeat(np.arange(1440 * case["days"]) // 60 % 24, lines)
    swing = np.array(demand["swingA"])[hour] * (x & 4095) / 4096
    current = np.array(demand["baseA"])[hour] + swing + demand["spikeA"] * ((x >> 12) % 16 == 0)
    return current.reshape(-1, lines)


def check_stored(case):
    """What must hold between the figures of a case, whatever happened in it."""
    plan, result, name = case["plan"], case["result"], case["name"]
    minutes, steps_a_minute = building(case), round(60 / plan["stepS"])
    per_check = case["checkEveryS"] // 60
    cars_total = 0.0
    for index, check in enumerate(result["checkpoints"]):
        alone = minutes[index * per_check : (index + 1) * per_check].sum(axis=0) * steps_a_minute
        both, cars = np.array(check["sums"])
        require(close(both - cars, alone), f"{name}: supply less cars is not the building at {check['atS']} s")
        cars_total += cars.sum()
        control = plan["control"]
        for (car_a, noticed_a, offered_a, _), point in zip(check["points"], plan["points"], strict=True):
            whole = offered_a / control["offerStepA"]
            is_fallback = offered_a == min(control["fallbackA"] or 0, point["ratedA"])
            is_rise = control["riseStepA"] % control["offerStepA"] != 0
            require(
                is_fallback or is_rise or abs(whole - round(whole)) < 1e-6, f"{name}: {offered_a} A is no whole step"
            )
            require(offered_a <= point["ratedA"], f"{name}: {offered_a} A is above the rating")
            require(car_a is None or car_a >= 0 and noticed_a >= 0, f"{name}: a negative current")
    energy = cars_total * plan["voltageV"] * plan["stepS"] / 3.6e6
    delivered = sum(session["deliveredKwh"] for session in result["sessions"])
    require(close(energy, delivered), f"{name}: {energy} kWh carried, {delivered} delivered")
    for line, counted in enumerate(result["lines"]):
        over_alone = int((minutes[:, line] > plan["supplyLimitA"] + ROUNDING_A).sum()) * steps_a_minute
        require(counted["aloneSteps"] == over_alone, f"{name}: {over_alone} steps of the building alone")
        require(counted["overSteps"] >= over_alone, f"{name}: less over than the building alone")
        by_cars = counted["overSteps"] - over_alone
        require(by_cars <= counted["carSteps"] <= counted["overSteps"], f"{name}: {counted['carSteps']} steps with a car")
    for session in result["sessions"]:
        require(session["deliveredKwh"] <= session["wantedKwh"] + 1, f"{name}: more delivered than wanted")


def run_lengths(is_over):
    edges = np.flatnonzero(np.diff(np.concatenate(([0], is_over.astype(int), [0]))))
    return edges[0::2], edges[1::2] - edges[0::2]


def used_life(current_a, fuse, edge, step_s):
    """As one weighted sum: what was added, times what every cooling step since has left of it."""
    gates = np.array(fuse["band"][edge])
    size = np.abs(current_a)
    is_aging = size >= gates[0, 0]
    log_time = np.interp(np.log(np.maximum(size, gates[0, 0])), np.log(gates[:, 0]), np.log(gates[:, 1]))
    added = np.where(is_aging, step_s / np.exp(log_time), 0.0)
    kept, used, most = np.exp(-step_s / fuse["coolingS"]), 0.0, 0.0
    for start in range(0, len(size), BLOCK_STEPS):
        block = slice(start, start + BLOCK_STEPS)
        cooled = np.cumsum(~is_aging[block])
        values = (used + np.cumsum(added[block] * kept ** -cooled.astype(float))) * kept**cooled
        used, most = values[-1], max(most, values.max())
    return used, most


def temperature(current_a, body, step_s):
    """As a convolution with what each step still counts for later; beyond 40 time constants it counts for nothing."""
    left = np.exp(-step_s / body["tauS"])
    weights = (1 - left) * left ** np.arange(int(40 * body["tauS"] / step_s))
    above = body["riseAtRatedK"] * (current_a / body["ratedA"]) ** 2
    size = 1 << (len(above) + len(weights)).bit_length()
    filtered = np.fft.irfft(np.fft.rfft(above, size) * np.fft.rfft(weights, size), size)
    return body["ambientC"] + filtered[: len(above)]


def check_run_again(case):
    plan, result, name = case["plan"], case["result"], case["name"]
    site = Site(plan)
    site.add_sessions(case["sessions"])
    steps_a_minute = round(60 / plan["stepS"])
    minutes = building(case)
    cars = np.array(
        [site.run_step(list(minute)) for minute in minutes for _ in range(steps_a_minute)]
    )
    supply = np.repeat(minutes, steps_a_minute, axis=0) + cars
    last = result["checkpoints"][-1]
    average = max(1, round(plan["control"]["averageS"] / plan["stepS"]))
    read = max(1, round(plan["control"]["readEveryS"] / plan["stepS"]))
    for line, counted in enumerate(result["lines"]):
        current = supply[:, line]
        starts, lengths = run_lengths(current > plan["supplyLimitA"] + ROUNDING_A)
        require(counted["overSteps"] == lengths.sum(), f"{name}: steps over")
        require(counted["overCount"] == len(lengths), f"{name}: excursions")
        require(counted["longestSteps"] == max(lengths, default=0), f"{name}: longest")
        listed = [
            (start * plan["stepS"], length * plan["stepS"])
            for start, length in zip(starts, lengths, strict=True)
            if length * plan["stepS"] > plan["listExcursionsFromS"]
        ]
        stored = [(e["startS"], e["lengthS"]) for e in result["excursions"] if e["line"] == line]
        require(stored == listed, f"{name}: list of excursions")
        require(close(counted["peakA"], current.reshape(-1, steps_a_minute).mean(axis=1).max()), f"{name}: peak")
        require(close(counted["mostA"], current.max()), f"{name}: most")
        for edge, place, most_name in (("fast", 1, "mostFast"), ("slow", 2, "mostSlow")):
            used, most = used_life(current, plan["fuse"], edge, plan["stepS"])
            require(close(last["lines"][line][place], used), f"{name}: {edge} edge at the end")
            require(close(counted[most_name], most), f"{name}: most of the {edge} edge")
        at = (len(current) - 1) // read * read
        require(
            close(last["lines"][line][0], current[at + 1 - average : at + 1].mean()), f"{name}: last reading"
        )
        for body, now_c, most_c in zip(plan["bodies"], last["bodies"], result["bodiesMostC"], strict=True):
            if body["carries"] == "supply":
                values = temperature(current, body, plan["stepS"])
                # The transform keeps some twelve digits.
                require(close(now_c[line], values[-1], 1e-8), f"{name}: temperature")
                require(close(most_c[line], max(body["ambientC"], values.max()), 1e-8), f"{name}: hottest")


def main():
    path = FOLDER / "cases.json"
    require(path.stat().st_size <= MAX_BYTES, f"cases.json is above {MAX_BYTES} bytes")
    cases = json.loads(path.read_text(encoding="utf-8"))["cases"]
    for case in cases:
        check_stored(case)
    by_name = {case["name"]: case for case in cases}
    for name in RUN_AGAIN:
        check_run_again(by_name[name])
    print(f"{len(cases)} cases hold together; {len(RUN_AGAIN)} were run again and worked out by other means.")


if __name__ == "__main__":
    main()
