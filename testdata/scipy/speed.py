"""How long scipy's ODRPACK takes over the refits that evendrop's trials make, beside evendrop.

Solves the first job of jobs.json again and again, its readings drawn anew, on one core:
the seven parameters with their priors as observations, as odr.py has them, but as fast as
SciPy can be made to go - every formula closed and on whole arrays, derivatives analytic
and unchecked, whatever does not change computed once, no class around ODRPACK, and
tolerances no finer than a trial needs. Then it runs evendrop's benchmark of the same
refits on one core, and prints both, their ratio, and how far ODRPACK stopped from where
it ends with tolerances as fine as they go. From this folder: python3 speed.py
"""

import json
import math
import os
import re
import subprocess
import time
import warnings

import numpy as np

warnings.simplefilter("ignore", DeprecationWarning)
from scipy import odr as odrpack  # noqa: E402

import odr  # noqa: E402

FINEST = 1e-15
# ODRPACK stops where the sum of squares changes by less than this share, or the
# parameters by its square root: that leaves TDC within 1e-3 standard uncertainties,
# which is where a trial of evendrop's stops.
ENOUGH = 1e-4


class Curve:
    """The curve of a job whose readings lie below its hang, and its derivatives by the
    parameters and by the angle, once for each place that ODRPACK asks about."""

    def __init__(self, job, known):
        self.r, self.rod, self.n = job["stroke"] / 2, job["rod"], len(job["angle_deg"])
        self.turn = np.array(job["turn"], dtype=float)
        self.known, self.at = known, None
        self.by_beta = np.zeros((7, self.n + len(known)))
        self.by_beta[1, : self.n] = 1
        self.by_beta[known, self.n + np.arange(len(known))] = 1
        self.by_angle = np.zeros(self.n + len(known))
        self.y = np.empty(self.n + len(known))

    def look(self, beta, x):
        if self.at is not None and np.array_equal(beta, self.at[0]) and np.array_equal(x, self.at[1]):
            return self
        self.at = beta.copy(), x.copy()
        tdc, zero, scale, lash, e, p, q = beta
        n, r, rod = self.n, self.r, self.rod
        v = x[:n] - tdc
        u = v - p * (np.cos(v) - 1) - q * np.sin(v)
        sin, cos = np.sin(u), np.cos(u)
        turning = 1 - p * sin + q * cos
        step = (u + p * (cos - 1) + q * sin - v) / turning
        u, sin, cos = u - step, sin - cos * step, cos + sin * step
        leanest, top = e / (rod + r), math.sqrt((rod + r) ** 2 - e * e)
        straight = top / (rod + r)
        across, along = r * (sin * straight + cos * leanest), r * (cos * straight - sin * leanest)
        lean = across - e
        upright = np.sqrt(rod * rod - lean * lean)
        drop, slope = top - along - upright, across + lean * along / upright
        side = np.where(u * self.turn > 0, -0.5, 0.5)
        per_angle = scale * slope / turning
        self.y[:n], self.y[n:] = zero + scale * drop + side * lash, beta[self.known]
        self.by_angle[:n] = per_angle
        jac = self.by_beta[:, :n]
        jac[0], jac[2], jac[3] = -per_angle, drop, side
        jac[4] = scale * ((slope - e) / top - lean / upright)
        jac[5], jac[6] = per_angle * (1 - cos), -per_angle * sin
        return self


def refits(n=100, runs=50, seed=1):
    """Milliseconds a refit, readings in each, and how far ODRPACK stopped from its end, in
    standard uncertainties of TDC, at worst. The best of many short runs counts, here and
    for evendrop: what else the machine does is in the others."""
    job = json.load(open("jobs.json"))["jobs"][0]
    mean, sigma = odr.priors(job)
    known = np.array([j for j in range(7) if sigma[j]])
    curve = Curve(job, known)
    readings = curve.n
    angle, depth = np.array(job["angle_deg"]) * odr.DEG, np.array(job["depth_mm"])
    u_angle = math.hypot(job["angle_error"] / math.sqrt(3), job["angle_step"] / math.sqrt(12)) * odr.DEG
    u_depth = math.hypot(job["depth_error"] / math.sqrt(3), job["depth_step"] / math.sqrt(12))
    start = np.array([job["found"]["parameters"][name] for name in odr.NAMES])
    same = np.allclose(curve.look(start, np.append(angle, 0 * known)).y[:readings], odr.depth(job, curve.turn, start, angle), rtol=0, atol=1e-9)
    assert same, "the curve is not that of odr.py"
    options = dict(
        we=np.concatenate([np.full(readings, 1 / u_depth**2), [1 / sigma[j] ** 2 for j in known]]),
        wd=np.concatenate([np.full(readings, 1 / u_angle**2), np.ones(len(known))]),
        fjacb=lambda beta, x: curve.look(beta, x).by_beta,
        fjacd=lambda beta, x: curve.look(beta, x).by_angle,
        ifixx=np.array([1] * readings + [0] * len(known), dtype=np.int32),
        job=30,  # explicit, derivatives given and taken as right
        full_output=0,
    )

    def solve(x, y, tolerance):
        return odrpack.odr(
            lambda beta, x: curve.look(beta, x).y, start, y, x, sstol=tolerance, partol=max(FINEST, math.sqrt(tolerance)), maxit=200, **options
        )[0]

    found = solve(np.append(angle, 0 * known), np.append(depth, [mean[j] for j in known]), FINEST)
    assert abs(found[0] / odr.DEG - job["found"]["tdc_deg"]) < 1e-7, "the solution is not that of odr.py"
    rng = np.random.default_rng(seed)
    draws = [
        (np.append(angle + rng.uniform(-0.25, 0.25, readings) * odr.DEG, 0 * known),
         np.append(depth + rng.uniform(-0.02, 0.02, readings), [mean[j] for j in known]))
        for _ in range(n)
    ]  # fmt: skip
    solve(*draws[0], ENOUGH)
    took = math.inf
    for _ in range(runs):
        begun = time.perf_counter()
        for x, y in draws:
            solve(x, y, ENOUGH)
        took = min(took, 1e3 * (time.perf_counter() - begun) / n)
    off = max(abs(solve(x, y, ENOUGH)[0] - solve(x, y, FINEST)[0]) for x, y in draws)
    return took, readings, off / (job["found"]["tdc_uncertainty_deg"] * odr.DEG)


def evendrop_ms():
    """Milliseconds a refit of the same job."""
    out = subprocess.run(
        ["go", "test", "./tdc", "-run", "^$", "-bench", "^BenchmarkTrials$", "-benchtime", "2000x", "-count", "50"],
        cwd="../..", env=os.environ | {"GOMAXPROCS": "1"}, capture_output=True, text=True, check=True,
    ).stdout
    return min(float(ns) for ns in re.findall(r"(\d+(?:\.\d+)?) ns/op", out)) / 1e6


if __name__ == "__main__":
    theirs, readings, off = refits()
    ours = evendrop_ms()
    print(
        f"a refit of {readings} readings: scipy.odr {theirs:.2f} ms (within {off:.0e} standard uncertainties), "
        f"evendrop {1e3 * ours:.1f} us, {theirs / ours:.0f} times"
    )
