"""TDC's posterior, for evendrop's answers to be held against.

Invents 30 jobs of each of twelve layouts (fixed seed; kinematics written out
here, the wheel a disc beside the crank, real rounding) and computes what is to
be believed of TDC after the readings. Writes jobs.json beside this file: what
was read and stated, and by three models the middle and half the width of the
interval that leaves 2.5 % on either side, degrees. Needs numpy and scipy: run
"python3 posterior.py" in this folder. Degrees and millimetres in the file,
radians inside.

The models

  fresh    free TDC and zero; the priors below; every angle and depth in error
           by a normal amount of its own, of the standard uncertainty that error
           and step leave together. TDC alone.
  shared   as fresh, but the protractor's error is one number a graduation,
           normal, e / sqrt 3, whoever reads there and however often; rounding
           stays fresh. TDC, and beside it an error within +-e where it comes on
           the scale: what an error-free protractor would show.
  moved    as shared, averaged over what may have happened in the session, with
           the chances of tdc/slip/table.go: each hypothesis by its whole
           evidence.

Priors: scale 1 and three rectangles, the gauge's, the stroke's and the rod's;
lash and offset rectangular, lash never below zero; the wheel's centre evenly on
its disc; a step by Cauchy's law; worn lash a normal law about what was stated,
cut off at zero; a wide wheel and a wide scale normal; crank angles of the
readings flat.

What is exact: the priors' shapes, the piston's curve, hanging in its lash with
a sharp end, the graduations' covariance in the weights of every reading and its
determinant, the evidence of every hypothesis that counts. What is approximated:
a reading's error in angle acts through the curve's slope and bend where it was
read; TDC, given the other parameters, is close to normal (its density is taken
at three points, mean and variance of these); zero is summed over exactly. All
else is importance sampling over scale, lash, offset, wheel and step by Sobol's
sequence, drawn from normal laws about where the readings put them.

The reference's own error: every answer is made four times from scrambled
sequences, and what is kept is their mean with its standard error, of centre and
of half-width ("own_error_deg"); where that is too much, from more draws. The
greatest of any job and the median, as shares of the half-width, stand at the head
of the file ("own_error"): 0.0045 and 0.0025 at most, 0.0007 and 0.0004 or less in
half of the jobs. A tenth of what evendrop is allowed is 0.01 of the half-width for
the centre (0.2 u is 0.1 of it) and 0.005 for the width.

Checked once against Metropolis' walk over every latent number (each graduation's
error, each rounding; nothing linearised, nothing normal but the errors), model
shared: 8 both ways, width 0.9994 +- 0.0006 of it and centre -0.003 of the
half-width; 12 one way, fine, offset unstated, 0.9986 +- 0.0016 and 0.009 +- 0.004.

No reading is let go: a job whose readings lie beyond three scatters would part
from a fit that lets go of some.
"""

import json
import math
import os
import sys
import time

import numpy as np
from scipy.special import erf
from scipy.stats import norm, qmc

DEG = math.pi / 180
SEED = 20261126
JOBS = 30
LN2PI = math.log(2 * math.pi)

# ---- the engine -------------------------------------------------------------


def motion(r, rod, e, u):
    """Drop of the piston at u from TDC, its slope and its bend."""
    at_top = np.arcsin(e / (rod + r))
    sin, cos = np.sin(at_top + u), np.cos(at_top + u)
    lean = r * sin - e
    upright = np.sqrt(rod**2 - lean**2)
    drop = np.sqrt((rod + r) ** 2 - e**2) - r * cos - upright
    slope = r * sin + lean * r * cos / upright
    bend = r * cos + ((r * cos) ** 2 - lean * r * sin) / upright + (lean * r * cos) ** 2 / upright**3
    return drop, slope, bend


def crank_angle(v, p, q):
    """u with u + p (cos u - 1) + q sin u = v, as good as exact for small p and q."""
    u = v - p * (np.cos(v) - 1) - q * np.sin(v)
    sin, cos = np.sin(u), np.cos(u)
    return u - (u + p * (cos - 1) + q * sin - v) / (1 - p * sin + q * cos)


# ---- the jobs ---------------------------------------------------------------

