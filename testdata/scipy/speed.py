"""How long scipy.odr takes over the refits that evendrop's trials make, beside evendrop.

Solves the first job of jobs.json again and again, its readings drawn anew, on one core,
then runs evendrop's benchmark of the same refits on one core, and prints both and their
ratio. From this folder: python3 speed.py
"""

import json
import os
import re
import subprocess
import time

import numpy as np

import odr


def scipy_ms(n=30):
    """Milliseconds a refit, and how many readings it has."""
    job = json.load(open("jobs.json"))["jobs"][0]
    rng = np.random.default_rng(1)
    angle, depth = np.array(job["angle_deg"]), np.array(job["depth_mm"])
    start = time.perf_counter()
    for _ in range(n):
        job["angle_deg"] = angle + rng.uniform(-0.25, 0.25, len(angle))
        job["depth_mm"] = depth + rng.uniform(-0.02, 0.02, len(depth))
        odr.adjust(job, rounds=1, start=job["found"]["parameters"])
    return 1e3 * (time.perf_counter() - start) / n, len(angle)


def evendrop_ms():
    """Milliseconds a refit of the same job."""
    out = subprocess.run(
        ["go", "test", "./tdc", "-run", "^$", "-bench", "^BenchmarkTrials$"],
        cwd="../..", env=os.environ | {"GOMAXPROCS": "1"}, capture_output=True, text=True, check=True,
    ).stdout
    return float(re.search(r"(\d+(?:\.\d+)?) ns/op", out).group(1)) / 1e6


if __name__ == "__main__":
    theirs, readings = scipy_ms()
    ours = evendrop_ms()
    print(f"a refit of {readings} readings: scipy.odr {theirs:.1f} ms, evendrop {1e3 * ours:.1f} us, {theirs / ours:.0f} times")
