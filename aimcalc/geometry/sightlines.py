"""The audience and the borders: eyes that a field reaches, units that an eye sees, how high a border hangs.

A border's bottom may hang above every field that passes and below every line of sight. A border is an
upright panel. It is taken to reach from its bottom up without end, as there is another border or the grid
above it. What a field cuts out of the border's plane, up to the plane through the face square to the axis,
is convex; its highest point is one of a few corners, each in closed form:

* where the cone's edge has a level tangent: the plane through the lens that holds the level line across
  the border and touches the cone;
* where the edge crosses either side of the border, or the plane through the face;
* where a side of the border meets the plane through the face.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise

import numpy as np

from aimcalc.geometry.polygon import inside
from aimcalc.geometry.rays import Caster, Flags, occluded
from aimcalc.geometry.solids import Indices
from aimcalc.geometry.vectors import Array, angles_between, cross, dot
from aimcalc.named import NamedTuple

SHORT = 0.01  # metres of a line of sight left out at its far end
HAIR = 1e-9  # metres by which a corner may lie outside what it is a corner of
LINES_AT_ONCE = 1 << 18
FIELDS_AT_ONCE = 1 << 14  # of a unit and a border


class Fields(NamedTuple):
    """Fields of N units: `lens`, `axis`, `face` (3, N); `half` (N,) half the field angle, radians."""

    lens: Array
    axis: Array
    face: Array
    half: Array


class Sightlines(NamedTuple):
    """What must not be seen: `points` (3, N, Q) on N units, and from where: `eyes` (3, M).

    Only units that borders are meant to hide: a boom or a floor unit is seen under any border.
    """

    points: Array
    eyes: Array


class Trim(NamedTuple):
    """Heights between which a border's bottom may hang, and who sets them.

    Below `low` it cuts the field of `low_unit`; above `high` an eye sees `high_unit`. No
    bound is -inf or inf with -1 for who. The range is empty where low > high.
    """

    low: float
    low_unit: int
    high: float
    high_unit: int


class Upright(NamedTuple):
    """An upright panel: a point of its plane, its normal, the level direction across (3,), its sides (2,).

    Of B panels beside the fields of N units: (3, B, 1) and (2, B, 1).
    """

    point: Array
    normal: Array
    across: Array
    side: Array


def trims(
    panels: Sequence[Array], fields: Fields, sights: Sightlines, others: Caster
) -> list[Trim]:
    """The heights at which the bottom of each upright panel (corners (3, 4)) neither cuts nor shows.

    `others` holds what else hides units from eyes; the panels themselves are left out of it. A line of
    sight is the charge of the last border that it passes, the one next to the unit: that border has to
    hang low enough, however low the ones nearer to the eye may be.
    """
    planes = [upright(corners) for corners in panels]
    return bounded(panel_tops(planes, fields), lowest_sights(planes, sights, others))


def bounded(tops: Array, sights: Array) -> list[Trim]:
    """The trims of B borders from their `panel_tops`, (N, B), and their `lowest_sights`, (M, B), metres."""
    lows = [(float(top.max(initial=-np.inf)), top) for top in tops.T]
    highs = [(float(sight.min(initial=np.inf)), sight) for sight in sights.T]
    return [
        Trim(low, _first(low, top), high, _first(high, sight))
        for (low, top), (high, sight) in zip(lows, highs, strict=True)
    ]


def _first(height: float, heights: Array) -> int:
    """The first unit with a height, -1 for one that is no height."""
    return int(np.argmax(heights == height)) if np.isfinite(height) else -1


def field_tops(corners: Array, fields: Fields) -> Array:
    """Highest point at which each field passes an upright panel's plane within its sides, (N,).

    -inf for a field that does not pass it before the face.
    """
    return panel_tops([upright(corners)], fields)[:, 0]


def panel_tops(planes: Sequence[Upright], fields: Fields) -> Array:
    """`field_tops` of B panels, metres, (N, B)."""
    lens, axis, face, half = fields
    here = Fields(lens[:, None], axis[:, None], face[:, None], half)
    step = max(1, FIELDS_AT_ONCE // max(1, half.size))
    found = [_tops(planes[k : k + step], here) for k in range(0, len(planes), step)]
    return np.concatenate([np.zeros((0, half.size)), *found]).T


def _tops(planes: Sequence[Upright], fields: Fields) -> Array:
    """Heights (B, N) of B borders; points of the fields are (3, 1, N)."""
    plane = Upright._make(
        np.stack(column, axis=1)[..., None] for column in zip(*planes, strict=True)
    )
    candidates = [*_level_tangents(plane, fields), *_edge_corners(plane, fields)]
    with np.errstate(invalid="ignore"):
        heights = [np.where(_passes(plane, fields, x), x[2], -np.inf) for x in candidates]
    return np.asarray(np.max(heights, axis=0))


def upright(corners: Array) -> Upright:
    """The upright plane that fits a panel, its corners (3, V) in metres, best in plan, with its two sides."""
    middle = corners.mean(axis=1)
    spread = (corners - middle[:, None])[:2]
    level = np.linalg.svd(spread)[0][:, 0]
    across = np.array([level[0], level[1], 0.0])
    reach = across @ (corners - middle[:, None])
    normal = np.array([-level[1], level[0], 0.0])
    return Upright(middle, normal, across, np.array([reach.min(), reach.max()]))


def _level_tangents(plane: Upright, fields: Fields) -> list[Array]:
    """Points where rays with a level tangent along the borders meet their planes, two (3, B, N).

    A plane z = k n through the lens touches the cone where f . m = -sin g, m = (z - k n) made unit length:
    k^2 (fn^2 - sin^2 g) - 2 k fz fn + fz^2 - sin^2 g = 0.
    """
    fn, fz, sine = _part(plane.normal, fields.axis), fields.axis[2], np.sin(fields.half)
    with np.errstate(divide="ignore", invalid="ignore"):
        root = sine * np.sqrt(fn**2 + fz**2 - sine**2)
        slopes = [(fz * fn + sign * root) / (fn**2 - sine**2) for sign in (1, -1)]
        found = []
        for k in slopes:
            m = np.stack((-k * plane.normal[0], -k * plane.normal[1], np.ones_like(k)))
            m = m / np.sqrt(1 + k**2)
            found.append(_on_plane(plane, fields, fields.axis - dot(fields.axis, m) * m))
    return found


def _on_plane(plane: Upright, fields: Fields, direction: Array) -> Array:
    """Where rays from the lenses meet the borders' planes, (3, B, N); NaN behind the lens."""
    away = _part(plane.normal, plane.point - fields.lens)
    reach = away / _part(plane.normal, direction)
    return fields.lens + np.where(reach > 0, reach, np.nan) * direction


