"""Light that does not get to the face: cut by borders, legs and scenery, or by a neighbour."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from itertools import groupby
from math import isfinite

import numpy as np

from aimcalc.findings.report import (
    NOTE,
    STOP,
    WARN,
    about,
    by_position,
    grouped,
    name_beside,
    numbers,
    percent,
    subject,
)
from aimcalc.geometry.clearance import nearest_ahead
from aimcalc.geometry.hulls import Hulls
from aimcalc.geometry.rays import Caster
from aimcalc.geometry.sightlines import (
    Fields,
    Reached,
    Seen,
    Sightlines,
    Trim,
    Upright,
    bounded,
    in_fields,
    lowest_sights,
    panel_tops,
    reached,
    seat_grid,
    seen,
    upright,
)
from aimcalc.geometry.solids import Indices
from aimcalc.geometry.vectors import Array, among, points, to_radians
from aimcalc.named import NamedTuple
from aimcalc.rig.kept import Each, each
from aimcalc.rig.wording import length, level, listed, plan
from aimcalc.scene.model import Seats
from aimcalc.solid.answers import Finding
from aimcalc.solid.rig import SolidRig
from aimcalc.solid.side_view import (
    Row,
    border_before,
    borders_of,
    front_row_of,
    masked,
    sight_points,
)

WORTH_TELLING = (
    0.01  # of the field's light (common practice, no source: less is not seen on a face)
)
ALL = 0.995  # of the field's light: what is told as 100 %
NEIGHBOUR = 0.02  # of the field's light (estimate, no source)


def neighbours(rig: SolidRig) -> Iterator[Finding]:
    """Warns of units that lose over 2 % of their field to another unit."""
    first = len(rig.solids.obstacles)
    for j in np.flatnonzero((rig.lost.owner >= first) & (rig.lost.part > NEIGHBOUR)).tolist():
        k, other = int(rig.lost.unit[j]), int(rig.lost.owner[j]) - first
        says = (
            f"Unit {rig.units[k].number} loses {percent(rig.lost.part[j])} of its field to unit "
            f"{name_beside(rig, k, other)}."
        )
        do = "Spread them, set the other one first and look, or turn this one less."
        yield about(rig, [k], WARN, "neighbour-in-light", says=says, do=do)


def scenery(rig: SolidRig) -> Iterator[Finding]:
    """Warns of fields cut by solids and tubes, a position's units together for each, with heights.

    A field that is lost whole is told by `all_lost`.
    """
    worth = (rig.lost.owner < len(rig.solids.obstacles)) & (rig.lost.part >= WORTH_TELLING)
    worth &= rig.lost.share[rig.lost.unit] < ALL
    rows = np.flatnonzero(worth)
    units, owners = rig.lost.unit[rows].tolist(), rig.lost.owner[rows].tolist()
    for group in grouped(rig, units, owners):
        yield _cut(rig, [units[j] for j in group], owners[group[0]], rows[group])


def all_lost(rig: SolidRig) -> Iterator[Finding]:
    """Warns of units whose light is all stopped before their point, by one thing or by several."""
    dark = np.flatnonzero(rig.lost.share >= ALL).tolist()
    for _, group in groupby(dark, lambda k: rig.units[k].position):
        rows = list(group)
        owners = dict.fromkeys(rig.lost.owner[among(rig.lost.unit, np.array(rows))].tolist())
        names = listed([rig.solids.names[owner] for owner in owners])
        loses = subject(rig, rows, "loses", "lose")
        says = f"{loses} all light on the way to the target, to {names}. Scenery in the wrong place or unit?"
        do = "Correct the solid or the target; look at the section, or at solve --glb."
        yield about(rig, rows, WARN, "all-lost", says=says, do=do)


def _cut(rig: SolidRig, units: list[int], owner: int, rows: Indices) -> Finding:
    part, lowest = rig.lost.part[rows], rig.lost.lowest[rows]
    thing = rig.solids.obstacles[owner].name
    up = level(float(lowest.min()), rig.scene.settings.unit)
    worst = ""
    if len(units) > 1:
        worst = f", unit {numbers(rig, [units[int(part.argmax())]])[0]} most"
    loses = subject(rig, units, "loses", "lose")
    whose = "its" if len(units) == 1 else "their"
    says = f"{loses} {_shares(part)} of {whose} field to {thing}, from {up}{worst}."
    do = "Trim or move what is in the way, aim past it, or cut that edge with a shutter."
    return about(rig, units, WARN, "field-cut", says=says, do=do)


def _shares(part: Array) -> str:
    low, high = percent(part.min()), percent(part.max())
    return low if low == high else f"{low.removesuffix(' %')} to {high}"


EYES_APART = 1.0  # m, each way


def in_eyes(rig: SolidRig) -> Iterator[Finding]:
    """Warns of fields that reach seats at eye height, how many of them, and where it is worst."""
    fields = rig.aims.lens.T, rig.aims.axis.T, rig.arrays.field
    for block in rig.scene.seats:
        eyes = rig.kept.ask(_eyes_of, block, key=block.name)
        inside = rig.kept.of_units(_in_fields, fields, eyes, key=block.name)
        between = partial(rig.solids.between, key=block.name)
        found = reached(between, inside, lens=rig.aims.lens, eyes=eyes)
        share = np.bincount(found.unit, minlength=len(rig.units)) / eyes.shape[1]
        for rows in by_position(rig, share > 0):
            yield _reach(rig, rows, block, share, found, eyes)


def _eyes_of(_: SolidRig, block: Seats) -> Array:
    return seat_grid(np.array(block.outline).T, eye=block.eye, spacing=EYES_APART)


def _in_fields(lens: Array, axis: Array, field: Array, eyes: Array) -> Reached:
    return in_fields(lens.T, axis.T, field, eyes)


def _reach(
    rig: SolidRig, rows: list[int], block: Seats, share: Array, found: Reached, eyes: Array
) -> Finding:
    worst = max(rows, key=lambda k: float(share[k]))
    mine = np.flatnonzero(found.unit == worst)
    x, y, z = eyes[:, found.eye[mine[np.argmin(found.angle[mine])]]].tolist()
    unit = rig.scene.settings.unit
    throws = subject(rig, rows, "throws its field", "throw their fields")
    most, who = ("", "") if len(rows) == 1 else ("up to ", f" (unit {numbers(rig, [worst])[0]})")
    says = (
        f"{throws} into the eyes of {most}{percent(share[worst])} of {block.name}{who}; worst at "
        f"{plan(x, y, unit)}, eyes {level(z, unit)}."
    )
    do = "Cut that edge with a shutter or a door, hang it steeper, or use a narrower lens."
    return about(rig, rows, WARN, "field-in-seats", says=says, do=do)


def seen_under_borders(rig: SolidRig) -> Iterator[Finding]:
    """Warns of units that borders are meant to hide and that the front row sees all the same."""
    row = rig.kept.ask(_front_row)
    hidden = masked(rig)
    if row is None or not hidden.size:
        return
    points = sight_points(rig, hidden).transpose(1, 2, 0)
    found = rig.kept.of_units(_seen, [points], row.eyes, rig.solids.scenery)
    most = np.zeros(len(rig.units))
    np.maximum.at(most, hidden[found.unit], found.share)
    for rows in by_position(rig, most > 0):
        part = percent(max(most[rows]))
        whose = "its body"
        if len(rows) > 1:
            worst = max(rows, key=lambda k: float(most[k]))
            part, whose = f"up to {part}", f"unit {numbers(rig, [worst])[0]}'s body"
        show = subject(rig, rows, "shows", "show")
        says = (
            f"{show} under {border_before(rig, rows)} from the front row of {row.name}: {part} of "
            f"{whose}."
        )
        do = "Bring the border in, trim the pipe higher, or agree that they show."
        yield about(rig, rows, WARN, "seen-under-border", says=says, do=do)


def _front_row(rig: SolidRig) -> Row | None:
    return front_row_of(rig.scene)


def _seen(points: Array, eyes: Array, ready: Caster) -> Seen:
    return seen(ready, points=points.transpose(2, 0, 1), eyes=eyes)


def trims(rig: SolidRig) -> Iterator[Finding]:
    """A note for each border: its range of heights; a warn where there is none."""
    borders = borders_of(rig.scene)
    if not borders:
        return
    row = rig.kept.ask(_front_row)
    for k, trim in zip(borders, border_trims(rig, borders, row), strict=True):
        yield _told(rig, k, trim, row)


def border_trims(rig: SolidRig, borders: list[int], row: Row | None) -> list[Trim]:
    """The range of heights of each border's bottom edge; without seats nothing bounds it from above."""
    hidden = masked(rig)
    eyes = np.zeros((3, 0)) if row is None else row.eyes
    planes = rig.kept.ask(_uprights, borders)
    fields = rig.aims.lens.T, rig.aims.axis.T, rig.arrays.point.T, rig.arrays.field / 2
    tops = rig.kept.of_units(_tops, fields, planes).value
    seen_at = [sight_points(rig, hidden).transpose(1, 2, 0)]
    sights = rig.kept.of_units(_sights, seen_at, planes, eyes, rig.solids.without(borders)).value
    found = bounded(tops, sights)
    return [
        t._replace(high_unit=int(hidden[t.high_unit])) if t.high_unit >= 0 else t for t in found
    ]


