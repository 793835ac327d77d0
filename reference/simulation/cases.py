"""The days that are run: plans, sessions, demand. Scenarios of our own; the fuse bands and ratings are drawn for the purpose."""

HOUR = 3600
NEVER_S = 1e9

CONTROL = {
    "limitA": 60,
    "marginA": 1.3,
    "law": {"kind": "direct"},
    "averageS": 1,
    "readEveryS": 1,
    "decideEveryS": 0,
    "commandS": 2,
    "minOfferA": 6,
    "offerStepA": 1,
    "riseHoldS": 30,
    "riseStepA": 2,
    "resumeExtraA": 3,
    "resumeHoldS": 60,
    "minimumOffS": 90,
    "fallbackA": None,
    "fallbackAfterS": 45,
    "sharing": "equal",
    "turnS": 900,
}
BAND = {
    "fast": [[50, 3600], [72, 40], [110, 2], [400, 0.01]],
    "slow": [[58, 3600], [90, 90], [150, 3], [500, 0.02]],
}
FUSE = {"band": BAND, "coolingS": 900}


def body(carries, rated_a, tau_s, ambient_c=25):
    return {
        "id": f"carries-{carries}",
        "carries": carries,
        "ratedA": rated_a,
        "tauS": tau_s,
        "ambientC": ambient_c,
        "riseAtRatedK": 40,
        "limitC": 70,
    }


def car(index, point, onboard_a, line_count, taper_kwh=0, dead_s=2, fall=8, rise=3, resume_s=6):
    return {
        "id": f"car-{index}",
        "point": point,
        "onboardA": onboard_a,
        "lineCount": line_count,
        "response": {"deadS": dead_s, "fallAPerS": fall, "riseAPerS": rise, "resumeS": resume_s},
        "taperKwh": taper_kwh,
    }


def point(index, lines, rated_a=32):
    return {"id": f"point-{index}", "lines": lines, "ratedA": rated_a}


def session(car_index, start_h, until_h, wanted_kwh):
    return {
        "car": car_index,
        "startS": round(start_h * HOUR),
        "untilS": round(until_h * HOUR),
        "wantedKwh": wanted_kwh,
    }


def plan(points, cars, *, line_count=1, step_s=1, supply_limit_a=60, bodies=(), faults=(), **control):
    return {
        "lineCount": line_count,
        "stepS": step_s,
        "voltageV": 230,
        "supplyLimitA": supply_limit_a,
        "listExcursionsFromS": 120,
        "control": {**CONTROL, **control},
        "points": points,
        "cars": cars,
        "fuse": FUSE,
        "bodies": list(bodies),
        "faults": list(faults),
    }


def fault(kind, from_h, until_h, **rest):
    return {"kind": kind, "fromS": round(from_h * HOUR), "untilS": round(until_h * HOUR), **rest}


def by_hour(night, morning, noon, evening):
    """Ampere for each hour of the day: 0 to 6, 6 to 10, 10 to 16, 16 to 24."""
    return [night] * 6 + [morning] * 4 + [noon] * 6 + [evening] * 8


BUSY = {"baseA": by_hour(3, 12, -9, 22), "swingA": by_hour(4, 20, 8, 22), "spikeA": 17}
QUIET = {"baseA": by_hour(2, 8, 4, 14), "swingA": by_hour(2, 9, 5, 12), "spikeA": 11}
MIXED_POINTS = [point(0, [1], 32), point(1, [0, 1, 2], 16)]