PETROL = dict(
    stroke=86.0, rod=146.0, offset=0.0, stroke_known_to=0.1, rod_known_to=0.5, offset_known_to=0.5, offset_stated=True,
    angle_step=0.5, angle_error=0.25, off_centre=0.5, radius=100.0,
    kind="dial", depth_step=0.01, depth_error=0.02, scale_known_to=0.07, lash=0.06, lash_known_to=0.06,
)  # fmt: skip
FINE = dict(angle_step=0.1, angle_error=0.09)
UNSTATED = dict(offset_known_to=14.0, offset_stated=False)
EYE = dict(kind="borescope", depth_step=0.5, depth_error=0.5, scale_known_to=0.15)

LAYOUTS = [
    ("24 both ways", dict(sweeps=2, readings=24), {}),
    ("12 both ways", dict(sweeps=2, readings=12), {}),
    ("8 both ways", dict(sweeps=2, readings=8), {}),
    ("24 one way", dict(sweeps=1, readings=24), {}),
    ("12 one way", dict(sweeps=1, readings=12), {}),
    ("6 graduations x 4", dict(sweeps=4, readings=24, at_graduation=True), {}),
    ("24 both ways, fine", dict(sweeps=2, readings=24), FINE),
    ("24 both ways, offset unstated", dict(sweeps=2, readings=24), UNSTATED),
    ("24 both ways, borescope", dict(sweeps=2, readings=24), EYE),
    ("12 one way, fine, offset unstated", dict(sweeps=1, readings=12), FINE | UNSTATED),
    ("24 both ways, protractor slipped", dict(sweeps=2, readings=24, slip=1.0), {}),
    ("12 both ways, gauge slipped", dict(sweeps=2, readings=12, bump=0.1), {}),
]


def invent(name, rng, sweeps, readings, at_graduation=False, slip=0.0, bump=0.0, **stated):
    """A job with all that it leaves open drawn from what it states."""
    job = PETROL | stated
    within = lambda bound: bound * rng.uniform(-1, 1)  # noqa: E731
    r, rod = (job["stroke"] + within(job["stroke_known_to"])) / 2, job["rod"] + within(job["rod_known_to"])
    e, lash = job["offset"] + within(job["offset_known_to"]), max(0, job["lash"] + within(job["lash_known_to"]))
    gauge, start = 1 + within(job["scale_known_to"]), rng.uniform(0, 360)
    off, phase = job["off_centre"] / job["radius"] * math.sqrt(rng.uniform()), rng.uniform(0, 2 * math.pi)
    step, own = job["angle_step"], {}

    def shown(u):  # by the wheel, whose centre stands beside the crank's
        x, y = math.cos(u) - off * math.cos(phase), math.sin(u) - off * math.sin(phase)
        return start + (u + math.remainder(math.atan2(y, x) - u, 2 * math.pi)) / DEG

    def graduation_error(angle):
        line = round(angle / step) % round(360 / step)
        if line not in own:
            own[line] = within(job["angle_error"])
        return own[line]

    half = readings // sweeps // 2
    places = np.linspace(5, 30, half)
    places = np.concatenate([-places[::-1], places])
    angle, depth, turn = [], [], []
    for sweep in range(sweeps):
        way = 1 if sweep % 2 == 0 else -1
        for meant in places[::way]:
            if at_graduation:  # near one graduation in every sweep
                u = (meant + (round(start / step) * step - start) + rng.uniform(-0.5, 0.5) * step) * DEG
            else:
                u = (meant + rng.uniform(-1, 1)) * DEG
            drop = float(motion(r, rod, e, u)[0])
            low = max(drop - lash / 2, lash / 2) if u * way > 0 else drop + lash / 2
            seen = shown(u) + (slip if sweep > 0 else 0)
            seen += graduation_error(seen)
            read = 4 + gauge * low + (bump if sweep > 0 else 0) + within(job["depth_error"])
            angle.append(round(round(seen / step) * step, 6))
            depth.append(round(round(read / job["depth_step"]) * job["depth_step"], 6))
            turn.append(way)
    held = shown(0) + slip
    return {"name": name} | job | dict(angle_deg=angle, depth_mm=depth, turn=turn, truth_deg=math.remainder(held, 360), slipped=slip > 0 or bump > 0)


# ---- priors: logarithms of densities ----------------------------------------


