"""TDC by scipy.odr, for evendrop's tests to be held against.

Invents ten jobs (fixed seed, kinematics written out here) and adjusts each with
ODRPACK, every prior an observation of its own whose abscissa is held. Writes
jobs.json beside this file: what was read and stated, and what came out. Needs
scipy: run "python3 odr.py" in this folder. Degrees and millimetres.
"""

import json
import math
import warnings

import numpy as np
import scipy

warnings.simplefilter("ignore", DeprecationWarning)
from scipy import odr  # noqa: E402

DEG = math.pi / 180
NAMES = ["tdc", "zero", "scale", "lash", "offset", "p", "q"]


def drop(r, rod, e, u):
    top = math.sqrt((rod + r) ** 2 - e**2)
    phi = math.asin(e / (rod + r)) + u
    return top - r * np.cos(phi) - np.sqrt(rod**2 - (r * np.sin(phi) - e) ** 2)


def crank_angle(v, p, q):
    u = np.array(v, dtype=float)
    for _ in range(20):
        u = v - p * (np.cos(u) - 1) - q * np.sin(u)
    return u


def hang_range(job):
    half = max(job["lash_known_to"], job["lash"] / 8)
    return max(0.0, job["lash"] - half), job["lash"] + half


def hung(job, shown, lash):
    """What lash adds where the piston falls and has not used it up."""
    low, high = hang_range(job)
    w = high - low
    s = np.clip((shown - low) / w if w > 0 else np.ones_like(shown), 0, 1)
    inside = w * ((1 - s) ** 2 / 2 + (1 - s) ** 2 * (1 + 2 * s) * ((lash - low) / w - 0.5)) if w > 0 else 0 * shown
    return np.where(shown <= low, lash - shown, np.where(shown >= high, 0, inside))


def hang_spread(job, shown, falling):
    low, high = hang_range(job)
    w = high - low
    s = (shown - low) / w if w > 0 else np.ones_like(shown)
    rest = 1 - s
    b = rest**2 * (1 + 2 * s)
    var = rest**3 / 3 - rest**4 / 4 - b**2 / 12
    return np.where(falling & (shown > low) & (shown < high), w * np.sqrt(np.clip(var, 0, None)), 0)


def depth(job, turn, beta, angle):
    tdc, zero, scale, lash, e, p, q = beta
    u = crank_angle(angle - tdc, p, q)
    shown = scale * drop(job["stroke"] / 2, job["rod"], e, u)
    falling = u * turn > 0
    return zero + np.where(falling, shown - lash / 2 + hung(job, shown, lash), shown + lash / 2)


def priors(job):
    r, rod = job["stroke"] / 2, job["rod"]
    by_stroke = (1 + 2 * r / rod) / (r * (1 + r / rod)) * job["stroke_known_to"] / 2
    by_rod = r / rod / (1 + r / rod) * job["rod_known_to"] / rod
    scale = math.sqrt((job["scale_known_to"] ** 2 + by_stroke**2 + by_rod**2) / 3)
    wheel = job["off_centre"] / job["radius"] / 2
    mean = [0, 0, 1, job["lash"], job["offset"], 0, 0]
    sigma = [None, None, scale, job["lash_known_to"] / math.sqrt(3), job["offset_known_to"] / math.sqrt(3), wheel, wheel]
    return mean, sigma


def adjust(job, rounds=6):
    angle = np.array(job["angle_deg"]) * DEG
    turn = np.array(job["turn"])
    read = np.array(job["depth_mm"])
    u_angle = math.hypot(job["angle_error"] / math.sqrt(3), job["angle_step"] / math.sqrt(12)) * DEG
    u_depth = math.hypot(job["depth_error"] / math.sqrt(3), job["depth_step"] / math.sqrt(12))
    mean, sigma = priors(job)
    known = [j for j in range(7) if sigma[j]]
    held = [j for j in range(7) if sigma[j] == 0]
    n = len(angle)

    def model(beta, x):
        return np.concatenate([depth(job, turn, beta, x[:n]), [beta[j] for j in known]])

    beta = np.array([job["about_deg"] * DEG, read.min(), *mean[2:]])
    for _ in range(rounds):  # until the spread of the hang settles
        u = angle - beta[0]
        shown = drop(job["stroke"] / 2, job["rod"], mean[4], u)
        s_depth = np.hypot(u_depth, hang_spread(job, shown, u * turn > 0))
        data = odr.Data(
            np.concatenate([angle, np.zeros(len(known))]),
            np.concatenate([read, [mean[j] for j in known]]),
            we=np.concatenate([1 / s_depth**2, [1 / sigma[j] ** 2 for j in known]]),
            wd=np.concatenate([np.full(n, 1 / u_angle**2), np.ones(len(known))]),
        )
        fit = odr.ODR(
            data,
            odr.Model(model),
            beta0=beta,
            ifixb=[0 if j in held else 1 for j in range(7)],
            ifixx=[1] * n + [0] * len(known),
            sstol=1e-15,
            partol=1e-15,
            maxit=2000,
        )
        fit.set_job(deriv=1)  # central differences
        out = fit.run()
        beta = out.beta
    return out


