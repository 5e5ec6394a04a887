"""The audience: eyes that a field reaches, and units that an eye in the front row sees."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from aimcalc.geometry.polygon import inside
from aimcalc.geometry.rays import Caster, Flags, occluded
from aimcalc.geometry.solids import Indices
from aimcalc.geometry.vectors import Array

SHORT = 0.01  # metres of the line of sight left out at the far end
MOST_EYES = 20_000  # of a block
LINES_AT_ONCE = 1 << 18


class Reached(NamedTuple):
    """Eyes inside a field with nothing in between, one row each: unit, eye, angle off axis (radians)."""

    unit: Indices
    eye: Indices
    angle: Array


class Seen(NamedTuple):
    """Units that an eye sees, one row each: unit, eye, share of the unit's points that it sees."""

    unit: Indices
    eye: Indices
    share: Array


def seat_grid(outline: Array, *, eye: float, spacing: float = 1.0) -> Array:
    """Eye points (3, M) on a square grid inside a plan outline (2, V), never fewer than its corners'.

    The grid starts half a spacing inside the outline's lowest x and y; the corners come last. The box round
    an outline holds MOST_EYES at the most: in a larger house they are further apart.
    """
    low, high = outline.min(axis=1), outline.max(axis=1)
    spacing = max(spacing, float(np.sqrt(np.prod(high - low) / MOST_EYES)))
    x, y = (np.arange(a + spacing / 2, b, spacing) for a, b in zip(low, high, strict=True))
    grid = np.stack([part.ravel() for part in np.meshgrid(x, y)])
    plan = np.concatenate((grid[:, inside(outline, grid)], outline), axis=1)
    return np.concatenate((plan, np.full((1, plan.shape[1]), eye)))


def front_row(outline: Array, *, eye: float, spacing: float = 0.5) -> Array:
    """Eye points (3, M) along the upstage edge of a plan outline (2, V), that nearest the stage."""
    low, high = outline[0].min(), outline[0].max()
    x = np.linspace(low, high, max(2, int(np.ceil((high - low) / spacing)) + 1))
    return np.stack((x, _upstage_edge(outline, x), np.full(x.size, eye)))


def reached(ready: Caster, *, lens: Array, axis: Array, field: Array, eyes: Array) -> Reached:
    """Every eye (3, M) that lies in the field of one of N units and has a clear line to its lens.

    `lens` and `axis` are (3, N), `field` (N,) full angles in radians. A unit with a NaN in it reaches
    nobody.
    """
    found = [(np.zeros(0, dtype=np.int64), np.zeros(0, dtype=np.int64), np.zeros(0))]
    step = max(1, LINES_AT_ONCE // max(1, eyes.shape[1]))
    for k in range(0, field.size, step):
        some = slice(k, k + step)
        way = eyes[:, None, :] - lens[:, some, None]
        along = (way * axis[:, some, None]).sum(axis=0)
        across = np.linalg.norm(np.cross(way, axis[:, some, None], axis=0), axis=0)
        angle = np.arctan2(across, along)
        unit, eye = np.nonzero(angle <= field[some, None] / 2)
        clear = ~_hidden(ready, lens[:, some][:, unit], eyes[:, eye])
        found.append((unit[clear] + k, eye[clear], angle[unit, eye][clear]))
    return Reached(*(np.concatenate(parts) for parts in zip(*found, strict=True)))


def seen(ready: Caster, *, points: Array, eyes: Array) -> Seen:
    """Every unit of which an eye (3, M) sees some point; `points` (3, N, Q) lie on the N units.

    The soup has to hold what may hide the units, and not the units themselves.
    """
    units, per_unit = points.shape[1:]
    share = np.zeros((units, eyes.shape[1]))
    flat = points.reshape(3, -1)
    for k in range(eyes.shape[1]):
        clear = ~_hidden(ready, np.repeat(eyes[:, [k]], flat.shape[1], axis=1), flat)
        clear &= np.isfinite(flat).all(axis=0)
        share[:, k] = clear.reshape(units, per_unit).mean(axis=1)
    unit, eye = np.nonzero(share)
    return Seen(unit, eye, share[unit, eye])


def _hidden(ready: Caster, start: Array, end: Array) -> Flags:
    """Whether anything stands between pairs of points (3, K)."""
    way = end - start
    length = np.linalg.norm(way, axis=0)
    with np.errstate(divide="ignore", invalid="ignore"):
        return occluded(ready, start, way / length, length - SHORT)


def _upstage_edge(outline: Array, x: Array) -> Array:
    """The greatest y of an outline (2, V) at each x within it."""
    edge = np.full(x.size, -np.inf)
    for (x0, y0), (x1, y1) in zip(outline.T, np.roll(outline, -1, axis=1).T, strict=True):
        over = (np.minimum(x0, x1) <= x) & (x <= np.maximum(x0, x1))
        share = (x - x0) / (x1 - x0) if x0 != x1 else np.ones_like(x)
        y = y0 + share * (y1 - y0) if x0 != x1 else np.full(x.size, max(y0, y1))
        edge = np.where(over, np.maximum(edge, y), edge)
    return edge