def flat(low, high):
    def ln(x):
        return np.where((x >= low) & (x <= high), -math.log(high - low), -np.inf)

    return ln


def three_rectangles(a, b, c):
    """The density of a sum of three rectangular errors of half-widths a, b, c."""

    def ln(x):
        sum_ = 0.0
        for i in (1, -1):
            for j in (1, -1):
                for k in (1, -1):
                    sum_ = sum_ + i * j * k * np.maximum(0, x + i * a + j * b + k * c) ** 2
        return np.where(np.abs(x) < a + b + c, np.log(np.maximum(sum_ / (16 * a * b * c), 1e-300)), -np.inf)

    return ln


def normal(mean, sigma, least=-np.inf):
    room = 1 - norm.cdf((least - mean) / sigma)

    def ln(x):
        return np.where(x >= least, -(((x - mean) / sigma) ** 2) / 2 - math.log(sigma * room) - LN2PI / 2, -np.inf)

    return ln


def cauchy(scale):
    return lambda x: -np.log(math.pi * scale * (1 + (x / scale) ** 2))


def on_disc(bound):
    return lambda p, q: np.where(p**2 + q**2 <= bound**2, -math.log(math.pi * bound**2), -np.inf)


def both_normal(sigma):
    one = normal(0, sigma)
    return lambda p, q: one(p) + one(q)


# ---- hypotheses: tdc/slip/table.go ------------------------------------------

BOTH = dict(at_turn=0.09, elsewhere=0.048, one_turn=0.0168, every_turn=0.0072, worn_moved=0.015, worn=0.15, wide=0.05)
ONE = dict(at_turn=0.0, elsewhere=0.06, one_turn=0.0, every_turn=0.03, worn_moved=0.0, worn=0.15, wide=0.05)
ANGLE_SCALE, DEPTH_SCALE = 0.5 * DEG, 0.1
WORN_LASH, WIDE_WHEEL, WIDE_SCALE = 0.25, 0.0125, 0.3


class Assumed:
    """What a hypothesis takes for granted; none of it: that nothing happened."""

    def __init__(self, chance, part=None, after=0, turned=None, worn=False, wide=False):
        self.chance, self.part, self.after, self.turned, self.worn, self.wide = chance, part, after, turned, worn, wide
        self.moved = part is not None or turned is not None


def goes_on(angles, turn):
    """Whether most steps of a run go the way that it was turned."""
    steps = np.diff(angles) * turn
    return (steps > 1e-6).sum() > (steps < -1e-6).sum()


def hypotheses(job):
    turn, angle = np.array(job["turn"]), np.array(job["angle_deg"])
    n = len(turn)
    starts = [0] + [i for i in range(1, n) if turn[i] != turn[i - 1]]
    runs = list(zip(starts, starts[1:] + [n]))
    c = BOTH if len(runs) > 1 else ONE
    back = [k for k in starts[1:] if 2 <= k <= n - 2]
    rest = [k for k in range(2, n - 1) if k not in back]
    moves = []
    for part in ("protractor", "gauge"):
        moves += [Assumed(c["at_turn"] / len(back), part, k) for k in back]
        moves += [Assumed(c["elsewhere"] / len(rest), part, k) for k in rest]
    doubted = [run for run in runs if not goes_on(angle[run[0] : run[1]], turn[run[0]])]
    if len(runs) > 1:
        moves += [Assumed(c["one_turn"] / len(runs), turned=run) for run in doubted]
    if len(doubted) == len(runs):
        moves.append(Assumed(c["every_turn"], turned=(0, n)))
    nothing = Assumed(1 - sum(h.chance for h in moves))
    worn_moves = [Assumed(c["worn_moved"] / len(back), part, k, worn=True) for part in ("protractor", "gauge") for k in back]
    return [nothing, *moves, *worn_moves, Assumed(c["worn"], worn=True), Assumed(c["wide"], worn=True, wide=True)]


# ---- the likelihood ---------------------------------------------------------

TDC, SCALE, LASH, OFFSET, P, Q, STEP = range(7)


