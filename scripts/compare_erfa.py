#!/usr/bin/env python3
"""What one apparent Sun costs here, beside the same routines of ERFA in C, in one run.

Usage, from the top of the repository:
    pip install numpy pyerfa
    python3 scripts/compare_erfa.py

ERFA is timed through pyerfa on arrays of epochs, where Python's own cost vanishes;
ours by `cargo bench --bench sun`. The quickest of many runs is compared, which a busy
machine disturbs least; but interpolation, whose cost comes in lumps when a stretch is
computed, is given by the mean over all runs, beside the mean of the full computation.

The routines that `apparent_sun` stands for are, once each: epv00 (the Earth; its
velocities give light time without a second call), ab (aberration), pnm00b's parts
(precession and nutation 2000B) and gst06 (sidereal time from that matrix). With
nutation 2000A instead (pnm06a), ERFA is shown too, for what it would cost.
"""
import json
import os
import pathlib
import subprocess
import time

import erfa
import numpy as np

EPOCHS = 10_000
REPEATS = 15


def microseconds(function, *arguments):
    """The quickest run of a vectorised routine, per epoch."""
    best = float("inf")
    for _ in range(REPEATS):
        start = time.perf_counter()
        function(*arguments)
        best = min(best, time.perf_counter() - start)
    return best / EPOCHS * 1e6


def erfa_costs():
    whole = np.full(EPOCHS, 2461000.5)
    days = np.arange(EPOCHS) * 0.1
    heliocentric, barycentric = erfa.epv00(whole, days)
    sun = -heliocentric["p"]
    distance = np.sqrt((sun**2).sum(-1))
    velocity = barycentric["v"] / 173.1446326846693
    lorentz = np.sqrt(1.0 - (velocity**2).sum(-1))
    matrix = erfa.pnm00b(whole, days)
    return {
        "epv00": microseconds(erfa.epv00, whole, days),
        "ab": microseconds(erfa.ab, sun / distance[:, None], velocity, distance, lorentz),
        "pnm00b": microseconds(erfa.pnm00b, whole, days),
        "gst06": microseconds(erfa.gst06, whole, days, whole, days, matrix),
        "pnm06a": microseconds(erfa.pnm06a, whole, days),
    }


def our_costs():
    subprocess.run(["cargo", "bench", "--bench", "sun", "--", "--noplot"], check=True,
                   stdout=subprocess.DEVNULL)
    target = pathlib.Path(os.environ.get("CARGO_TARGET_DIR", "target"))
    costs = {}
    for sample in sorted(target.glob("criterion/**/new/sample.json")):
        name = json.loads((sample.parent / "benchmark.json").read_text())["full_id"]
        data = json.loads(sample.read_text())
        quickest = min(t / n for t, n in zip(data["times"], data["iters"]))
        mean = sum(data["times"]) / sum(data["iters"])
        costs[name] = (quickest / 1000.0, mean / 1000.0)
    return costs


def main():
    before, ours, after = erfa_costs(), our_costs(), erfa_costs()
    theirs = {name: min(before[name], after[name]) for name in before}
    print("ERFA in C, µs an epoch:")
    for name, cost in theirs.items():
        print(f"  {name:40s}{cost:10.3f}")
    common = theirs["epv00"] + theirs["ab"] + theirs["gst06"]
    print(f"  {'together, nutation 2000B':40s}{common + theirs['pnm00b']:10.3f}")
    print(f"  {'together, nutation 2000A':40s}{common + theirs['pnm06a']:10.3f}")
    print("Noonwedge, µs, quickest and mean:")
    for name, (quickest, mean) in ours.items():
        print(f"  {name:40s}{quickest:10.3f}{mean:10.3f}")
    quickest, mean = ours["sun/computed"]
    print(f"computed / ERFA with 2000B: {quickest / (common + theirs['pnm00b']):.2f}")
    for name, (_, cost) in ours.items():
        if name.startswith("sun/interpolated"):
            print(f"{name.split(', ')[1]}: interpolated / computed: {cost / mean:.3f}")


if __name__ == "__main__":
    main()
