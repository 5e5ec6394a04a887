"""Can each unit be turned from square to its aim beside what hangs there, and in which order?"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from aimcalc.findings.report import (
    NOTE,
    WARN,
    about,
    grouped,
    name_beside,
    numbers,
    of_pair,
    subject,
)
from aimcalc.findings.targets import Aimed, aimed, called, warned
from aimcalc.geometry.clearance import bounds, near, to_others
from aimcalc.geometry.hulls import Hulls, gap, joined, rods, take
from aimcalc.geometry.rays import Flags
from aimcalc.geometry.solids import Indices, Shape
from aimcalc.geometry.sweep import TOUCH as PASSED
from aimcalc.geometry.sweep import (
    Beside,
    Neighbours,
    Order,
    Path,
    beside_of,
    fixed_in_reach,
    past_fixed,
    past_neighbours,
    setting_order,
)
from aimcalc.geometry.vectors import Array
from aimcalc.named import NamedTuple
from aimcalc.rig.wording import listed
from aimcalc.solid.answers import Finding
from aimcalc.solid.rig import SolidRig
from aimcalc.solid.solids import ARM, BOOM, PIPE, STAND

BY_HAND = "Work it round by hand with the clamp loose."
MOST_IN_ORDER = 24  # units of a row whose order is told whole
SPREAD = "Spread them, or hang one of them the other way."


def setting(rig: SolidRig) -> Iterator[Finding]:
    """Warns of units that wait for others, must be turned before they are tipped, or are let past by nothing.

    Units that touch as they are aimed, or pass for touching, are told by the rules for bodies, and have no
    order.
    """
    close = rig.solids.close_units
    touch = close.gap <= PASSED
    together = np.stack((close.unit[touch], close.other[touch]))
    beside = rig.kept.ask(_beside)
    turns = past_neighbours(rig.solids.hung, touching=together, tried=rig.tried, beside=beside)
    order = setting_order(len(rig.units), turns)
    yield from _orders(rig, order)
    for i, j in order.impossible:
        says = (
            f"Unit {rig.units[i].number} and unit {name_beside(rig, i, j)} cannot be turned past each "
            "other to their aims, whichever is set first."
        )
        yield of_pair(rig, i, j, WARN, "no-way-past", says=says, do=SPREAD)
    fixed = _past_fixed(rig)
    yield from _fixed(rig, fixed)
    yield from _turned_first(rig, order, turns, fixed, together)


def _orders(rig: SolidRig, order: Order) -> Iterator[Finding]:
    """A warning on the row of every unit that has to wait for another."""
    waiting: dict[int, list[int]] = {}
    for first, then in order.before:
        waiting.setdefault(then, []).append(first)
    knots: dict[str, list[int]] = {}
    for k in sorted({k for pair in order.before for k in pair} & set(order.knot)):
        knots.setdefault(rig.units[k].position, []).append(k)
    for position, rows in knots.items():
        names = listed(rig.names[k] for k in rows)
        says = f"Units {names} block each other: each has to be set before another of them."
        yield Finding(WARN, "no-way-past", says, SPREAD, position=position)
    in_order: dict[str, list[int]] = {}
    for k in order.order:
        in_order.setdefault(rig.units[k].position, []).append(k)
    place = {k: j for rows in in_order.values() for j, k in enumerate(rows)}
    knotted = set(order.knot)
    for then, firsts in waiting.items():
        if then in knotted:
            continue
        before = listed(name_beside(rig, then, first) for first in firsts)
        says = (
            f"Set {before} before {rig.units[then].number}: turned in another order, their bodies "
            "would touch."
        )
        row, whose = in_order[rig.units[then].position], "the row"
        if len(row) > MOST_IN_ORDER:  # of a long row what comes just before it
            row, whose = row[max(0, place[then] - MOST_IN_ORDER) : place[then] + 1], "these"
        do = f"Set {whose} in this order: {', '.join(numbers(rig, row))}."
        yield about(rig, [then], WARN, "set-in-order", says=says, do=do)


def _turned_first(
    rig: SolidRig, order: Order, turns: Neighbours, fixed: Fixed, together: Indices
) -> Iterator[Finding]:
    """Warns of units that clear what is beside them only if they are turned before they are tipped.

    Which way the rest of what is near lets through is looked at only where there is such a unit.
    """
    some = np.zeros(len(rig.units), dtype=bool)
    for way in _ways(rig, order, turns, fixed):
        some[way.unit] |= way.clear and not way.tip_first
    if not some.any():
        return
    turns = past_neighbours(
        rig.solids.hung, touching=together, some=some, both=True, tried=rig.tried
    )
    fixed = _past_fixed(rig, both=True)
    passed: dict[int, list[_Way]] = {}
    for way in _ways(rig, order, turns, fixed):
        if way.clear:
            passed.setdefault(way.unit, []).append(way)
    for k, ways in passed.items():
        turned = list(dict.fromkeys(way.beside for way in ways if not way.tip_first))
        tipped = list(dict.fromkeys(way.beside for way in ways if not way.turn_first))
        number = rig.units[k].number
        if turned and tipped:
            says = (
                f"Unit {number} clears {listed(turned)} only when it is turned first, and {listed(tipped)} "
                "only when it is tipped first."
            )
            yield about(rig, [k], WARN, "turn-first", says=says, do=BY_HAND)
        elif turned:
            says = f"Turn unit {number} before it is tipped: tipped first, it touches {listed(turned)}."
            do = "Pan it to its mark with the lens level, lock the pan, then tip it."
            yield about(rig, [k], WARN, "turn-first", says=says, do=do)


class _Way(NamedTuple):
    """One unit past one thing beside it, as that is when its turn comes."""

    unit: int
    beside: str
    clear: bool
    tip_first: bool
    turn_first: bool


def _ways(rig: SolidRig, order: Order, turns: Neighbours, fixed: Fixed) -> Iterator[_Way]:
    """Every unit past its neighbours, set before it or still square by the order, and past what is fixed."""
    place = {k: i for i, k in enumerate(order.order)}
    pairs = zip(turns.unit.tolist(), turns.other.tolist(), strict=True)
    for row, (i, j) in enumerate(pairs):
        path = turns.beside_set if place[j] < place[i] else turns.beside_square
        yield _Way(i, f"unit {name_beside(rig, i, j)}", *_told(path, row))
    for row, (i, owner) in enumerate(zip(fixed.unit.tolist(), fixed.owner.tolist(), strict=True)):
        yield _Way(i, rig.solids.obstacles[owner].name, *_told(fixed.path, row))


def _told(path: Path, row: int) -> tuple[bool, bool, bool]:
    return bool(path.clear[row]), bool(path.tip_first[row]), bool(path.turn_first[row])


class Fixed(NamedTuple):
    """Units past pipes and scenery: the unit's row, the owner of what it passes, what becomes of it."""

    unit: Indices
    owner: Indices
    path: Path
    others: Hulls