class Problem:
    """One job under one hypothesis; angles from centre, radians."""

    def __init__(self, job, centre, shared, h):
        self.job, self.h = job, h
        self.angle = np.array([math.remainder(a - centre, 360) * DEG for a in job["angle_deg"]])
        self.depth, self.turn = np.array(job["depth_mm"]), np.array(job["turn"], dtype=float)
        if h.turned:
            self.turn[h.turned[0] : h.turned[1]] *= -1
        self.before = (np.arange(len(self.angle)) < h.after).astype(float)
        self.r, self.rod = job["stroke"] / 2, job["rod"]
        step, own = job["angle_step"] * DEG, job["angle_error"] * DEG
        self.own = own**2 / 3 if shared else 0.0
        self.fresh = step**2 / 12 + (0 if shared else own**2 / 3)
        self.all_angle = step**2 / 12 + own**2 / 3
        self.all_depth = job["depth_error"] ** 2 / 3 + job["depth_step"] ** 2 / 12
        lines = np.round(np.array(job["angle_deg"]) / job["angle_step"]).astype(int) % round(360 / job["angle_step"])
        self.at = (lines[:, None] == np.unique(lines)[None, :]).astype(float)
        self.set_priors()

    def set_priors(self):
        job, h = self.job, self.h
        ratio = self.r / self.rod
        gauge = job["scale_known_to"]
        stroke = (1 + 2 * ratio) / (self.r * (1 + ratio)) * job["stroke_known_to"] / 2
        rod = ratio / (1 + ratio) * job["rod_known_to"] / self.rod
        wheel, lash, half = job["off_centre"] / job["radius"], job["lash"], job["lash_known_to"]
        self.mean = np.array([0, 1, lash, job["offset"], 0, 0, 0])
        self.sigma = np.array([np.inf, math.sqrt((gauge**2 + stroke**2 + rod**2) / 3), half / math.sqrt(3), job["offset_known_to"] / math.sqrt(3), wheel / 2, wheel / 2, 0])  # fmt: skip
        three = three_rectangles(gauge, stroke, rod)
        self.ln = [None, lambda x: three(x - 1), flat(max(0, lash - half), lash + half), flat(job["offset"] - job["offset_known_to"], job["offset"] + job["offset_known_to"])]  # fmt: skip
        self.ln_wheel = on_disc(wheel)
        if h.worn:
            self.sigma[LASH], self.ln[LASH] = WORN_LASH, normal(lash, WORN_LASH, 0)
        if h.wide:
            self.sigma[SCALE], self.ln[SCALE] = WIDE_SCALE, normal(1, WIDE_SCALE, 0)
            self.sigma[P] = self.sigma[Q] = WIDE_WHEEL
            self.ln_wheel = both_normal(WIDE_WHEEL)
        self.law = ANGLE_SCALE if h.part == "protractor" else DEPTH_SCALE
        self.free = [SCALE, LASH, OFFSET, P, Q] + ([STEP] if h.part else [])

    def ln_prior(self, b):
        sum_ = self.ln_wheel(b[:, P], b[:, Q])
        for j in (SCALE, LASH, OFFSET):
            sum_ = sum_ + self.ln[j](b[:, j])
        return sum_ + (cauchy(self.law)(b[:, STEP]) if self.h.part else 0)

    def curve(self, b):
        """Residuals of the depths, without zero, and the curve's slope by protractor angle."""
        step = b[:, STEP : STEP + 1] * self.before
        v = self.angle - b[:, :1] + (step if self.h.part == "protractor" else 0)
        p, q, scale, lash = b[:, P, None], b[:, Q, None], b[:, SCALE, None], b[:, LASH, None]
        u = crank_angle(v, p, q)
        drop, slope, bend = motion(self.r, self.rod, b[:, OFFSET, None], u)
        falling = u * self.turn > 0
        hangs = falling & (scale * drop < lash)
        low = np.where(hangs, lash / 2, scale * drop + np.where(falling, -lash / 2, lash / 2))
        along = np.where(hangs, 0, scale * slope / (1 - p * np.sin(u) + q * np.cos(u)))
        low = low + np.where(hangs, 0, scale * bend * self.all_angle / 2)
        depth = self.depth + (step if self.h.part == "gauge" else 0)
        return depth - low, along

    def products(self, along):
        """The inverse covariance of the residuals, as a product of two vectors, and its determinant."""
        alone = self.all_depth + along**2 * self.fresh
        ln_det = np.log(alone).sum(1)
        if self.own == 0:
            return (lambda x, y: (x * y / alone).sum(1)), ln_det
        pull = along / alone
        rest = 1 + self.own * ((pull * along) @ self.at)
        ln_det = ln_det + np.log(rest).sum(1)

        def product(x, y):
            return (x * y / alone).sum(1) - self.own * (((pull * x) @ self.at) * ((pull * y) @ self.at) / rest).sum(1)

        return product, ln_det

    def look(self, b):
        """The logarithm of the likelihood, zero summed over, and a step of TDC with its variance."""
        e, along = self.curve(b)
        dot, ln_det = self.products(along)
        one = np.ones_like(e)
        ee, e1, n1 = dot(e, e), dot(e, one), dot(one, one)
        ae, a1, aa = dot(along, e), dot(along, one), dot(along, along)
        ln = -(ee - e1**2 / n1) / 2 - ln_det / 2 - np.log(n1) / 2 - (len(self.angle) - 1) * LN2PI / 2
        var = 1 / (aa - a1**2 / n1)
        return ln, -(ae - a1 * e1 / n1) * var, var

    def mode(self, start):
        """Where the posterior is highest with every prior taken as normal, and its covariance."""
        beta, free = np.array(start, dtype=float), [TDC, *self.free]
        size = np.array([1e-4, 1e-4, 1e-3, 1e-3, 1e-4, 1e-4, 1e-4 if self.h.part == "protractor" else 1e-3])
        for _ in range(15):
            moved = np.repeat(beta[None], len(free) + 1, 0)
            for i, j in enumerate(free):
                moved[i + 1, j] += size[j]
            e, along = self.curve(moved)
            rows = np.stack([(e[i + 1] - e[0]) / size[j] for i, j in enumerate(free)] + [-np.ones(len(self.angle))], 1)
            cov = np.diag(self.all_depth + along[0] ** 2 * self.fresh)
            cov = cov + self.own * np.outer(along[0], along[0]) * (self.at @ self.at.T)
            pulled = np.linalg.solve(cov, rows)
            weight, pull = rows.T @ pulled, pulled.T @ e[0]
            for i, j in enumerate(free):
                w = 2 / (self.law**2 + beta[j] ** 2) if j == STEP else 1 / self.sigma[j] ** 2
                weight[i, i] += w
                pull[i] += w * (beta[j] - self.mean[j])
            step = -np.linalg.solve(weight, pull)
            beta[free] += step[:-1]
            if self.h.worn:
                beta[LASH] = max(beta[LASH], 0)
            sure = np.linalg.inv(weight)
            if np.all(np.abs(step) < 1e-3 * np.sqrt(np.diag(sure))):
                break
        return beta, sure[:-1, :-1]

    def modes(self):
        """Each place where the search ends, by how high it is: worn lash from three starts."""
        found = []
        for lash in (0.06, 0.22, 0.45) if self.h.worn else (self.mean[LASH],):
            start = self.mean.copy()
            start[LASH] = lash
            try:
                beta, cov = self.mode(start)
            except np.linalg.LinAlgError:
                continue
            height = self.look(beta[None])[0][0] + (normal(self.mean[LASH], self.sigma[LASH])(beta[LASH]) if self.h.worn else 0)
            if np.all(np.isfinite(beta)) and np.isfinite(height):
                found.append((height, beta, cov))
        found.sort(key=lambda f: -f[0])
        return [f[1:] for f in found if f[0] > found[0][0] - 12][:2]


