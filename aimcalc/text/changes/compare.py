"""What `aimcalc compare` tells: two scenes, or a scene and an earlier print, in words and as JSON."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from math import isfinite
from typing import TYPE_CHECKING

import msgspec

from aimcalc.landings.changeover import changeover
from aimcalc.landings.changes import Hung, HungUnit, Row, Side
from aimcalc.landings.compare import compare
from aimcalc.rig.wording import weight
from aimcalc.show import Show
from aimcalc.text import words as w
from aimcalc.text.cables import place_words
from aimcalc.text.changes.change_words import change_words, figure_words
from aimcalc.text.changes.changeover_text import changeover_text
from aimcalc.text.changes.compared import Compared, LightChange, Told
from aimcalc.text.changes.earlier import PRINT, Earlier
from aimcalc.text.columns import folded, table
from aimcalc.text.hang_rows import HangRow, hang_rows
from aimcalc.text.light.cover_lists import NOT_KNOWN, area, lux
from aimcalc.text.lists import json_bytes
from aimcalc.text.wedges import wedges_to_cut

if TYPE_CHECKING:
    from aimcalc.hang.records import PositionPlan, WedgePlan

CHANGE_HEADS = ("what", "where", "was", "now")
ROW_HEADS = ("unit", "figure", "was", "now", "within", "to do", "for")
LOAD_HEADS = ("position", "what", "was", "now")
LIGHT_HEADS = ("system", "dark below", "mean was", "now", "least was", "now", "dark was", "now")


def compared(old: Show | Earlier, new: Show | Earlier, *, light: bool = True) -> Compared:
    """The one against the other; `light` asks for the light too, which takes longer.

    Raises SceneError where a file of a scene cannot be used.
    """
    length = _length(new if isinstance(new, Show) else old)
    sides = (_side(old, length), _side(new, length))
    changes, over = compare(*sides, length), changeover(*sides, length)
    found, why = _light(old, new) if light else (None, "")
    return Compared(_told(old), _told(new), sides, changes, over, found, why, length)


def _length(show: Show | Earlier) -> w.LengthUnit:
    feet = isinstance(show, Show) and show.scene.settings.unit in ("ft", "in")
    return "ft" if feet else "m"


def _side(show: Show | Earlier, length: w.LengthUnit) -> Side:
    if isinstance(show, Show):
        return Side(show.rig.answers, show.scene, _hung(show, length))
    return Side(show.units)


def _hung(show: Show, length: w.LengthUnit) -> Hung:
    """Cable, tail and wedge of every unit, weight and lift lines of every position, printed in `length`."""
    rig, plan = show.rig, show.hang
    rows = hang_rows(rig, plan, (), length)
    wedges = {
        unit: wedge
        for position in plan.positions
        for wedge in position.wedges
        for unit in wedge.units
    }
    units = {
        rig.names[row.k]: _hung_unit(row, wedges.get(rig.names[row.k]))
        for mine in rows.values()
        for row in reversed(mine)
    }
    positions = {each.position: _position_lines(show, each, length) for each in plan.positions}
    return Hung(units, positions)


def _hung_unit(row: HangRow, wedge: WedgePlan | None) -> HungUnit:
    return HungUnit(
        outlet=row.outlet,
        cable=", ".join(filter(None, (*row.cable, *row.twofer))),
        tail=", ".join(filter(None, row.connector)),
        tied=", ".join(row.connector[:2]),
        wedge=f"{w.angle(wedge.pan)} {wedge.swing} of {wedge.square}" if wedge else "",
        pan=wedge.pan if wedge else None,
        ways=(wedge.swing, wedge.square) if wedge else ("", ""),
    )


def _position_lines(show: Show, plan: PositionPlan, length: w.LengthUnit) -> dict[str, str]:
    """The lines about one position: what it weighs, the wedges to cut, and what each lift line carries."""
    least = "at least " if plan.missing else ""
    told = {"weight": f"{least}{weight(plan.weight, length)}"} if plan.units else {}
    if plan.wedges:
        told["wedges"] = ", ".join(w.angle(cut[0].pan) for cut in wedges_to_cut(plan))
    position = show.scene.positions[plan.position]
    for line in plan.lines:
        load = "SLACK" if line.slack else weight(line.load, length)
        told[f"line at {place_words(position, line.at, length)}"] = load
    return told


def _told(show: Show | Earlier) -> Told:
    if isinstance(show, Show):
        own = show.scene.settings
        return Told(own.title, own.revision, what_if=show.scene.what_if)
    return Told(show.scene, show.revision, show.set, show.printed)


def _light(old: Show | Earlier, new: Show | Earlier) -> tuple[list[LightChange] | None, str]:
    """The light of every system of either scene, holes under the old one's limit; or why there is none."""
    from aimcalc.coverage.systems import Below, GridError, NoAreaError, system_light
    from aimcalc.geometry.rays import NoRayEngineError

    if isinstance(old, Earlier) or isinstance(new, Earlier):
        return None, (
            "Light, trims, scenery, colours, channels, circuits, cables and loads are not compared: an "
            f"{PRINT} does not hold them. "
            "For these, keep the older scene and name it."
        )
    try:
        was, now = old.light, new.light
    except (GridError, NoAreaError, NoRayEngineError) as error:
        return None, f"Light is not compared: {error}"
    found = []
    for name in dict.fromkeys([*was.systems, *now.systems]):
        a, b = was.systems.get(name), now.systems.get(name)
        limit = (a or now.systems[name]).below
        if b is not None:
            b = system_light(name, b.units, now.plane, b.level, b.counts, Below(lux=limit))
        pairs = [
            (None, None, None, None)
            if each is None or not each.known
            else (
                each.figures.mean,
                each.figures.least,
                len(each.gaps),
                each.dark_area,
            )
            for each in (a, b)
        ]
        (mean0, least0, holes0, dark0), (mean1, least1, holes1, dark1) = pairs
        below = limit if isfinite(limit) else None
        found.append(
            LightChange(name, below, mean0, mean1, least0, least1, holes0, holes1, dark0, dark1)
        )
    return found, ""