def _past_fixed(rig: SolidRig, *, both: bool = False) -> Fixed:
    solids = rig.solids
    others, *reached = rig.kept.ask(_fixed_beside)
    unit, row, path = past_fixed(
        solids.hung, others, both=both, tried=rig.tried, reached=(reached[0], reached[1])
    )
    return Fixed(unit, others.owner[row], path, others)


def _beside(rig: SolidRig) -> Beside:
    return beside_of(rig.solids.hung)


def _fixed_beside(rig: SolidRig) -> tuple[Hulls, Indices, Indices]:
    """Pipes and scenery, and which units could reach which of them."""
    solids = rig.solids
    others = joined(solids.rods(PIPE, BOOM, STAND, ARM), solids.scenery_triangles)
    return others, *fixed_in_reach(solids.hung, others, solids.held_by())


def _fixed(rig: SolidRig, fixed: Fixed) -> Iterator[Finding]:
    """Notes units that cannot be turned to their aims without touching pipes or scenery."""
    blocked = sorted(_in_the_way(rig, fixed))
    for group in grouped(rig, [k for k, _ in blocked], [owner for _, owner in blocked]):
        rows = [blocked[j][0] for j in group]
        thing = rig.solids.obstacles[blocked[group[0]][1]].name
        says = (
            f"{subject(rig, rows, 'touches', 'touch')} {thing} on the way from square to the aim, "
            "tipped first or turned first."
        )
        do = f"Set it before that is in its place, or {BY_HAND[0].lower()}{BY_HAND[1:]}"
        yield about(rig, rows, NOTE, "touches-on-the-way", says=says, do=do)


def _in_the_way(rig: SolidRig, fixed: Fixed) -> set[tuple[int, int]]:
    """Units and the owners that are in their way, but for those that they touch at their aims as well."""
    stopped = np.flatnonzero(~fixed.path.clear)
    if not stopped.size:
        return set()
    found = _pairs(fixed.unit[stopped], fixed.owner[stopped])
    at_aim = to_others(rig.solids.corners, fixed.others, within=PASSED)
    return found - _pairs(at_aim.unit, at_aim.other)