# How far a normal law is spread that draws are taken from, and how many of them: most
# from about the posterior, some from far around, lest its tails be missed.
SPREADS = ((1.1, 0.7), (1.8, 0.3))


def sampled(problem, modes, n, seed):
    """Weighted normal laws that make up TDC's posterior, and the logarithm of the evidence."""
    free, d = problem.free, len(problem.free)
    parts = [(m[0], m[1], spread, share / len(modes)) for m in modes for spread, share in SPREADS]
    draws = qmc.Sobol(d + 1, seed=seed).random(n)
    which = np.searchsorted(np.cumsum([p[3] for p in parts])[:-1], draws[:, 0])
    z = norm.ppf(np.clip(draws[:, 1:], 1e-12, 1 - 1e-12))
    b = np.zeros((n, 7))
    ln_parts = []
    for i, (at, cov, spread, _) in enumerate(parts):
        root = np.linalg.cholesky(cov[1:, 1:] * spread**2)
        mine = which == i
        b[np.ix_(mine, free)] = at[free] + z[mine] @ root.T
        b[mine, TDC] = at[TDC] + (b[np.ix_(mine, free)] - at[free]) @ np.linalg.solve(cov[1:, 1:], cov[1:, 0])
    for at, cov, spread, share in parts:
        root = np.linalg.cholesky(cov[1:, 1:] * spread**2)
        off = np.linalg.solve(root, (b[:, free] - at[free]).T)
        ln_parts.append(math.log(share) - (off**2).sum(0) / 2 - np.log(np.diag(root)).sum() - d * LN2PI / 2)
    ln_prior = problem.ln_prior(b)
    some = np.isfinite(ln_prior)
    b, ln = b[some], ln_prior[some] - np.logaddexp.reduce(ln_parts, 0)[some]
    if len(b) == 0:
        return None
    for _ in range(2):
        _, step, var = problem.look(b)
        b[:, TDC] += np.clip(step, -0.2, 0.2)
    sigma = np.sqrt(var)
    nodes, middle = [], b[:, TDC].copy()
    for x, w in ((-math.sqrt(3), 1 / 6), (0.0, 2 / 3), (math.sqrt(3), 1 / 6)):
        b[:, TDC] = middle + x * sigma
        nodes.append((x, math.log(w) + problem.look(b)[0] + x * x / 2))
    top = np.maximum.reduce([n for _, n in nodes])
    mass = [np.exp(n - top) for _, n in nodes]
    whole = sum(mass)
    mean = sum(x * m for (x, _), m in zip(nodes, mass)) / whole
    var1 = sum((x - mean) ** 2 * m for (x, _), m in zip(nodes, mass)) / whole
    ln = ln + top + np.log(whole * sigma) + LN2PI / 2
    highest = ln.max()
    weight = np.exp(ln - highest)
    evidence = highest + math.log(weight.sum() / n)
    return middle + mean * sigma, sigma * np.sqrt(var1), weight / weight.sum(), evidence


