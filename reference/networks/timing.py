"""How long this project's four-wire flow and OpenDSS take for the same networks, timed in turn in one run.

    python timing.py        from this folder, with the packages of requirements.txt and Node

OpenDSS is timed twice: for the whole of describing a network and solving it from a flat start, and for the solution
alone, with what it stores between calls. Both go through its Python binding; each command costs it some text. The
project's solver is timed from its plain network object, described anew each time. Rounds alternate so that a machine
that slows down slows down both.
"""

import json
import statistics
import subprocess
import time

import feeder as fd
import four_wire as engine

ROUNDS = 5
PASSES = 40
TOLERANCE = 1e-13


def describe(network: dict) -> None:
    """The network in OpenDSS, not solved."""
    engine.build_source()
    for section in network["sections"]:
        engine.build_section(section)
    for load in network["loads"]:
        engine.build_load(load)


def opendss_pass(networks: list[dict]) -> tuple[float, float]:
    """Seconds for all networks: described and solved, and solved only."""
    whole = alone = 0.0
    for network in networks:
        start = time.perf_counter()
        describe(network)
        engine.command("set voltagebases=[0.4]")
        engine.command("calcvoltagebases")
        engine.command(f"set mode=snapshot controlmode=off algorithm=normal maxiterations=2000 tolerance={TOLERANCE}")
        solve = time.perf_counter()
        engine.command("solve")
        end = time.perf_counter()
        whole += end - start
        alone += end - solve
    return whole, alone


def own_passes() -> list[float]:
    """Seconds for all networks, pass by pass, by the project's solver."""
    command = ["node", "scripts/bench-flow.mjs", str(PASSES)]
    done = subprocess.run(command, cwd=fd.HERE.parent.parent, check=True, capture_output=True, text=True)
    return json.loads(done.stdout)["seconds"]


def main() -> None:
    """Print medians and ratios."""
    networks = json.loads((fd.HERE / "four_wire.json").read_text())["networks"]
    whole, alone, own = [], [], []
    for _ in range(ROUNDS):
        for one_whole, one_alone in (opendss_pass(networks) for _ in range(PASSES)):
            whole.append(one_whole)
            alone.append(one_alone)
        own += own_passes()
    ours, theirs, solving = (1000 * statistics.median(times) for times in (own, whole, alone))
    print(f"{len(networks)} networks, one pass, median of {len(own)}")
    print(f"  this project              {ours:8.2f} ms")
    print(f"  OpenDSS, described+solved {theirs:8.2f} ms   {theirs / ours:6.1f} times as long")
    print(f"  OpenDSS, solved only      {solving:8.2f} ms   {solving / ours:6.1f} times as long")


if __name__ == "__main__":
    main()