def _edge_corners(plane: Upright, fields: Fields) -> list[Array]:
    """Corners on the border's two sides and on the plane through the face square to the axis."""
    up = np.array([0.0, 0.0, 1.0])[:, None, None]
    found = []
    with np.errstate(divide="ignore", invalid="ignore"):
        for side in plane.side:
            foot = plane.point + side * plane.across
            found += _on_cone(foot, up, fields)
            # Up the side to the plane through the face: f . (foot + t up - face) = 0.
            found.append(foot + up * (dot(fields.axis, fields.face - foot) / fields.axis[2]))
        along = cross(plane.normal, fields.axis)
        # A point of both planes: from the face, within its plane, along the normal's part in it.
        within = plane.normal - _part(plane.normal, fields.axis) * fields.axis
        away = _part(plane.normal, plane.point - fields.face)
        step = away / _part(plane.normal, within)
        found += _on_cone(fields.face + step * within, along, fields)
    return found


def _on_cone(point: Array, along: Array, fields: Fields) -> list[Array]:
    """Where lines (point and direction, (3, B, N)) cross each field's edge, two points alike or NaN.

    (f . x)^2 = cos^2 g |x|^2 with x from the lens, a quadratic in the distance along the line.
    """
    x, c2 = point - fields.lens, np.cos(fields.half) ** 2
    fx, fd = dot(fields.axis, x), dot(fields.axis, along)
    a = fd**2 - c2 * dot(along, along)
    b = fx * fd - c2 * dot(x, along)
    c = fx**2 - c2 * dot(x, x)
    root = np.sqrt(b**2 - a * c)
    return [point + along * ((-b + sign * root) / a) for sign in (1, -1)]


def _passes(plane: Upright, fields: Fields, x: Array) -> Flags:
    """Whether points (3, B, N) of the borders' planes are in the field, before the face, between sides."""
    way = x - fields.lens
    along = dot(way, fields.axis)
    across = _part(plane.across, x - plane.point)
    falls = fields.lens[2] > fields.face[2]
    return np.asarray(
        (along >= np.cos(fields.half) * np.linalg.norm(way, axis=0) - HAIR)
        & (along > 0)
        & (dot(fields.axis, x - fields.face) <= HAIR)
        & (across >= plane.side[0] - HAIR)
        & (across <= plane.side[1] + HAIR)
        & (~falls | (x[2] >= fields.face[2]))
    )


def _part(direction: Array, of: Array) -> Array:
    """How far points (3, ...) go along a level direction (3, ...): the same of one as of many."""
    return np.asarray(direction[0] * of[0] + direction[1] * of[1])


