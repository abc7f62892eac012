"""How long scipy.odr takes over the refits that evendrop's trials make.

Solves the first job of jobs.json again and again, its readings drawn anew, and
prints the time of one. Beside it: go test ./tdc -run XXX -bench Trials
"""

import json
import time

import numpy as np

import odr

jobs = json.load(open("jobs.json"))["jobs"]
rng = np.random.default_rng(1)
job, n = jobs[0], 30
angle, depth = np.array(job["angle_deg"]), np.array(job["depth_mm"])
start = time.perf_counter()
for _ in range(n):
    job["angle_deg"] = angle + rng.uniform(-0.25, 0.25, len(angle))
    job["depth_mm"] = depth + rng.uniform(-0.02, 0.02, len(depth))
    odr.adjust(job, rounds=1, start=job["found"]["parameters"])
each = (time.perf_counter() - start) / n
print(f"{1e3 * each:.2f} ms a refit of {len(angle)} readings, {n} refits")
