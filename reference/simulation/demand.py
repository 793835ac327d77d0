"""Building current by an integer recurrence, so that any language makes the same numbers.

    x ← 16807 · x mod (2³¹ − 1)                       one draw for each minute and line, lines innermost
    current = base[h] + swing[h] · (x mod 4096) / 4096 + (spike if (x div 4096) mod 16 = 0)      [A]

h is the hour of the day. Every operation is exact in integers below 2⁵³ and in doubles.
"""

MODULUS = 2**31 - 1


def building_currents(demand, line_count, days):
    """For each minute the current of each line. [A]"""
    x = demand["seed"]
    minutes = []
    for minute in range(1440 * days):
        hour = minute // 60 % 24
        currents = []
        for _ in range(line_count):
            x = 16807 * x % MODULUS
            spike_a = demand["spikeA"] if x // 4096 % 16 == 0 else 0
            currents.append(demand["baseA"][hour] + demand["swingA"][hour] * (x % 4096) / 4096 + spike_a)
        minutes.append(currents)
    return minutes