def invent(name, rng, **job):
    job = dict(
        stroke=86.0, rod=146.0, offset=0.0, stroke_known_to=0.1, rod_known_to=0.5, offset_known_to=0.5,
        angle_step=0.5, angle_error=0.25, off_centre=0.5, radius=100.0,
        depth_step=0.01, depth_error=0.02, scale_known_to=0.07, lash=0.06, lash_known_to=0.06,
        both=True, reach=[5, 28], per_flank=6, centre=3.4, kind="dial",
    ) | job  # fmt: skip
    truth = [job["centre"] * DEG, 4.0, 1 + 0.5 * job["scale_known_to"] * rng.uniform(-1, 1),
             max(0, job["lash"] + 0.6 * job["lash_known_to"] * rng.uniform(-1, 1)),
             job["offset"] + job["offset_known_to"] * rng.uniform(-0.7, 0.7), 0, 0]  # fmt: skip
    reach = np.linspace(*job.pop("reach"), job.pop("per_flank"))
    us = np.concatenate([-reach[::-1], reach * 1.03])
    angle, turn = us, np.ones(len(us))
    if job.pop("both"):
        angle, turn = np.concatenate([us, us[::-1]]), np.concatenate([turn, -turn])
    angle = angle * DEG + truth[0]
    shown = depth(job, turn, truth, angle)
    read = shown + job["depth_error"] * rng.uniform(-0.8, 0.8, len(angle))
    seen = angle / DEG + job["angle_error"] * rng.uniform(-0.8, 0.8, len(angle))
    job["angle_deg"] = (np.round(seen / job["angle_step"]) * job["angle_step"]).round(6).tolist()
    job["depth_mm"] = (np.round(read / job["depth_step"]) * job["depth_step"]).round(6).tolist()
    job["turn"] = turn.astype(int).tolist()
    job["about_deg"] = job.pop("centre")
    return {"name": name} | job


def main():
    rng = np.random.default_rng(20261125)
    jobs = [
        invent("petrol, dial, both ways", rng),
        invent("petrol, dial, one way", rng, both=False, per_flank=8),
        invent("diesel, fine wheel", rng, stroke=92.0, rod=144.0, angle_step=0.05, angle_error=0.1),
        invent("offset pin, known", rng, offset=0.8, offset_known_to=0.1),
        invent("offset unstated", rng, offset_known_to=2.0, both=False, per_flank=12),
        invent("motorcycle, rod gauge", rng, stroke=42.5, rod=91.0, depth_step=0.05, depth_error=0.1, kind="rod"),
        invent("large single, eye", rng, stroke=400.0, rod=800.0, depth_step=1.0, depth_error=0.5, scale_known_to=0.15, kind="borescope"),
        invent("lash known well", rng, lash=0.05, lash_known_to=0.01, both=False),
        invent("into the hang", rng, reach=[1.5, 20], per_flank=10, both=False, angle_step=0.1, angle_error=0.1),
        invent("wheel held, far zero", rng, off_centre=0.0, centre=211.7, angle_step=0.1, angle_error=0.1),
    ]
    for job in jobs:
        out = adjust(job)
        job["found"] = {
            "tdc_deg": out.beta[0] / DEG,
            "tdc_uncertainty_deg": math.sqrt(out.cov_beta[0, 0]) / DEG,
            "parameters": dict(zip(NAMES, out.beta)),
            "sum_of_squares": out.sum_square,
            "stopped": out.stopreason,
        }
    with open("jobs.json", "w") as f:
        json.dump({"scipy": scipy.__version__, "jobs": jobs}, f, indent=1)


if __name__ == "__main__":
    main()
