"""Least squares for the compliance of strips against angle, and how sure its results are.

For every tight direction asked about, the best compliances at 0, 90 and 45 degrees from axis 1
and their misfit. A constant's interval is that of the profile likelihood: all values that some
tight direction makes as likely as the limit allows, which holds where the direction itself is
poorly known (D.M. Bates, D.G. Watts, Nonlinear Regression Analysis, ch. 6, from memory).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

STEP_DEG = 1.0  # grid of tight directions


@dataclass(frozen=True)
class Profile:
    """The best fit for each tight direction; axis 1 is held to be the tight one.

    ``compliances`` (k, 3) at 0, 90, 45 deg from axis 1; ``misfit`` (k,) the sum of squared log
    residuals; ``covariance`` (k, 3, 3) of the logs of the compliances per unit of variance.
    """

    tight_deg: Array
    compliances: Array
    misfit: Array
    covariance: Array

    @property
    def best(self) -> int:
        """Index of the least misfit."""
        return int(np.argmin(self.misfit))


def basis(off_deg: Array) -> Array:
    """(..., 3): what a strip at an angle off axis 1 takes of the compliances at 0, 90, 45 deg."""
    c2, s2 = np.cos(np.radians(off_deg)) ** 2, np.sin(np.radians(off_deg)) ** 2
    return np.stack([c2 * c2 - c2 * s2, s2 * s2 - c2 * s2, 4 * c2 * s2], axis=-1)


def profile(angles: Array, logs: Array, *, slanted: bool) -> Profile:
    """Fit for all tight directions, finely about the best; without ``slanted`` only 0 and 90."""
    if not slanted:
        return _fitted(angles, logs, np.array([0.0, 90.0]))
    coarse = _fitted(angles, logs, np.arange(-90.0, 90.0, STEP_DEG))
    about = coarse.tight_deg[coarse.best] + np.arange(-STEP_DEG, STEP_DEG, 0.02)
    fine = _fitted(angles, logs, about[1:])
    return Profile(
        *(
            np.concatenate([getattr(coarse, f), getattr(fine, f)])
            for f in ("tight_deg", "compliances", "misfit", "covariance")
        )
    )


def _fitted(angles: Array, logs: Array, tight: Array) -> Profile:
    rows = basis(angles[None, :] - tight[:, None])
    joined = (
        np.eye(3),
        np.array([[1.0, 0], [1, 0], [0, 1]]),  # as tight along axis 2
        np.array([[1.0, 0], [0, 1], [1, 0]]),  # as tight on the bias
        np.ones((3, 1)),  # the same all round
    )
    compliances = np.ones((len(tight), 3))
    misfit = np.full(len(tight), np.inf)
    for join in joined:
        s = np.exp(_log_fit(rows @ join, logs)) @ join.T
        with np.errstate(invalid="ignore", divide="ignore"):
            off = np.sum((logs - np.log(np.einsum("kij,kj->ki", rows, s))) ** 2, axis=1)
        allowed = (s[:, 0] <= s[:, 1] * (1 + 1e-12)) & (s[:, 0] <= s[:, 2] * (1 + 1e-12))
        better = allowed & np.isfinite(off) & (off < misfit)
        compliances[better], misfit[better] = s[better], off[better]
    value = np.maximum(np.einsum("kij,kj->ki", rows, compliances), 1e-300)
    jacobian = rows * compliances[:, None, :] / value[:, :, None]
    covariance: Array = np.linalg.inv(_normal(jacobian)).astype(np.float64)
    return Profile(tight, compliances, misfit, covariance)


def _log_fit(rows: Array, logs: Array) -> Array:
    """Logs x of positive compliances with log(rows @ exp x) nearest to ``logs``: Gauss-Newton."""
    k, _, count = rows.shape
    x = np.full((k, count), float(np.mean(logs)))
    for _ in range(25):
        s = np.exp(x)
        value = np.maximum(np.einsum("kij,kj->ki", rows, s), 1e-3 * s.min(axis=1, keepdims=True))
        jacobian = rows * s[:, None, :] / value[:, :, None]
        step = np.clip(_least(jacobian, logs - np.log(value)), -1.0, 1.0)
        x = np.clip(x + step, logs.min() - 4.0, logs.max() + 4.0)
        if np.abs(step).max() < 1e-10:
            break
    return x


def _normal(jacobian: Array) -> Array:
    """(k, p, p): J^T J with a ridge that keeps it regular where strips say nothing of a constant."""
    normal = jacobian.transpose(0, 2, 1) @ jacobian
    ridge = 1e-9 * np.maximum(np.einsum("kii->k", normal), 1.0)
    return np.asarray(normal + ridge[:, None, None] * np.eye(normal.shape[1]))


def _least(jacobian: Array, residual: Array) -> Array:
    """(k, p): the least-squares step for each tight direction."""
    right = np.einsum("kij,ki->kj", jacobian, residual)
    return np.asarray(np.linalg.solve(_normal(jacobian), right[..., None])[..., 0])


def log_interval(found: Profile, limit: float, logs: Array, slopes: Array) -> tuple[float, float]:
    """Interval of a quantity whose log is ``logs`` (k,) for each tight direction.

    ``slopes`` (k, 3) are its derivatives by the logs of the compliances; all directions whose
    misfit is within ``limit`` count.
    """
    within = found.misfit <= limit
    spread = np.einsum("ki,kij,kj->k", slopes[within], found.covariance[within], slopes[within])
    reach = np.sqrt(np.maximum(limit - found.misfit[within], 0.0) * np.maximum(spread, 0.0))
    return float((logs[within] - reach).min()), float((logs[within] + reach).max())


def tight_interval(found: Profile, limit: float) -> tuple[float, float, bool]:
    """(low, high, one): the tight directions within ``limit`` about the best one.

    ``one`` is False when others, apart from these, cannot be ruled out either. The ends may run
    past 90 degrees; ends 180 degrees apart mean that every direction is possible.
    """
    best = found.tight_deg[found.best]
    turn = (found.tight_deg - best + 90.0) % 180.0 - 90.0
    order = np.argsort(turn)
    turn, misfit = turn[order], found.misfit[order]
    ends = []
    for sign in (-1.0, 1.0):
        side = (turn * sign)[turn * sign >= 0]
        rise = misfit[turn * sign >= 0]
        walk = np.argsort(side)
        side, rise = side[walk], rise[walk]
        out = np.flatnonzero(rise > limit)
        if not len(out):
            ends.append(90.0)
            continue
        i = int(out[0])
        if i == 0:
            ends.append(0.0)
            continue
        # the misfit grows like the square of the turn: interpolate its root
        a, b, c = np.sqrt(np.maximum(np.array([rise[i - 1], rise[i], limit]) - misfit.min(), 0.0))
        ends.append(float(side[i - 1] + (side[i] - side[i - 1]) * (c - a) / max(b - a, 1e-300)))
    apart = (misfit <= limit) & ((turn < -ends[0] - STEP_DEG) | (turn > ends[1] + STEP_DEG))
    return float(best - ends[0]), float(best + ends[1]), not bool(apart.any())
