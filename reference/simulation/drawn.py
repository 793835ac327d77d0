"""Days drawn at random, in long steps so that many can be run: rough settings, short stays, faults on top of each other."""

from cases import CONTROL, FUSE, NEVER_S, body

FAULTS = [
    "reading-frozen",
    "bus-lost",
    "meter-lost",
    "manager-restarted",
    "clock-jump",
    "transformer-reversed",
    "line-missing",
    "ratio-wrong",
    "car-ignores-offer",
]


def drawn_case(rng, name):
    step_s = rng.choice([10, 20, 30, 30, 60])
    line_count = rng.choice([1, 3])
    limit_a = rng.choice([25, 32, 40, 50, 60])
    points = [drawn_point(rng, index, line_count) for index in range(rng.choice([1, 1, 2, 2, 3, 4]))]
    users = list(range(len(points))) + [rng.randrange(len(points)) for _ in range(rng.randint(0, 2))]
    cars = [drawn_car(rng, index, user, points[user], step_s) for index, user in enumerate(users)]
    bodies = [body("supply", 50, 400)]
    if rng.random() < 0.5:
        bodies.append(body(rng.randrange(len(points)), 30, 200))
    return {
        "name": name,
        "what": "Drawn at random.",
        "days": 1,
        "demand": drawn_demand(rng, limit_a),
        "plan": {
            "lineCount": line_count,
            "stepS": step_s,
            "readsLate": rng.random() < 0.3,
            "voltageV": 230,
            "supplyLimitA": limit_a,
            "listExcursionsFromS": 10 * step_s,
            "control": drawn_control(rng, limit_a, step_s),
            "points": points,
            "cars": cars,
            "fuse": FUSE if rng.random() < 0.8 else None,
            "bodies": bodies,
            "faults": [
                drawn_fault(rng, line_count, len(points)) for _ in range(rng.choice([0, 0, 1, 3, 6]))
            ],
        },
        "sessions": [session for index in range(len(cars)) for session in drawn_sessions(rng, index)],
    }


def drawn_time(rng, most_steps, step_s):
    """Often nothing, mostly whole steps, and sometimes not."""
    steps = rng.choice([0, rng.randint(0, most_steps), rng.randint(0, most_steps)])
    return steps * (step_s if rng.random() < 0.8 else 7.3)


def drawn_point(rng, index, line_count):
    lines = [0] if line_count == 1 else rng.choice([[0], [1], [2], [0, 1, 2], [0, 1, 2], [1, 0, 2]])
    return {"id": f"point-{index}", "lines": lines, "ratedA": rng.choice([16, 20, 32])}


def drawn_car(rng, index, user, point, step_s):
    return {
        "id": f"car-{index}",
        "point": user,
        "onboardA": rng.choice([6.5, 10, 16, 20, 32]),
        "lineCount": rng.randint(1, len(point["lines"])),
        "response": {
            "deadS": drawn_time(rng, 5, step_s),
            "fallAPerS": rng.choice([0.05, 0.2, 1, 50]),
            "riseAPerS": rng.choice([0.02, 0.1, 1, 50]),
            "resumeS": drawn_time(rng, 6, step_s),
        },
        "taperKwh": rng.choice([0, 0, 1, 3]),
    }


def drawn_control(rng, limit_a, step_s):
    control = {
        **CONTROL,
        "limitA": limit_a,
        "marginA": rng.choice([0.7, 1.3]),
        "law": {"kind": "direct"}
        if rng.random() < 0.75
        else {"kind": "integrating", "gain": rng.choice([0.1, 0.3, 1])},
        "averageS": drawn_time(rng, 12, step_s),
        "readEveryS": max(1, drawn_time(rng, 12, step_s)),
        "decideEveryS": drawn_time(rng, 6, step_s),
        "commandS": drawn_time(rng, 4, step_s),
        "offerStepA": rng.choice([1, 0.5, 0.1]),
        "riseHoldS": drawn_time(rng, 6, step_s),
        "riseStepA": rng.choice([1, 4, 50]),
        "resumeExtraA": rng.choice([0, 1, 4]),
        "resumeHoldS": drawn_time(rng, 8, step_s),
        "minimumOffS": drawn_time(rng, 10, step_s),
        "fallbackA": rng.choice([None, 0, 6, 8.6, 10, 20, 63]),
        "sharing": rng.choice(["equal", "max-min", "first-come"]),
        "turnS": rng.choice([60, 300, 900, 3600]),
    }
    slowest_s = max(control["readEveryS"], control["decideEveryS"], step_s)
    return {**control, "fallbackAfterS": rng.choice([0, 0.5, 1, 2, 5]) * slowest_s}


def drawn_fault(rng, line_count, point_count):
    kind = rng.choice(FAULTS)
    from_s = rng.randrange(80_000)
    fault = {"kind": kind, "fromS": from_s, "untilS": from_s + rng.choice([30, 300, 3000, 30_000, NEVER_S])}
    if kind == "clock-jump":
        fault["jumpS"] = rng.choice([500, 3600, -100, -20, 90])
    if kind in ("transformer-reversed", "line-missing"):
        fault["line"] = rng.randrange(line_count)
    if kind == "ratio-wrong":
        fault["multiple"] = rng.choice([0.5, 2, 0.1])
    if kind == "car-ignores-offer":
        fault["point"] = rng.randrange(point_count)
    return fault


def drawn_demand(rng, limit_a):
    """Two days in five change by the hour only, so that everything comes to rest between."""
    is_still = rng.random() < 0.4
    return {
        "seed": rng.randint(1, 1_000_000),
        "baseA": [rng.choice([-8, 2, 5, 12, limit_a - 20, limit_a - 9]) for _ in range(24)],
        "swingA": [0 if is_still else rng.choice([0, 3, 8, 20]) for _ in range(24)],
        "spikeA": 0 if is_still else rng.choice([0, 11, 25]),
    }


def drawn_sessions(rng, car):
    """Some begin before the one before has ended, or after the day."""
    sessions, at_h = [], rng.uniform(0, 10)
    for _ in range(rng.randint(1, 4)):
        start_h = at_h + rng.uniform(0, 4)
        until_h = start_h + rng.uniform(0.1, 8)
        sessions.append(
            {
                "car": car,
                "startS": round(start_h * 3600, 1),
                "untilS": round(until_h * 3600, 1),
                "wantedKwh": round(rng.choice([0, 1, 5, 12, 30, 100]) + rng.random(), 3),
            }
        )
        at_h = rng.choice([start_h, until_h])
    return sessions