def cases():
    yield {
        "name": "one-point",
        "what": "Single-phase, direct law, every reading at once, two days.",
        "days": 2,
        "demand": {"seed": 101, **BUSY},
        "plan": plan(
            [point(0, [0])],
            [car(0, 0, 32, 1)],
            bodies=[body("supply", 80, 400), body(0, 36, 240)],
        ),
        "sessions": [session(0, 7.2, 9, 5), session(0, 17.71, 31.5, 30), session(0, 36, 40.25, 4)],
    }
    yield {
        "name": "mixed-points",
        "what": "Three lines, a single-phase and a three-phase point, max-min with turns, a slow chain, tapering cars.",
        "days": 1,
        "demand": {"seed": 202, **BUSY},
        "plan": plan(
            MIXED_POINTS,
            [car(0, 0, 32, 1, 1.5, 3, 5, 1.5, 12), car(1, 1, 16, 3, 4, 0, 2.5, 0.7, 25), car(2, 1, 20, 2, 0, 5)],
            line_count=3,
            supply_limit_a=40,
            limitA=40,
            averageS=10,
            decideEveryS=2,
            commandS=3,
            sharing="max-min",
            turnS=700,
            bodies=[body("supply", 50, 600), body(1, 20, 300, 30)],
        ),
        # The second car of point 1 waits for the first to leave; the third would begin after its own end.
        "sessions": [
            session(0, 8, 13, 8),
            session(1, 6.5, 15, 40),
            session(2, 14, 18.5, 9),
            session(1, 16, 18.25, 9),
            session(0, 16.2, 24, 22),
            session(1, 19, 30, 16),
        ],
    }
    yield {
        "name": "three-equal",
        "what": "Three points, the same for all, decided every 4 s on a reading every 3 s.",
        "days": 1,
        "demand": {"seed": 303, **QUIET},
        "plan": plan(
            [point(0, [0]), point(1, [0, 1, 2]), point(2, [2], 20)],
            [car(0, 0, 32, 1), car(1, 1, 32, 3, 2, 1, 4, 1), car(2, 2, 16, 1, 1, 0, 16, 16, 0)],
            line_count=3,
            supply_limit_a=32,
            limitA=32,
            averageS=6,
            readEveryS=3,
            decideEveryS=4,
            sharing="equal",
            turnS=600,
            bodies=[body("supply", 40, 500)],
        ),
        "sessions": [
            session(0, 0.5, 8, 14),
            session(1, 1, 9, 35),
            session(2, 1.75, 12, 10),
            session(2, 16, 23, 9),
            session(1, 16.5, 24, 20),
            session(0, 17, 24, 12),
        ],
    }
    yield {
        "name": "first-come",
        "what": "Three points in order of arrival, offers in half amperes, a reading every 5 s.",
        "days": 1,
        "demand": {"seed": 404, **QUIET},
        "plan": plan(
            [point(0, [0]), point(1, [0]), point(2, [0], 20)],
            [car(0, 0, 32, 1), car(1, 1, 16, 1, 2, 1, 4, 1), car(2, 2, 20, 1, 1, 0, 16, 16, 0)],
            supply_limit_a=50,
            limitA=50,
            averageS=0,
            readEveryS=5,
            offerStepA=0.5,
            riseStepA=1.5,
            sharing="first-come",
            bodies=[body("supply", 63, 300), body(2, 25, 200)],
        ),
        "sessions": [
            session(2, 0.5, 8, 25),
            session(1, 1, 9, 14),
            session(0, 1.5, 6, 10),
            session(0, 15, 23, 24),
            session(1, 15.5, 24, 12),
            session(2, 16, 24, 12),
        ],
    }
    for name, fallback_a, what in (
        ("faults", 8.6, "Faults of the chain, the manager and a car in time, with a fallback."),
        ("faults-held", None, "The same faults without a fallback: the last offer is held."),
    ):
        yield {
            "name": name,
            "what": what,
            "days": 1,
            "demand": {"seed": 505, **BUSY},
            "plan": plan(
                MIXED_POINTS,
                [car(0, 0, 32, 1, 1), car(1, 1, 16, 3, 3, 1, 3, 1)],
                line_count=3,
                supply_limit_a=50,
                limitA=50,
                averageS=4,
                readEveryS=5,
                commandS=4,
                sharing="max-min",
                fallbackA=fallback_a,
                bodies=[body("supply", 55, 350)],
                faults=[
                    fault("reading-frozen", 1.5, 2),
                    fault("bus-lost", 2.5, 3),
                    fault("manager-restarted", 3.25, 3.5),
                    fault("manager-restarted", 3.75, 3.7542),
                    fault("transformer-reversed", 4.1, 4.8, line=1),
                    fault("ratio-wrong", 6.2, 6.9, multiple=0.4),
                    fault("ratio-wrong", 7.1, 7.4, multiple=2.5),
                    fault("line-missing", 7.5, 8.4, line=0),
                    fault("transformer-reversed", 8, 8.4, line=2),
                    fault("clock-jump", 8.7, 9, jumpS=1000),
                    fault("clock-jump", 9.2, 9.5, jumpS=-1000),
                    fault("car-ignores-offer", 17, 17.5, point=0),
                    fault("meter-lost", 18, 18.0042),
                    fault("bus-lost", 18.25, 18.75),
                    fault("reading-frozen", 18.5, 19.25),
                    fault("manager-restarted", 20, 21),
                    fault("car-ignores-offer", 20.5, NEVER_S / HOUR, point=1),
                ],
            ),
            "sessions": [
                session(0, 1, 5, 20),
                session(1, 1.25, 5.5, 25),
                session(0, 6, 10, 22),
                session(1, 6.1, 10.5, 30),
                session(0, 16, 24, 40),
                session(1, 16.2, 24, 60),
                session(1, 20.25, 24, 9),
            ],
        }
    yield {
        "name": "integrating",
        "what": "The integrating law at a calm gain, two points.",
        "days": 1,
        "demand": {"seed": 607, **BUSY},
        "plan": plan(
            [point(0, [0]), point(1, [0], 20)],
            [car(0, 0, 20, 1, 1), car(1, 1, 32, 1, 0, 3, 4, 1)],
            law={"kind": "integrating", "gain": 0.3},
            averageS=3,
            readEveryS=5,
            decideEveryS=10,
            fallbackA=6,
            riseHoldS=0,
            riseStepA=4,
            bodies=[body("supply", 63, 300)],
            faults=[fault("meter-lost", 9, 9.25)],
        ),
        "sessions": [session(0, 0.2, 10, 30), session(1, 2, 9.5, 12), session(0, 15, 24, 20), session(1, 17, 24, 30)],
    }
    yield {
        "name": "half-second",
        "what": "Steps of half a second, delays that are not whole steps.",
        "days": 1,
        "demand": {"seed": 707, **BUSY},
        "plan": plan(
            MIXED_POINTS,
            [car(0, 0, 32, 1, 1, 1.3, 7, 2.2, 3.6), car(1, 1, 16, 3, 2, 0.4, 1, 1, 10)],
            line_count=3,
            step_s=0.5,
            supply_limit_a=45,
            limitA=45,
            averageS=2.5,
            readEveryS=1.5,
            decideEveryS=2,
            commandS=0.7,
            riseHoldS=12.5,
            sharing="equal",
            fallbackA=7,
            fallbackAfterS=10.2,
            bodies=[body("supply", 50, 250), body(0, 32, 120)],
            faults=[fault("bus-lost", 7, 7.5), fault("manager-restarted", 18, 18.25)],
        ),
        "sessions": [session(0, 6.5, 14, 18), session(1, 6.75, 13, 25), session(0, 17.0003, 24, 22), session(1, 17.5, 24, 16)],
    }
