"""Write cases.json: plans, and what simulate.py makes of them."""

import json
import math
import platform
import random
import sys
from pathlib import Path

from cases import cases
from demand import building_currents
from drawn import drawn_case
from simulate import Site

FOLDER = Path(__file__).resolve().parent
CHECK_EVERY_S = 1800
DRAWN_CHECK_EVERY_S = 21_600
DRAWN_SEED = 20_261
DRAWN_COUNT = 34
DIGITS = 12
# Rounding errors must not decide a case: each is run again with a building disturbed by this much.
DISTURBANCE_A = 1e-11
DISTURBED_TOLERANCE = 1e-8

CONVENTIONS = (
    "Names and units of packages/engine/src/simulation/site-plan.ts; lines and points count from 0. A checkpoint is "
    "taken at the end of the last step before atS. points: car current, offer noticed, offer made [A], delivered [kWh], "
    "for a point without car only the offer made has a meaning and the rest is null. lines: reading as the meter shows "
    "it [A], used life of the fuse on the fast and the slow edge [1]; bodies: temperature of each line [°C]; sums: since "
    "the checkpoint before, by line, building and cars together, then cars alone, over all steps [A]; moment: the sum "
    "over minutes, counted from 1, of the minute's number times the cars' sum, all lines [A]."
)


def rounded(value):
    if isinstance(value, float):
        return float(f"{value:.{DIGITS}g}")
    if isinstance(value, dict):
        return {key: rounded(item) for key, item in value.items()}
    if isinstance(value, (list, tuple)):
        return [rounded(item) for item in value]
    return value


def run(case, check_every_s, disturbance_a=0.0):
    plan = case["plan"]
    site = Site(plan)
    site.add_sessions(case["sessions"])
    steps_a_minute = round(60 / plan["stepS"])
    minutes_a_check = check_every_s // 60
    checkpoints, days = [], []
    supply_sum = [0.0 for _ in site.lines]
    cars_sum = [0.0 for _ in site.lines]
    moment = 0.0
    currents = building_currents(case["demand"], plan["lineCount"], case["days"])
    for minute, building_a in enumerate(currents, start=1):
        building_a = [current_a + disturbance_a for current_a in building_a]
        for _ in range(steps_a_minute):
            cars_a = site.run_step(building_a)
            for line in site.lines:
                supply_sum[line] += site.supply_a[line]
                cars_sum[line] += cars_a[line]
                moment += minute * cars_a[line]
        if minute % minutes_a_check == 0:
            checkpoints.append(
                {
                    "atS": minute * 60,
                    "points": [
                        [None, None, point.offered_a, None]
                        if point.car is None
                        else [point.car_a, point.noticed_a, point.offered_a, point.delivered_kwh]
                        for point in site.points
                    ],
                    "lines": [
                        [site.reading_total[line], site.fast[line], site.slow[line]] for line in site.lines
                    ],
                    "bodies": site.body_c,
                    "sums": [supply_sum, cars_sum],
                    "moment": moment,
                }
            )
            checkpoints[-1] = json.loads(json.dumps(checkpoints[-1]))
            supply_sum = [0.0 for _ in site.lines]
            cars_sum = [0.0 for _ in site.lines]
    site.finish()
    return {
        "checkpoints": checkpoints,
        "sessions": site.results,
        "lines": [
            {
                "overSteps": site.over_steps[line],
                "overCount": site.over_count[line],
                "longestSteps": site.longest_steps[line],
                "aloneSteps": site.alone_steps[line],
                "carSteps": site.car_steps[line],
                "peakA": site.peak_a[line],
                "mostA": site.most_a[line],
                "mostFast": site.most_fast[line],
                "mostSlow": site.most_slow[line],
            }
            for line in site.lines
        ],
        "excursions": site.excursions,
        "bodiesMostC": site.body_most_c,
        "points": [
            {"pausedSteps": point.paused_steps, "throttledSteps": point.throttled_steps}
            for point in site.points
        ],
    }


def furthest(a, b, at=""):
    """Where two results differ most, relative to 1 or to their size."""
    if isinstance(a, dict):
        return max((furthest(a[key], b[key], f"{at}.{key}") for key in a), default=(0, at))
    if isinstance(a, list):
        if len(a) != len(b):
            return math.inf, at
        return max((furthest(x, y, f"{at}[{i}]") for i, (x, y) in enumerate(zip(a, b))), default=(0, at))
    if isinstance(a, (int, float)) and isinstance(b, (int, float)):
        return abs(a - b) / max(1, abs(a), abs(b)), at
    return (0 if a == b else math.inf), at


def checked(case, check_every_s):
    """The case with its result, or None where rounding errors decide it."""
    result = run(case, check_every_s)
    # A fuse that is long gone says nothing more, and a time of 0 leaves no number.
    if any(not line["mostFast"] < 1e6 for line in result["lines"]):
        print(f"{case['name']:14} left out: beyond the fuse")
        return None
    for sign in (1, -1):
        miss, at = furthest(result, run(case, check_every_s, sign * DISTURBANCE_A))
        if miss > DISTURBED_TOLERANCE:
            print(f"{case['name']:14} left out: rounding decides {at}")
            return None
    over = [line["overSteps"] for line in result["lines"]]
    print(f"{case['name']:14} over {over} fast {max(line['mostFast'] for line in result['lines']):.3f}")
    return {**case, "checkEveryS": check_every_s, "result": rounded(result)}


def drawn_cases(count, seed):
    rng = random.Random(seed)
    return [drawn_case(rng, f"drawn-{number}") for number in range(1, count + 1)]


def write(path, written):
    document = {
        "conventions": CONVENTIONS,
        "versions": {"python": platform.python_version()},
        "cases": [case for case in written if case is not None],
    }
    text = json.dumps(document, separators=(",", ":"), ensure_ascii=False)
    path.write_text(text.replace('{"name"', '\n{"name"') + "\n", encoding="utf-8")


def main():
    """Without arguments cases.json; with a file, a count and a seed, that many other drawn days into that file."""
    if len(sys.argv) == 4:
        path, count, seed = Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3])
        write(path, [checked(case, DRAWN_CHECK_EVERY_S) for case in drawn_cases(count, seed)])
        return
    written = [checked(case, CHECK_EVERY_S) for case in cases()]
    if None in written:
        raise SystemExit("Choose another seed for the days left out.")
    written += [checked(case, DRAWN_CHECK_EVERY_S) for case in drawn_cases(DRAWN_COUNT, DRAWN_SEED)]
    write(FOLDER / "cases.json", written)


if __name__ == "__main__":
    main()