def _last_passed(planes: Sequence[Upright], eyes: Array, way: Array) -> tuple[Indices, Array]:
    """The last of some borders on ways (3, K) from eyes (3, K), -1 for none, and how high, (K,)."""
    last, height = np.full(way.shape[1], -1), np.full(way.shape[1], np.nan)
    farthest = np.zeros(way.shape[1])
    for k, plane in enumerate(planes):
        with np.errstate(divide="ignore", invalid="ignore"):
            away = _part(plane.normal, plane.point[:, None] - eyes)
            share = away / _part(plane.normal, way)
            x = eyes + share * way
        across = _part(plane.across, x - plane.point[:, None])
        passes = (share > farthest) & (share < 1)
        passes &= (across >= plane.side[0]) & (across <= plane.side[1])
        last[passes], height[passes], farthest[passes] = k, x[2, passes], share[passes]
    return last, height


def lowest_sights(planes: Sequence[Upright], sights: Sightlines, others: Caster) -> Array:
    """The lowest height, metres, at which a line to each unit in the charge of each border passes, (N, B).

    Infinite where none does. `others` as in `trims`.
    """
    units, points = sights.points.shape[1:]
    lowest = np.full((units, len(planes)), np.inf)
    every = sights.points.reshape(3, -1)
    step = max(1, LINES_AT_ONCE // max(1, every.shape[1]))
    for k in range(0, sights.eyes.shape[1], step):
        some = sights.eyes[:, k : k + step]
        start, end = np.repeat(some, every.shape[1], axis=1), np.tile(every, some.shape[1])
        last, height = _last_passed(planes, start, end - start)
        rows = np.flatnonzero(last >= 0)
        rows = rows[~_hidden(others, start[:, rows], end[:, rows])]
        unit = rows % every.shape[1] // points
        np.minimum.at(lowest, (unit, last[rows]), height[rows])
    return lowest


MOST_EYES = 20_000  # of a block


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


def in_fields(lens: Array, axis: Array, field: Array, eyes: Array) -> Reached:
    """Every eye (3, M) that lies in the field of one of N units, whatever stands in between.

    `lens` and `axis` are (3, N), `field` (N,) full angles in radians. No eye is in one with a NaN in it.
    """
    found = [(np.zeros(0, dtype=np.int64), np.zeros(0, dtype=np.int64), np.zeros(0))]
    step = max(1, LINES_AT_ONCE // max(1, eyes.shape[1]))
    for k in range(0, field.size, step):
        some = slice(k, k + step)
        way = eyes[:, None, :] - lens[:, some, None]
        angle = angles_between(way, axis[:, some, None])
        unit, eye = np.nonzero(angle <= field[some, None] / 2)
        found.append((unit + k, eye, angle[unit, eye]))
    return Reached(*(np.concatenate(parts) for parts in zip(*found, strict=True)))


def reached(
    between: Callable[[Array, Array], Caster], inside: Reached, *, lens: Array, eyes: Array
) -> Reached:
    """Those of the eyes (3, M) `inside` fields that have a clear line to the lens, of N at `lens` (3, N).

    `between` gives what may stand between some points and others, (3, K) both.
    """
    clear = np.zeros(inside.unit.size, np.bool_)
    step = max(1, LINES_AT_ONCE // max(1, eyes.shape[1]))
    ends = np.searchsorted(inside.unit, np.arange(0, lens.shape[1] + step, step))
    for first, last in pairwise(ends.tolist()):
        some = slice(first, last)
        lines = lens[:, inside.unit[some]], eyes[:, inside.eye[some]]
        if first < last:
            clear[some] = ~_hidden(between(*lines), *lines)
    return Reached._make(column[clear] for column in inside)


def seen(ready: Caster, *, points: Array, eyes: Array) -> Seen:
    """Every unit of which an eye (3, M) sees some point; `points` (3, N, Q) lie on the N units.

    The soup has to hold what may hide the units, and not the units themselves.
    """
    units, per_unit = points.shape[1:]
    share = np.zeros((units, eyes.shape[1]))
    flat = points.reshape(3, -1)
    known = np.isfinite(flat).all(axis=0)
    step = max(1, LINES_AT_ONCE // max(1, flat.shape[1]))
    for k in range(0, eyes.shape[1], step):
        some = eyes[:, k : k + step]
        start, end = np.repeat(some, flat.shape[1], axis=1), np.tile(flat, some.shape[1])
        clear = ~_hidden(ready, start, end).reshape(some.shape[1], -1) & known
        share[:, k : k + step] = clear.reshape(-1, units, per_unit).mean(axis=2).T
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