# ---- intervals --------------------------------------------------------------


def integral(z):
    return z * (1 + erf(z / math.sqrt(2))) / 2 + np.exp(-z * z / 2) / math.sqrt(2 * math.pi)


def interval(at, sigma, weight, half):
    """Middle and half-width of the central 95 % of weighted normal laws, a rectangle beside them."""
    keep = weight > 1e-9
    at, sigma, weight = at[keep], sigma[keep], weight[keep] / weight[keep].sum()

    def below(x):
        if half == 0:
            return (weight * (1 + erf((x - at) / sigma / math.sqrt(2))) / 2).sum()
        return (weight * (integral((x - at + half) / sigma) - integral((x - at - half) / sigma)) * sigma).sum() / (2 * half)

    def point(probability):
        low, high = at.min() - half - 9 * sigma.max(), at.max() + half + 9 * sigma.max()
        for _ in range(36):
            x = (low + high) / 2
            low, high = (x, high) if below(x) < probability else (low, x)
        return (low + high) / 2

    low, high = point(0.025), point(0.975)
    return (low + high) / 2 / DEG, (high - low) / 2 / DEG


REPEATS = 4


def summed(rows, centre):
    """The mean of repeated answers and what it is out by: middle, half-width."""
    rows = np.array(rows)
    mean, own = rows.mean(0), rows.std(0, ddof=1) / math.sqrt(len(rows))
    return {"centre_deg": math.remainder(centre + mean[0], 360), "half_deg": mean[1], "own_error_deg": own.tolist()}


def effective(weight):
    return 1 / (weight**2).sum()


def single(job, centre, shared, n):
    """TDC by the model in which nothing happened."""
    problem = Problem(job, centre, shared, Assumed(1))
    modes = problem.modes()
    half = job["angle_error"] * DEG if shared else 0
    rows, size = [], 0
    for k in range(REPEATS):
        at, sigma, weight, _ = sampled(problem, modes, n, SEED + k)
        rows.append(interval(at, sigma, weight, half))
        size += effective(weight)
    return summed(rows, centre) | {"effective": round(size)}