def _pairs(first: Indices, second: Indices) -> set[tuple[int, int]]:
    return set(zip(first.tolist(), second.tolist(), strict=True))


BODY_RADIUS = 0.10  # m; somebody who stands, drawn thin (estimate, no source)
OFF_THE_FLOOR = 0.30  # m; a sill or a rail is stepped over (estimate, no source)
NOT_ON_AN_EDGE = np.array(
    [1.7e-7, 2.3e-7, 0.0]
)  # m; a line through an edge would meet it twice or not at all
ON_THE_FACE = 0.05  # m; a point this near to a surface is on it


def in_scenery(rig: SolidRig) -> Iterator[Finding]:
    """Warns of faces whose owners stand through a panel or mesh, and of points inside a closed mesh.

    Boxes are judged with the targets; what may be stood on is judged by its height.
    """
    places = aimed(rig)
    found = _stood_in(rig, places) | _inside_meshes(rig, places)
    judged = [not solid.stand_on and solid.box is None for solid in rig.scene.solids]
    for solid, j in sorted(found):
        if judged[solid]:
            says = f"{called(rig, places, j)} is inside {rig.scene.solids[solid].name}."
            do = "Move the target clear of it, or correct the solid."
            yield warned(rig, places, j, "target-in-scenery", says, do)


def _stood_in(rig: SolidRig, places: Aimed) -> set[tuple[int, int]]:
    """Solids and places where somebody with a face there would stand through the solid."""
    face = [target is not None and target.plane == "face" for target in places.targets]
    some = np.flatnonzero(face)
    rows = [places.units[j][0] for j in some.tolist()]
    foot = rig.arrays.stand[:, rows] + np.array([[0.0], [0.0], [OFF_THE_FLOOR + BODY_RADIUS]])
    ends = foot.T, places.point[:, some].T
    found = rig.kept.of_units(_touched, ends, rig.solids.scenery_triangles, BODY_RADIUS)
    return _pairs(found.owner, some[found.place])


class _Touch(NamedTuple):
    """Places, and the owners of triangles that come to them, (M,) each."""

    place: Indices
    owner: Indices


def _touched(start: Array, end: Array, triangles: Hulls, radius: float) -> _Touch:
    """What touches the rods from some points (T, 3) to others."""
    bodies = rods(start.T, end.T, radius=radius, owner=np.arange(len(start)))
    first, second = near(
        bounds(bodies.points, bodies.radius), bounds(triangles.points, triangles.radius), 0.0
    )
    touch = gap(take(bodies, first), take(triangles, second), within=0.0) <= 0
    return _Touch(first[touch], triangles.owner[second[touch]])


def _inside_meshes(rig: SolidRig, places: Aimed) -> set[tuple[int, int]]:
    """Closed meshes and the places inside them; a point on the face of a mesh is not inside."""
    found: set[tuple[int, int]] = set()
    meshes = [k for k, solid in enumerate(rig.scene.solids) if solid.mesh and not solid.stand_on]
    for k in meshes:
        inside = np.flatnonzero(_within(places.point, rig.solids.obstacles[k].shape))
        found |= {(k, j) for j in inside.tolist()}
    if not found:
        return found
    some = np.array(sorted({j for _, j in found}))
    at = places.point.T[some]
    on = _touched(at, at, rig.solids.scenery_triangles, ON_THE_FACE)
    return found - _pairs(on.owner, some[on.place])


def _within(points: Array, shape: Shape) -> Flags:
    """Whether points (3, T) are inside a closed mesh: plumb above each it is met an odd number of times."""
    low, high = shape.vertices.min(axis=1)[:, None], shape.vertices.max(axis=1)[:, None]
    inside = ((points > low) & (points < high)).all(axis=0)
    for j in np.flatnonzero(inside).tolist():
        inside[j] = _above(points[:, j], shape) % 2
    return np.asarray(inside)


def _above(point: Array, shape: Shape) -> int:
    """How many triangles lie plumb above a point."""
    a, b, c = (shape.vertices[:, shape.faces[k]] for k in range(3))
    x, y, z = point + NOT_ON_AN_EDGE
    with np.errstate(divide="ignore", invalid="ignore"):  # upright triangles have no area in plan
        area = (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1])
        s = ((x - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (y - a[1])) / area
        t = ((b[0] - a[0]) * (y - a[1]) - (x - a[0]) * (b[1] - a[1])) / area
        over = a[2] + s * (b[2] - a[2]) + t * (c[2] - a[2]) > z
        return int(np.count_nonzero((s >= 0) & (t >= 0) & (s + t <= 1) & over))