def _uprights(rig: SolidRig, borders: list[int]) -> list[Upright]:
    return [upright(points(rig.scene.solids[k].panel or ())) for k in borders]


def _tops(lens: Array, axis: Array, face: Array, half: Array, planes: list[Upright]) -> Each:
    return each(panel_tops(planes, Fields(lens.T, axis.T, face.T, half)))


def _sights(points: Array, planes: list[Upright], eyes: Array, others: Caster) -> Each:
    return each(lowest_sights(planes, Sightlines(points.transpose(2, 0, 1), eyes), others))


def _told(rig: SolidRig, border: int, trim: Trim, row: Row | None) -> Finding:
    solid, unit = rig.scene.solids[border], rig.scene.settings.unit
    bottom = min(corner[2] for corner in solid.panel or ())
    hangs = f"{solid.name} hangs {level(bottom, unit)}"
    bounds = "; ".join(_bounds(rig, trim, row))
    if trim.low > trim.high:
        says = f"{_capital(hangs)}; no trim satisfies both: {bounds}."
        do = "Decide which matters more; re-aim, shutter, or trim the pipe behind it higher."
        return Finding(WARN, "border-no-trim", says, do)
    says = f"{_capital(hangs)}; {bounds or 'nothing depends on its height'}."
    return Finding(NOTE, "border-trim", says, _move(trim, bottom, unit))


