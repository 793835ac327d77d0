"""What averaging hides in fifteen days of one house's one-minute current, and how many cars charge at once.

Reads ../../examples/terraced-house/demand.csv and writes demand.json beside this file. Written from the
definitions in README.md, without sight of the TypeScript.
"""

import json
import platform
from pathlib import Path

import numpy as np
import pandas as pd
import scipy
from scipy.stats import binom

HERE = Path(__file__).parent
SOURCE = HERE / "../../examples/terraced-house/demand.csv"
WINDOWS_MIN = [1, 5, 10, 15, 30, 60]
THRESHOLDS_A = [15, 20, 25, 30]
QUANTILES = [0.05, 0.25, 0.5, 0.75, 0.95]


def read() -> pd.Series:
    """Current of each minute of 17 to 31 December 2006; NaN where a minute is absent. [A]"""
    rows = pd.read_csv(SOURCE, sep=";")
    when = pd.to_datetime(rows["Date"] + " " + rows["Time"], format="%d/%m/%Y %H:%M:%S")
    current = pd.Series(rows["Global_intensity"].to_numpy(float), index=when)
    grid = pd.date_range("2006-12-17 00:00", "2006-12-31 23:59", freq="min")
    return current.reindex(grid)


def quantiles(values) -> list[float]:
    return [float(value) for value in np.quantile(np.asarray(values), QUANTILES)]


def runs(above: np.ndarray) -> list[int]:
    """Lengths of the unbroken runs of true."""
    edges = np.flatnonzero(np.diff(np.concatenate([[0], above.astype(int), [0]])))
    return [int(length) for length in edges[1::2] - edges[::2]]


def main() -> None:
    minute = read()
    means = {window: minute.resample(f"{window}min").mean() for window in WINDOWS_MIN}
    daily = {window: mean.groupby(mean.index.date).max() for window, mean in means.items()}
    averaging = [
        {
            "averagingMin": window,
            "maxA": float(mean.max()),
            **{
                name: float(np.nanpercentile(mean, percent))
                for name, percent in [("p999A", 99.9), ("p99A", 99), ("p95A", 95), ("p50A", 50)]
            },
        }
        for window, mean in means.items()
    ]
    ratios = [
        {
            "averagingMin": window,
            "low": float((daily[1] / daily[window]).min()),
            "quantiles": quantiles(daily[1] / daily[window]),
            "high": float((daily[1] / daily[window]).max()),
        }
        for window in WINDOWS_MIN
    ]
    half_hours = means[30]
    inside = minute.resample("30min").max() / half_hours
    busiest = inside[half_hours >= half_hours.quantile(0.9)]
    rises = minute.diff().dropna()
    over = []
    for threshold in THRESHOLDS_A:
        lengths = runs((minute > threshold).to_numpy())
        over.append(
            {
                "thresholdA": threshold,
                "fromMinutesMin": int((minute > threshold).sum()),
                "fromHalfHoursMin": int((half_hours > threshold).sum()) * 30,
                "runs": len(lengths),
                "longestRunMin": max(lengths),
                "medianRunMin": float(np.median(lengths)),
            }
        )
    # Cars that each charge with one probability, and how many do at the same time: 95 % points.
    cars = [
        {
            "cars": count,
            "chargingShare": 0.175,
            "rateKw": 7.2,
            "charging95": int(binom.ppf(0.95, count, 0.175)),
            "belowShare": float(binom.cdf(binom.ppf(0.95, count, 0.175) - 1, count, 0.175)),
            "upToShare": float(binom.cdf(binom.ppf(0.95, count, 0.175), count, 0.175)),
        }
        for count in [1, 2, 5, 10, 20, 50, 100, 500]
    ]
    result = {
        "madeWith": {
            "python": platform.python_version(),
            "numpy": np.__version__,
            "pandas": pd.__version__,
            "scipy": scipy.__version__,
        },
        "present": int(minute.notna().sum()),
        "absent": int(minute.isna().sum()),
        "averaging": averaging,
        "ratios": ratios,
        "insideHalfHour": {"all": quantiles(inside), "busiestTenth": quantiles(busiest), "high": float(inside.max())},
        "over": over,
        "rises": {
            "p99A": float(np.percentile(rises, 99)),
            "p999A": float(np.percentile(rises, 99.9)),
            "maxA": float(rises.max()),
            "over10A": int((rises > 10).sum()),
        },
        "cars": cars,
    }
    (HERE / "demand.json").write_text(json.dumps(result, indent=2) + "\n")


main()
