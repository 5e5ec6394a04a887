"""Targets: on the stage, outside the scenery, at the height of what is really there.

Each target that units aim at is judged once, and the finding names the units.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

import numpy as np

from aimcalc.findings.mixed_units import slip
from aimcalc.findings.report import NOTE, STOP, WARN, about
from aimcalc.geometry.aim import Flags, pose
from aimcalc.geometry.deck import Deck, bare_height, height
from aimcalc.geometry.vectors import Array, angles_between, dot, points, to_degrees, to_radians
from aimcalc.named import NamedTuple
from aimcalc.rig.places import gripped, inside, place
from aimcalc.rig.rig import allowed
from aimcalc.rig.wording import HANG, angle, count, length, level, plan, rounded, whole
from aimcalc.scene.model import PlanPoint, Target
from aimcalc.solid.answers import Finding
from aimcalc.solid.rig import SolidRig

HEIGHT_WITHIN = 0.05  # m; 2 in, as for a pipe out of level (common practice, no source)
COULD_BE_FACE = (
    0.9  # m above the deck from which a bare z may mean a face, a seat, a wall (our choice)
)


class Aimed(NamedTuple):
    """T places aimed at, and which units aim there: named targets, then points of single units.

    `point` (3, T) is what the axis goes through, `given` (T,) the z that the user gave (NaN: none) for
    the surface, or for the point itself where `exact`.
    """

    units: list[list[int]]
    targets: list[Target | None]
    point: Array
    given: Array
    exact: Flags


def aimed(rig: SolidRig) -> Aimed:
    """Every place that some unit aims at."""
    rows: dict[object, list[int]] = {}
    for k, unit in enumerate(rig.units):
        rows.setdefault(unit.target or unit.point, []).append(k)
    known = {target.name: target for target in rig.scene.targets}
    targets = [known.get(key) if isinstance(key, str) else None for key in rows]
    units = list(rows.values())
    return Aimed(
        units=units,
        targets=targets,
        point=rig.arrays.point[:, [group[0] for group in units]],
        given=np.array([_given(t, rig, group[0]) for t, group in zip(targets, units, strict=True)]),
        exact=np.array([t is None or t.plane == "point" for t in targets], dtype=bool),
    )


def _given(target: Target | None, rig: SolidRig, unit: int) -> float:
    if target is None:
        return float(rig.arrays.point[2, unit])
    return np.nan if target.z is None else target.z


def called(rig: SolidRig, places: Aimed, j: int) -> str:
    """A place by name, with the units that aim there, to begin a sentence with."""
    target = places.targets[j]
    units = count([rig.names[k] for k in places.units[j]], "unit")
    return f"Target {target.name} ({units})" if target else f"The point of {units}"


def warned(rig: SolidRig, places: Aimed, j: int, rule: str, says: str, do: str) -> Finding:
    """A warn about a place, of the unit where only one aims there."""
    rows = places.units[j]
    unit = rig.names[rows[0]] if len(rows) == 1 else None
    return Finding(WARN, rule, says, do, unit=unit)


def _on_deck(outline: tuple[PlanPoint, ...], x: float, y: float, share: float) -> bool:
    """Whether a point would be on the deck at a share of its size."""
    return bool(inside(outline, np.array([x * share]), np.array([y * share]))[0])


def off_stage(rig: SolidRig) -> Iterator[Finding]:
    """Warns of faces and deck marks off the stage's outline: in the wings' wall, the pit, the house."""
    outline = rig.scene.stage.outline
    if not outline:
        return
    places = aimed(rig)
    x, y, _ = places.point
    for j in np.flatnonzero(~places.exact & ~inside(outline, x, y)).tolist():
        at = plan(float(x[j]), float(y[j]), rig.scene.settings.unit)
        likely = slip(rig, partial(_on_deck, outline, x[j], y[j]))
        says = f"{called(rig, places, j)} is off the stage's outline ({at}).{likely}"
        do = "Correct the target, its unit of length, or the outline."
        yield warned(rig, places, j, "target-off-stage", says, do)


def in_scenery(rig: SolidRig) -> Iterator[Finding]:
    """Warns of points inside a box of scenery; platforms that may be stood on are judged by height."""
    places = aimed(rig)
    x, y, z = places.point
    for solid in rig.scene.solids:
        if solid.box is None or solid.stand_on:
            continue
        x0, y0, z0, x1, y1, z1 = solid.box
        within = (x > x0) & (x < x1) & (y > y0) & (y < y1) & (z > z0) & (z < z1)
        for j in np.flatnonzero(within).tolist():
            says = f"{called(rig, places, j)} is inside {solid.name}."
            do = "Move the target clear of it, or set stand_on if people stand on top."
            yield warned(rig, places, j, "target-in-scenery", says, do)


def height_differs(rig: SolidRig) -> Iterator[Finding]:
    """Warns where the z given for a target is not the height of deck or platform there.

    A z that may have meant a face is told by `z_or_face` instead. A point may be anywhere over the deck,
    so it is told only when it lies under it.
    """
    places = aimed(rig)
    deck = _deck_below(rig, places.point[0], places.point[1], places.given)
    over = places.given - deck
    differs = np.where(places.exact, over < -HEIGHT_WITHIN, np.abs(over) > HEIGHT_WITHIN + 1e-9)
    for j in np.flatnonzero(differs & ~_may_be_face(places, over)).tolist():
        unit = rig.scene.settings.unit
        side = "above" if over[j] > 0 else "below"
        says = (
            f"{called(rig, places, j)} is given {level(float(places.given[j]), unit)}, "
            f"{length(float(over[j]), unit)} {side} deck or platform there ({level(float(deck[j]), unit)})."
        )
        do = "Leave z out to take the deck's own height, or put the platform in as a solid to stand on."
        yield warned(rig, places, j, "height-differs", says, do)


def z_or_face(rig: SolidRig) -> Iterator[Finding]:
    """Warns of a z without a plane, high enough to have meant a face, a seat or a wall."""
    places = aimed(rig)
    deck = _deck_below(rig, places.point[0], places.point[1], places.given)
    for j in np.flatnonzero(_may_be_face(places, places.given - deck)).tolist():
        unit = rig.scene.settings.unit
        face = length(float(places.point[2, j] - places.given[j]), unit)
        says = (
            f"{called(rig, places, j)} gives {level(float(places.given[j]), unit)} without a plane: taken "
            f"as what somebody stands on, with a face {face} above."
        )
        do = 'Say plane = "face" or "deck" if it is stood on, "point" if z is the point itself.'
        yield warned(rig, places, j, "z-or-face", says, do)


def _may_be_face(places: Aimed, over: Array) -> Flags:
    silent = np.array([t is not None and not t.plane_given for t in places.targets], dtype=bool)
    return np.asarray(silent & (over >= COULD_BE_FACE))


def _deck_below(rig: SolidRig, x: Array, y: Array, z: Array) -> Array:
    """Height of the surface to stand on at each place; what begins overhead does not count there."""
    deck = rig.deck
    top = bare_height(deck, y)
    for x0, y0, z0, x1, y1, z1 in deck.boxes.T:
        on = (x >= x0) & (x <= x1) & (y >= y0) & (y <= y1) & ~(z0 > z + HEIGHT_WITHIN)
        top = np.where(on, np.maximum(top, z1), top)
    if deck.triangles.size:
        ramps = height(Deck(deck.rake, deck.rake_from, triangles=deck.triangles), x, y)
        top = np.maximum(top, ramps)
    return top


def planes_not_stated(rig: SolidRig) -> Iterator[Finding]:
    """Notes once how many targets state no plane: they are faces, unless somebody says otherwise."""
    used = {unit.target for unit in rig.units}
    silent = [
        t.name for t in rig.scene.targets if not t.plane_given and t.z is None and t.name in used
    ]
    if silent:
        face = length(rig.scene.settings.face_height, rig.scene.settings.unit)
        says = f"No plane is given for {count(silent, 'target')}: taken as faces {face} up."
        do = 'Say plane = "deck" or "point" where a face is not meant.'
        yield Finding(NOTE, "no-plane", says, do)


def not_lit(rig: SolidRig) -> Iterator[Finding]:
    """Notes targets that no unit aims at."""
    used = {unit.target for unit in rig.units}
    spare = [target.name for target in rig.scene.targets if target.name not in used]
    if spare:
        says = f"No unit aims at {count(spare, 'target')}."
        yield Finding(NOTE, "target-unused", says, "Aim a unit there, or take the target out.")


def misses(rig: SolidRig) -> Iterator[Finding]:
    """Stops for units that miss by more than their tolerance when hung and set by the printed figures.

    Pan and down (for a stem that is not plumb: dial and yoke) go to the whole degree, the hang mark to
    5 mm or a quarter inch. An oval field allows what it is wide along the miss.
    """
    axis, to_point = _set_as_printed(rig)
    miss = _off(rig, axis, to_point)
    way = to_point / np.sqrt(dot(to_point, to_point)) - axis
    limit = allowed(rig, np.arange(len(rig.units)), way)
    for k in np.flatnonzero(miss > limit).tolist():
        off, most = to_degrees(miss[k]), to_degrees(limit[k])
        wide = length(float(np.tan(miss[k]) * rig.aims.throw[k]), rig.scene.settings.unit)
        says = (
            f"Set by the printed whole degrees and hang mark, unit {rig.units[k].number} misses by "
            f"{angle(off, 2)} ({wide} at the face); its tolerance is {angle(most, 2)}."
        )
        do = "Raise tolerance in [scene] or take precise off the unit; or print with --draft and aim it live."
        yield about(rig, [k], STOP, "printed-miss", says=says, do=do)


def printed_miss(rig: SolidRig) -> Array:
    """Angle in radians by which each unit misses its point when set by printed figures; NaN: no aim.

    A point inside the unit cannot be missed by a turn: NaN too.
    """
    return _off(rig, *_set_as_printed(rig))


def _off(rig: SolidRig, axis: Array, to_point: Array) -> Array:
    return np.asarray(np.where(np.isnan(rig.aims.throw), np.nan, angles_between(axis, to_point)))


def _set_as_printed(rig: SolidRig) -> tuple[Array, Array]:
    """Axis of each unit set by its printed figures, and what its lens then has to its point, each (3, N)."""
    given, aims = rig.arrays, rig.aims
    turn = aims._replace(pan=_whole(aims.pan)).turn
    axis, up = pose(given.stem, given.reference, turn, _whole(aims.yoke))
    lens = aims.pivot + rig.kept.ask(_moved) + given.nose * axis + given.rise * up
    return axis, given.point - lens


def _whole(radians: Array) -> Array:
    """Angles rounded to whole degrees as on paper."""
    return np.asarray(to_radians(whole(to_degrees(radians))))


def _moved(rig: SolidRig) -> Array:
    """How far each unit hangs from its exact place when it hangs at its printed mark, (3, N)."""
    at = np.array([unit.at or 0.0 for unit in rig.units])
    mark = np.array([rounded(place_m, rig.scene.settings.unit, HANG) for place_m in at.tolist()])
    owns = {name: place(position) for name, position in rig.scene.positions.items()}
    each = zip(rig.positions, rig.units, strict=True)
    along = points([gripped(p, unit, owns[unit.position]).along for p, unit in each])
    return np.asarray(along * (mark - at))
