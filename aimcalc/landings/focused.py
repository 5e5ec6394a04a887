"""Units as they were focused: a small list of the numbers read off them, and the scene pointed so.

A row names a unit and tells what was read: `pan` or `sight`, `down` or `yoke`; what is left out is as
printed. `note`, `edge` and `cut` are remarks. The scene as focused has each of these units point where its
axis, set so, passes at the plotted throw: every sheet made of it has the numbers of the focus.
"""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, Any

from msgspec.structs import replace

from aimcalc.landings.lists import entries
from aimcalc.landings.readings import Rows
from aimcalc.landings.said import Said, said
from aimcalc.landings.where import where
from aimcalc.named import NamedTuple
from aimcalc.scene.mistakes import CLASH, MISSING, Log, SceneError, TooManyError, Where, Wrong

if TYPE_CHECKING:
    from aimcalc.geometry.vectors import Array
    from aimcalc.rig.rig import Rig
    from aimcalc.scene.model import Point, Scene

HEADS = "unit, pan, down ..."
ENDS = (".csv", ".tsv", ".txt", ".xlsx", ".xls", ".ods")
READ = ("pan", "sight", "down", "yoke")
EITHER = (("pan", "sight"), ("down", "yoke"))


class Focused(NamedTuple):
    """One unit as it was focused: its index, what was read off it, remarks in words, the point it hits."""

    unit: int
    read: Said
    remarks: str
    point: Point


def read_focused(path: str, rig: Rig, tapes: Array) -> dict[str, Focused]:
    """Units as focused, by name, from CSV or a workbook; `tapes` (N,) is how far out tapes lie, metres.

    Raises SceneError with every mistake of the list, its row and its column.
    """
    file, log = os.path.basename(path), Log()
    found: dict[str, Focused] = {}
    try:
        if not file.lower().endswith(ENDS):
            expected = "a list of focused units, CSV or a workbook"
            raise Wrong(
                expected, f"Name a file ending in {', '.join(ENDS)}.", came=file or "no name"
            )
        rows = Rows(rig, log)
        for raw, at in entries(path, file, log, HEADS):
            k = rows.unit_of(raw, at)
            if k is None:
                continue
            name = rig.names[k]
            if name in found:
                log.add(at, "unit", Wrong("each unit once", "Strike one out.", rank=CLASH), name)
            one = _focused(rig, k, raw, at, float(tapes[k]), log)
            if one is not None:
                found.setdefault(name, one)
        if not found and not log.mistakes:
            expected = "at least one focused unit: unit, pan or sight, down"
            raise Wrong(expected, "Fill in what was read.", came="none", rank=MISSING)
    except Wrong as wrong:
        log.add(Where(file, ""), "", wrong, file)
    except TooManyError:
        pass  # the report says that there may be more
    if log.mistakes:
        raise SceneError(file, log.mistakes)
    return found


def _focused(
    rig: Rig, k: int, raw: dict[str, Any], at: Where, tape: float, log: Log
) -> Focused | None:
    """One row; None, with its mistakes noted, where it cannot be used."""
    sound = True
    for one, other in EITHER:
        if one in raw and other in raw:
            log.add(at, other, Wrong(f"{one} or {other}, not both", rank=CLASH), raw[other])
            sound = False
    if not set(READ) & set(raw):
        expected = "what was read off it: pan or sight, down or yoke"
        log.add(at, "", Wrong(expected, came="none of them", rank=MISSING))
        return None
    read = Said()
    for key in READ:
        if key in raw:
            try:
                told = said(rig.scene, rig.units[k].position, **{key: str(raw[key])})
            except Wrong as wrong:
                log.add(at, key, Wrong(wrong.expected, wrong.do), raw[key])
                sound = False
            else:
                read = read._replace(**{key: getattr(told, key)})
    if not sound:
        return None
    try:
        there = where(rig, k, read, tape)
    except Wrong as wrong:
        log.add(at, "", wrong, rig.names[k])
        return None
    x, y, z = (there.lens + rig.aims.throw[k] * there.axis).tolist()
    words = [str(raw["note"])] if "note" in raw else []
    words += [f"{key} {raw[key]}" for key in ("edge", "cut") if key in raw]
    return Focused(k, read, ", ".join(words), (x, y, z))


def as_focused(scene: Scene, rig: Rig, focused: dict[str, Focused]) -> Scene:
    """The scene with these units pointed as they were focused, their remarks before those of the plot."""
    points = {id(rig.units[one.unit]): one for one in focused.values()}
    units = []
    for unit in scene.units:
        one = points.get(id(unit))
        if one is not None:
            note = "; ".join(filter(None, (one.remarks, unit.note)))
            unit = replace(unit, point=one.point, target=None, note=note or None)
        units.append(unit)
    return replace(scene, units=tuple(units))