def _bounds(rig: SolidRig, trim: Trim, row: Row | None) -> Iterator[str]:
    """What bounds a border from below and from above; a bound that does not exist has no words."""
    unit = rig.scene.settings.unit
    if isfinite(trim.low):
        yield f"below {level(trim.low, unit)} it cuts the field of {rig.names[trim.low_unit]}"
    if isfinite(trim.high):
        where = f"the front row of {row.name} sees" if row else "the audience sees"
        yield f"above {level(trim.high, unit)} {where} {rig.names[trim.high_unit]}"


def _move(trim: Trim, bottom: float, unit: str) -> str:
    """Which way the border has to go, if at all."""
    if bottom < trim.low:
        return f"Take it out to {level(trim.low, unit)} or a little higher."
    if bottom > trim.high:
        return f"Bring it in to {level(trim.high, unit)} or a little lower."
    return "Leave it there."


def _capital(text: str) -> str:
    return text[0].upper() + text[1:]


WIDEST = to_radians(85.0)  # half angle; wider light than this is not looked along


def too_near(rig: SolidRig) -> Iterator[Finding]:
    """Stops for solids in the light nearer than `label_distance`; kinds that declare none are left alone."""
    asked = np.array([kind.label_distance or 0.0 for kind in rig.kinds], dtype=float)
    some = np.flatnonzero((asked > 0) & np.isfinite(rig.aims.throw))
    lenses = rig.aims.lens.T[some], rig.aims.axis.T[some]
    columns = *lenses, np.minimum(rig.arrays.field[some] / 2, WIDEST), asked[some]
    _, distance, owner = rig.kept.of_units(_ahead, columns, rig.solids.scenery_triangles)
    found = np.flatnonzero(owner >= 0)
    unit = some[found]
    for group in grouped(rig, unit.tolist(), owner[found].tolist()):
        rows, here = unit[group].tolist(), found[group]
        thing = rig.solids.obstacles[int(owner[here[0]])].name
        least = length(float(distance[here].min()), rig.scene.settings.unit)
        labels = dict.fromkeys(length(float(asked[k]), rig.scene.settings.unit) for k in rows)
        says = (
            f"{subject(rig, rows, 'has', 'have')} {thing} {least} in front of the lens, in the light; "
            f"the label asks for {listed(labels)}."
        )
        do = "Move the unit or the scenery. The label and the fire rules judge heat; this sheet does not."
        yield about(rig, rows, STOP, "label-distance", says=says, do=do)


class _Ahead(NamedTuple):
    """How far before each lens the nearest thing in its light is, and whose it is."""

    unit: Indices
    distance: Array
    owner: Indices


def _ahead(lens: Array, axis: Array, half: Array, within: Array, others: Hulls) -> _Ahead:
    given = {"lens": lens.T, "axis": axis.T, "half": half, "within": within}
    return _Ahead(np.arange(half.size), *nearest_ahead(**given, others=others))


def not_closed(rig: SolidRig) -> Iterator[Finding]:
    """Notes meshes with free edges: light is stopped by what is there, but something may be missing."""
    for name, mesh in rig.meshes.items():
        if mesh.note:
            do = "Look at it; export it closed if a part of it is missing."
            yield Finding(NOTE, "mesh-open", f"Solid {name}: {mesh.note}.", do)
