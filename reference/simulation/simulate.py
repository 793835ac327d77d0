"""A site run through time, from docs/simulation-model.md alone: every step by itself, nothing skipped.

Plans are plain dictionaries with the names and units of packages/engine/src/simulation/site-plan.ts
(and control.ts, timed-fault.ts). Currents are per line, rms, import positive. Written for clarity: no step
knows more than the lists it is given.
"""

import math
from collections import deque

from sharing import share_room

LEAST_TO_CHARGE_A = 6
FOREVER = math.inf
# What rounding an offer down allows, so that limit and offer together are not over it.
ROUNDING_A = 1e-9


def steps_in(time_s, step_s):
    return math.ceil(time_s / step_s - 1e-9)


class Point:
    """A charge point and the car at it, if any."""

    def __init__(self, plan, delay_steps):
        self.lines = plan["lines"]
        self.rated_a = plan["ratedA"]
        self.offered_a = 0.0
        # What the manager sent at the last steps; "before anything was sent it hears 0".
        self.on_the_way = deque([0.0] * delay_steps)
        self.nothing_heard_since = None
        self.waiting = deque()
        self.session = None
        self.car = None
        self.car_a = 0.0
        self.is_asking = False
        self.arrival = 0
        self.noticed_a = 0.0
        self.to_notice = deque()
        self.draws_from = 0
        self.wanted_kwh = 0.0
        self.delivered_kwh = 0.0
        self.paused_steps = 0
        self.throttled_steps = 0

    def lines_in_use(self):
        return self.lines if self.car is None else self.lines[: self.car["lineCount"]]


