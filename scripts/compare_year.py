#!/usr/bin/env python3
"""What a year's table costs here, beside a general astronomy library on arrays, in one run.

Usage, from the top of the repository:
    pip install skyfield skyfield-data
    python3 scripts/compare_year.py

Both make 365 days of rise, noon, set, and of declination and equation of time at noon, for one
place. The library is skyfield with JPL DE421, its files already read, its searches and positions
vectorised over the year; ours is `cargo bench --bench year`, a year of which nothing is known yet.
The library is timed before and after ours; of each the quickest and the mean run are told.
"""
import json
import os
import pathlib
import subprocess
import time

from skyfield import almanac
from skyfield.api import load, load_file, wgs84
from skyfield_data import get_skyfield_data_path

REPEATS = 15


def library(data):
    folder = pathlib.Path(data)
    ephemeris = load_file(str(folder / "de421.bsp"))
    timescale = load.timescale(builtin=True)
    sun, earth = ephemeris["sun"], ephemeris["earth"]
    observer = earth + wgs84.latlon(31.60, 48.35)
    start, end = timescale.utc(2025, 12, 31, 20, 30), timescale.utc(2026, 12, 31, 20, 30)

    def year():
        almanac.find_risings(observer, sun, start, end, horizon_degrees=-50 / 60)
        almanac.find_settings(observer, sun, start, end, horizon_degrees=-50 / 60)
        noons = almanac.find_transits(observer, sun, start, end)
        right_ascension, declination, _ = earth.at(noons).observe(sun).apparent().radec("date")
        universal_hours = (noons.ut1 - 0.5) % 1.0 * 24.0
        equation = (noons.gast - right_ascension.hours - universal_hours + 36.0) % 24.0 - 12.0
        return len(noons), declination, equation

    return year


def milliseconds(function):
    times = []
    for _ in range(REPEATS):
        begin = time.perf_counter()
        function()
        times.append((time.perf_counter() - begin) * 1e3)
    return min(times), sum(times) / len(times)


def ours():
    subprocess.run(["cargo", "bench", "--bench", "year", "--", "--noplot"], check=True,
                   stdout=subprocess.DEVNULL)
    target = pathlib.Path(os.environ.get("CARGO_TARGET_DIR", "target"))
    for sample in sorted(target.glob("criterion/year/*/new/sample.json")):
        name = json.loads((sample.parent / "benchmark.json").read_text())["full_id"]
        data = json.loads(sample.read_text())
        quickest = min(t / n for t, n in zip(data["times"], data["iters"]))
        yield name, quickest / 1e6, sum(data["times"]) / sum(data["iters"]) / 1e6


def main():
    year = library(get_skyfield_data_path())
    assert year()[0] == 365
    subprocess.run(["cargo", "bench", "--bench", "year", "--no-run"], check=True)
    before, rows, after = milliseconds(year), list(ours()), milliseconds(year)
    quickest, mean = min(before[0], after[0]), (before[1] + after[1]) / 2
    print(f"skyfield, DE421: quickest {quickest:.1f} ms, mean {mean:.1f} ms a year")
    for name, our_quickest, our_mean in rows:
        print(f"{name}: quickest {our_quickest:.2f} ms, mean {our_mean:.2f} ms; "
              f"{quickest / our_quickest:.1f} and {mean / our_mean:.1f} times as quick")


if __name__ == "__main__":
    main()