def averaged(job, centre, pilot, n):
    """TDC by all hypotheses, and the probability that something moved."""
    tried = []
    for h in hypotheses(job):
        problem = Problem(job, centre, True, h)
        modes = problem.modes()
        got = sampled(problem, modes, pilot, SEED) if modes else None
        if got:
            tried.append((math.log(h.chance) + got[3], problem, modes))
    best = max(t[0] for t in tried)
    rows, moved = [], []
    for k in range(REPEATS):
        parts = []
        for ln, problem, modes in tried:
            if ln < best - 9:  # less than one in 8,000
                continue
            draws = n if ln > best - 3.5 else n // 8
            at, sigma, weight, evidence = sampled(problem, modes, draws, SEED + 1 + k)
            parts.append((at, sigma, weight, math.log(problem.h.chance) + evidence, problem.h.moved))
        top = max(p[3] for p in parts)
        share = [math.exp(p[3] - top) for p in parts]
        moved.append(sum(s for s, p in zip(share, parts) if p[4]) / sum(share))
        at, sigma = np.concatenate([p[0] for p in parts]), np.concatenate([p[1] for p in parts])
        weight = np.concatenate([s * p[2] for s, p in zip(share, parts)])
        rows.append(interval(at, sigma, weight / weight.sum(), job["angle_error"] * DEG))
    return summed(rows, centre) | {"moved": float(np.mean(moved))}


# The greatest standard error of a centre and of a half-width, as shares of the half-width:
# half of a tenth of what evendrop is allowed.
SURE = (0.005, 0.0025)


def sure(answer, n):
    """An answer from n draws, or from four or sixteen times as many where those are too few."""
    for times in (1, 4, 16):
        found = answer(times * n)
        if all(own <= most * found["half_deg"] for own, most in zip(found["own_error_deg"], SURE)):
            break
    return found


def start_of(job):
    """About where TDC is: the middle of the angles, which lie evenly about it."""
    first = job["angle_deg"][0]
    return first + np.mean([math.remainder(a - first, 360) for a in job["angle_deg"]])


def rounded(x):
    if isinstance(x, float):
        return round(x, 7)
    if isinstance(x, dict):
        return {k: rounded(v) for k, v in x.items()}
    return [rounded(v) for v in x] if isinstance(x, list) else x


def own_errors(jobs):
    out = {}
    for model in ("fresh", "shared", "moved"):
        pairs = [np.array(j[model]["own_error_deg"]) / j[model]["half_deg"] for j in jobs if model in j]
        if pairs:
            out[model] = dict(zip(("centre_of_half_greatest", "half_of_half_greatest"), np.max(pairs, 0).tolist()))
            out[model] |= dict(zip(("centre_of_half_median", "half_of_half_median"), np.median(pairs, 0).tolist()))
            sizes = [j[model]["effective"] for j in jobs if "effective" in j.get(model, {})]
            out[model] |= {"least_effective": min(sizes)} if sizes else {}
    return out


def main():
    each, only = int(os.environ.get("JOBS", JOBS)), os.environ.get("ONLY", "")
    jobs = []
    for i, (name, plan, stated) in enumerate(LAYOUTS):
        if only not in name:
            continue
        begun = time.time()
        for k in range(each):
            job = invent(name, np.random.default_rng([SEED, i, k]), **plan, **stated)
            centre = start_of(job)
            if not job["slipped"]:
                job["fresh"] = sure(lambda n: single(job, centre, False, n), 8192)
                job["shared"] = sure(lambda n: single(job, centre, True, n), 8192)
            job["moved"] = sure(lambda n: averaged(job, centre, 512, n), 4096)
            jobs.append(rounded(job))
        print(f"{name}: {time.time() - begun:.0f} s", own_errors(jobs[-each:]), file=sys.stderr, flush=True)
    with open("jobs.json", "w") as f:
        head = json.dumps({"numpy": np.__version__, "seed": SEED, "own_error": rounded(own_errors(jobs))})
        f.write(head[:-1] + ', "jobs": [\n' + ",\n".join(json.dumps(j, separators=(",", ":")) for j in jobs) + "\n]}\n")


if __name__ == "__main__":
    main()