class Site:
    def __init__(self, plan):
        self.plan = plan
        control = self.control = plan["control"]
        step_s = self.step_s = plan["stepS"]
        self.average = max(1, steps_in(control["averageS"], step_s))
        self.read = max(1, steps_in(control["readEveryS"], step_s))
        self.decide = steps_in(control["decideEveryS"], step_s)
        self.command = max(1, steps_in(control["commandS"], step_s))
        self.fallback = steps_in(control["fallbackAfterS"], step_s)
        self.reads_late = plan.get("readsLate", False)
        lines = self.lines = range(plan["lineCount"])
        self.points = [Point(point, self.command) for point in plan["points"]]
        count = len(self.points)

        self.step = 0
        self.arrivals = 0
        self.results = []
        self.was_off = False

        # Meter and manager.
        self.window_total = [deque([0.0] * self.average) for _ in lines]
        self.window_cars = [deque([0.0] * self.average) for _ in lines]
        self.reading_total = [0.0 for _ in lines]
        self.reading_cars = [0.0 for _ in lines]
        self.read_at_s = -FOREVER
        self.offer_a = [0.0] * count
        self.held_since_s = [None] * count
        self.paused_since_s = [-FOREVER] * count
        self.was_full = [False] * count

        # The supply, its fuse and cables.
        self.supply_a = [0.0 for _ in lines]
        self.over_steps = [0 for _ in lines]
        self.over_count = [0 for _ in lines]
        self.run_steps = [0 for _ in lines]
        self.longest_steps = [0 for _ in lines]
        self.alone_steps = [0 for _ in lines]
        self.run_alone_steps = [0 for _ in lines]
        self.car_steps = [0 for _ in lines]
        self.run_car_steps = [0 for _ in lines]
        self.excursions = []
        self.minute_sum_a = [0.0 for _ in lines]
        self.peak_a = [-FOREVER for _ in lines]
        self.most_a = [-FOREVER for _ in lines]
        self.fast = [0.0 for _ in lines]
        self.slow = [0.0 for _ in lines]
        self.most_fast = [0.0 for _ in lines]
        self.most_slow = [0.0 for _ in lines]
        self.body_c = [[body["ambientC"] for _ in lines] for body in plan["bodies"]]
        self.body_most_c = [[body["ambientC"] for _ in lines] for body in plan["bodies"]]

    # 1. Comings and goings.

    def add_sessions(self, sessions):
        for session in sorted(sessions, key=lambda session: session["startS"]):
            self.points[self.plan["cars"][session["car"]]["point"]].waiting.append(session)

    def come_and_go(self, now_s):
        for point in self.points:
            if point.session is not None and point.session["untilS"] <= now_s:
                self.end_session(point)
            while point.session is None and point.waiting and point.waiting[0]["startS"] <= now_s:
                session = point.waiting.popleft()
                if session["untilS"] <= now_s:
                    self.results.append({**session, "deliveredKwh": 0.0, "isFull": False})
                else:
                    self.begin_session(point, session)

    def begin_session(self, point, session):
        point.session = session
        point.car = self.plan["cars"][session["car"]]
        point.is_asking = True
        self.was_full[self.points.index(point)] = False
        self.arrivals += 1
        point.arrival = self.arrivals
        point.wanted_kwh = session["wantedKwh"]
        point.delivered_kwh = 0.0
        point.noticed_a = point.offered_a
        point.to_notice = deque([point.offered_a] * steps_in(point.car["response"]["deadS"], self.step_s))
        if point.noticed_a >= LEAST_TO_CHARGE_A:
            point.draws_from = self.step + self.resume_steps(point)

    def end_session(self, point):
        self.results.append(
            {**point.session, "deliveredKwh": point.delivered_kwh, "isFull": not point.is_asking}
        )
        point.session = point.car = None
        point.is_asking = False
        point.car_a = 0.0

    def resume_steps(self, point):
        return steps_in(point.car["response"]["resumeS"], self.step_s)

    def faults_now(self, now_s):
        return [fault for fault in self.plan["faults"] if fault["fromS"] <= now_s < fault["untilS"]]

    # 2. Charge points hear.

    def hear(self, point):
        heard_a = point.on_the_way.popleft()
        if heard_a is not None:
            point.nothing_heard_since = None
            point.offered_a = heard_a
            return
        if point.nothing_heard_since is None:
            point.nothing_heard_since = self.step
        since = point.nothing_heard_since
        if self.control["fallbackA"] is not None and self.step == max(since, since - 1 + self.fallback):
            point.offered_a = min(self.control["fallbackA"], point.rated_a)

    # 3. Cars move.

    def move(self, point, ignores_offer):
        if point.car is None:
            return
        car, response = point.car, point.car["response"]
        before_a = point.noticed_a
        point.to_notice.append(point.offered_a)
        point.noticed_a = point.to_notice.popleft()
        if point.noticed_a >= LEAST_TO_CHARGE_A and before_a < LEAST_TO_CHARGE_A:
            point.draws_from = self.step + self.resume_steps(point)

        left_kwh = point.wanted_kwh - point.delivered_kwh
        most_a = car["onboardA"]
        if left_kwh <= 0:
            most_a = 0.0
        elif left_kwh < car["taperKwh"]:
            most_a = car["onboardA"] * left_kwh / car["taperKwh"]
            if most_a < 0.05 * car["onboardA"]:
                most_a = 0.0
        if most_a == 0:
            point.is_asking = False

        may_draw = point.noticed_a >= LEAST_TO_CHARGE_A and self.step >= point.draws_from
        goal_a = min(point.noticed_a, most_a) if point.is_asking and may_draw else 0.0
        if ignores_offer:
            goal_a = most_a
        change_a = goal_a - point.car_a
        change_a = max(-response["fallAPerS"] * self.step_s, min(response["riseAPerS"] * self.step_s, change_a))
        point.car_a += change_a
        power_w = point.car_a * self.plan["voltageV"] * car["lineCount"]
        point.delivered_kwh += power_w * self.step_s / 3.6e6

        if point.is_asking:
            point.paused_steps += point.noticed_a < LEAST_TO_CHARGE_A
            point.throttled_steps += LEAST_TO_CHARGE_A <= point.noticed_a < min(most_a, point.rated_a)

    # 4. The supply carries.

    def carry(self, building_a, cars_a):
        limit_a = self.plan["supplyLimitA"]
        steps_a_minute = round(60 / self.step_s)
        for line in self.lines:
            current_a = self.supply_a[line] = building_a[line] + cars_a[line]
            if current_a > limit_a + ROUNDING_A:
                self.over_steps[line] += 1
                self.over_count[line] += self.run_steps[line] == 0
                self.run_steps[line] += 1
                self.run_alone_steps[line] += building_a[line] > limit_a + ROUNDING_A
                self.car_steps[line] += cars_a[line] > 0
                self.run_car_steps[line] += cars_a[line] > 0
                self.longest_steps[line] = max(self.longest_steps[line], self.run_steps[line])
            else:
                self.end_excursion(line)
            self.alone_steps[line] += building_a[line] > limit_a + ROUNDING_A
            self.most_a[line] = max(self.most_a[line], current_a)
            self.minute_sum_a[line] += current_a
            if (self.step + 1) % steps_a_minute == 0:
                self.peak_a[line] = max(self.peak_a[line], self.minute_sum_a[line] / steps_a_minute)
                self.minute_sum_a[line] = 0.0

    def end_excursion(self, line):
        run = self.run_steps[line]
        if run * self.step_s > self.plan["listExcursionsFromS"]:
            self.excursions.append(
                {
                    "line": line,
                    "startS": (self.step - run) * self.step_s,
                    "lengthS": run * self.step_s,
                    "aloneS": self.run_alone_steps[line] * self.step_s,
                    "carS": self.run_car_steps[line] * self.step_s,
                }
            )
        self.run_steps[line] = self.run_alone_steps[line] = self.run_car_steps[line] = 0

    # 5. The fuse.

    def wear(self):
        fuse = self.plan["fuse"]
        if fuse is None:
            return
        for line in self.lines:
            current_a = abs(self.supply_a[line])
            for edge, used in (("fast", self.fast), ("slow", self.slow)):
                gates = fuse["band"][edge]
                if current_a >= gates[0][0]:
                    used[line] += self.step_s / time_on_edge(gates, current_a, edge)
                else:
                    used[line] *= math.exp(-self.step_s / fuse["coolingS"])
            self.most_fast[line] = max(self.most_fast[line], self.fast[line])
            self.most_slow[line] = max(self.most_slow[line], self.slow[line])

    # 6. Cables and tails.

    def warm(self):
        for body, now_c, most_c in zip(self.plan["bodies"], self.body_c, self.body_most_c, strict=True):
            share = 1 - math.exp(-self.step_s / body["tauS"])
            for line in self.lines:
                if body["carries"] == "supply":
                    current_a = self.supply_a[line]
                else:
                    point = self.points[body["carries"]]
                    current_a = point.car_a if line in point.lines_in_use() else 0.0
                aim_c = body["ambientC"] + body["riseAtRatedK"] * (current_a / body["ratedA"]) ** 2
                now_c[line] += share * (aim_c - now_c[line])
                most_c[line] = max(most_c[line], now_c[line])

    # 7. The meter.

    def read_meter(self, faults, clock_s):
        kinds = [fault["kind"] for fault in faults]
        if "bus-lost" in kinds or "meter-lost" in kinds:
            return
        self.read_at_s = clock_s
        for line in self.lines:
            self.reading_cars[line] = sum(self.window_cars[line]) / self.average
            if "reading-frozen" not in kinds:
                truth_a = sum(self.window_total[line]) / self.average
                self.reading_total[line] = truth_a * multiple_of(faults, line)

    # 8. and 9. The manager decides.

    def decide_offers(self, clock_s):
        age_s = clock_s - self.read_at_s
        if age_s > 0 and age_s >= self.control["fallbackAfterS"]:
            self.decide_blind(clock_s)
        else:
            self.decide_seeing(clock_s)

    def decide_blind(self, clock_s):
        self.held_since_s = [None] * len(self.points)
        if self.control["fallbackA"] is None:
            return
        for index, point in enumerate(self.points):
            offer_a = 0.0
            if point.is_asking:
                offer_a = self.whole_steps(min(self.control["fallbackA"], point.rated_a))
            if offer_a == 0 and self.offer_a[index] > 0:
                self.paused_since_s[index] = clock_s
                self.was_full[index] = False
            self.offer_a[index] = offer_a

    def decide_seeing(self, clock_s):
        control = self.control
        turn = max(0, math.floor(clock_s / control["turnS"]))
        rooms = self.room()
        shares = share_room(rooms, self.points, control["sharing"], control["minOfferA"], turn)
        for index, share_a in enumerate(shares):
            least_a = min(rooms[line] for line in self.points[index].lines_in_use())
            self.move_offer(index, self.whole_steps(share_a), least_a, clock_s)

    def room(self):
        control, rooms = self.control, []
        for line in self.lines:
            total_a, cars_a = self.reading_total[line], self.reading_cars[line]
            if control["law"]["kind"] == "direct":
                rooms.append(control["limitA"] - control["marginA"] - (total_a - cars_a))
            else:
                offers_a = sum(
                    offer_a
                    for offer_a, point in zip(self.offer_a, self.points, strict=True)
                    if line in point.lines_in_use()
                )
                base_a = min(offers_a, cars_a + max(control["minOfferA"], control["offerStepA"]))
                error_a = control["limitA"] - control["marginA"] - total_a
                gain = control["law"]["gain"] if offers_a > 0 else 1
                rooms.append(base_a + gain * error_a)
        return rooms

    def whole_steps(self, share_a):
        step_a = self.control["offerStepA"]
        offer_a = math.floor(share_a / step_a + 1e-9) * step_a
        return offer_a if offer_a >= self.control["minOfferA"] else 0.0

    def move_offer(self, index, wanted_a, least_a, clock_s):
        control, offer_a = self.control, self.offer_a[index]
        if offer_a == 0:
            spare_a = control["minOfferA"] + control["resumeExtraA"]
            if wanted_a == 0 or (self.was_full[index] and least_a < spare_a):
                self.held_since_s[index] = None
            elif (
                self.has_held(index, control["resumeHoldS"], clock_s)
                and clock_s - self.paused_since_s[index] >= control["minimumOffS"]
            ):
                self.offer_a[index] = wanted_a
                self.held_since_s[index] = None
        elif wanted_a <= offer_a:
            self.offer_a[index] = wanted_a
            self.held_since_s[index] = None
            if wanted_a == 0:
                self.paused_since_s[index] = clock_s
                self.was_full[index] = least_a < control["minOfferA"]
        elif self.has_held(index, control["riseHoldS"], clock_s):
            self.offer_a[index] = min(wanted_a, offer_a + control["riseStepA"])

    def has_held(self, index, hold_s, clock_s):
        """Counted from the first decision that saw it: this one, when none before did."""
        if self.held_since_s[index] is None:
            self.held_since_s[index] = clock_s
        return clock_s - self.held_since_s[index] >= hold_s

    def forget(self):
        count = len(self.points)
        self.offer_a = [0.0] * count
        self.held_since_s = [None] * count
        self.paused_since_s = [-FOREVER] * count
        self.was_full = [False] * count

    # One step.

    def run_step(self, building_a):
        now_s = self.step * self.step_s
        self.come_and_go(now_s)
        faults = self.faults_now(now_s)
        is_off = any(fault["kind"] == "manager-restarted" for fault in faults)
        if self.was_off and not is_off:
            self.forget()
        self.was_off = is_off

        for index, point in enumerate(self.points):
            self.hear(point)
            self.move(
                point,
                any(fault["kind"] == "car-ignores-offer" and fault["point"] == index for fault in faults),
            )
        cars_a = [
            sum(point.car_a for point in self.points if line in point.lines_in_use()) for line in self.lines
        ]
        self.carry(building_a, cars_a)
        self.wear()
        self.warm()

        for line in self.lines:
            self.window_total[line].popleft()
            self.window_total[line].append(self.supply_a[line])
            self.window_cars[line].popleft()
            self.window_cars[line].append(cars_a[line])
        clock_s = now_s + sum(fault["jumpS"] for fault in faults if fault["kind"] == "clock-jump")
        if self.is_due(self.read):
            self.read_meter(faults, clock_s)
        if not is_off and self.is_due(self.decide or self.read):
            self.decide_offers(clock_s)
        for point, offer_a in zip(self.points, self.offer_a, strict=True):
            point.on_the_way.append(None if is_off else offer_a)
        self.step += 1
        return cars_a

    def is_due(self, every):
        return (self.step + self.reads_late) % every == 0

    def finish(self):
        for line in self.lines:
            self.end_excursion(line)
        for point in self.points:
            if point.session is not None:
                self.end_session(point)
            # Those that still wait for the charge point; later ones were never to begin.
            for session in point.waiting:
                if session["startS"] < self.step * self.step_s:
                    self.results.append({**session, "deliveredKwh": 0.0, "isFull": False})


def multiple_of(faults, line):
    multiple = 1.0
    for fault in faults:
        if fault["kind"] == "transformer-reversed" and fault["line"] == line:
            multiple *= -1
        if fault["kind"] == "line-missing" and fault["line"] == line:
            multiple *= 0
        if fault["kind"] == "ratio-wrong":
            multiple *= fault["multiple"]
    return multiple


def time_on_edge(gates, current_a, edge):
    """Straight between gates on double logarithmic paper; the current is not below the first gate."""
    last_a, last_s = gates[-1]
    if current_a >= last_a:
        return last_s if edge == "slow" or current_a == last_a else 0.0
    for (low_a, low_s), (high_a, high_s) in zip(gates, gates[1:], strict=False):
        if current_a < high_a:
            slope = (math.log(high_s) - math.log(low_s)) / (math.log(high_a) - math.log(low_a))
            return math.exp(math.log(low_s) + slope * (math.log(current_a) - math.log(low_a)))
    raise ValueError("gates are not in order")