def compare_json(found: Compared, sheets: Mapping[str, str]) -> bytes:
    """All of it as one JSON object, indented, in metres, degrees and lux.

    `sheets`: where each sheet by its name is out of date, "" where it still serves.
    """
    told = {
        "old": found.old,
        "new": found.new,
        "unit_of_length": "m",
        "changes": found.changes.changes,
        "loads": found.changes.loads,
        "rows": [
            {**msgspec.structs.asdict(row), "who": row.who, "figures": row.figures}
            for row in found.changes.rows
        ],
        "changeover": {"touch": found.changeover.touch, **msgspec.structs.asdict(found.changeover)},
        "out_of_date": {name: where for name, where in sheets.items() if where},
        "light": found.light,
        "no_light": found.no_light or None,
    }
    return json_bytes(told)


def compare_text(found: Compared, sheets: Sequence[str], width: int | None = None) -> str:
    """All of it for a terminal; `sheets` are sentences about which are out of date.

    `width` is the terminal's, see `aimcalc.text.columns`.
    """
    changes, rows, length = found.changes.changes, found.changes.rows, found.length
    head = f"{found.new.title}: {found.new.words}, against {found.old.words}."
    if not changes and not rows and not found.changes.loads:
        same = "Nothing has changed: every row serves as it is printed."
        return "\n\n".join(folded(part, width) for part in (head, same, found.no_light) if part)
    count = f"{w.count(len(changes), 'change')}, {w.count(len(rows), 'row')} to print again."
    parts = [folded(f"{head}\n{count}", width)]
    if changes:
        told = [change_words(found, change) for change in changes]
        parts.append("\n".join(["What changed", *table(CHANGE_HEADS, told, width)]))
    if rows:
        lines = [line for row in rows for line in _row_lines(found, row)]
        parts.append("\n".join(["Rows to print again", *table(ROW_HEADS, lines, width)]))
    if rows:
        parts.append(changeover_text(found, width))
    if found.changes.loads:
        loads = [
            (each.position, each.what, each.was or "none", each.now or "none")
            for each in found.changes.loads
        ]
        parts.append("\n".join(["Weights, lift lines, wedges", *table(LOAD_HEADS, loads, width)]))
    if found.light:
        cells = [_light_cells(each, length) for each in found.light]
        limit = "Light, dark under the old limit in both"
        parts.append("\n".join([limit, *table(LIGHT_HEADS, cells, width)]))
    parts += [folded(part, width) for part in ("\n".join(sheets), found.no_light) if part]
    return "\n\n".join(parts)


def _row_lines(found: Compared, row: Row) -> Iterator[Sequence[str]]:
    """A line for each figure that serves no more, the unit named on the first."""
    todo, who = " + ".join(row.touch), ", ".join(row.who)
    if row.change != "changed":
        yield (row.unit, row.change.upper(), "", "", "", todo, who)
        return
    unit = row.unit
    for figure in row.figures:
        if figure.left:
            was, now = figure_words(found, row, figure)
            within = "" if figure.within is None else w.within(figure.within)
            yield (unit, figure.figure, was, now, within, todo, who)
            unit = todo = who = ""


def _light_cells(each: LightChange, length: w.LengthUnit) -> Sequence[str]:
    values = (each.below, each.mean_was, each.mean_now, each.least_was, each.least_now)
    lit = [NOT_KNOWN if value is None else lux(value) for value in values]
    holes = ((each.holes_was, each.dark_was), (each.holes_now, each.dark_now))
    dark = [
        NOT_KNOWN
        if number is None or size is None
        else f"{area(size, length)} in {w.count(number, 'hole')}"
        if number
        else "none"
        for number, size in holes
    ]
    return (each.system, *lit, *dark)
