"""What changed between two scenes, and the figures of a row as printed then and now, in words."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from aimcalc.scene.model import Boom, Pipe, Position, Unit
from aimcalc.text import words as w
from aimcalc.text.rows import along, hangs

if TYPE_CHECKING:
    from aimcalc.landings.changes import Change, Figure, Row
    from aimcalc.text.changes.compared import Compared

HEIGHTS = (
    "face_height",
    "z",
    "height",
    "foot",
    "rise",
    "eye",
    "top_hat",
    "drop_under",
    "drop_over",
)
RUNS = ("sight_out", "rake_from", "nose", "length", "width", "tail", "label_distance", "spacing")
LENGTHS = frozenset((*HEIGHTS, *RUNS, "connector"))
ANGLES = frozenset(("field", "beam", "turn"))
CHANGED = "see the scene"  # where a value is a list


def change_words(found: Compared, change: Change) -> tuple[str, str, str, str]:
    """What, where, was and now of a change: ("trim", "pipe 1", "6.00 m", "5.80 m")."""
    what = change.what.replace("_", " ")
    where = change.name if change.of in ("unit", "pipe", "boom", "stand", "position") else change.of
    if where == change.of and change.of not in ("scene", "stage"):
        where = f"{change.of} {change.name}"
    if change.what == "swapped":
        return what, where, "", f"with {change.other}"
    if change.what in ("new", "gone"):
        return what, where, "", ""
    return what, where, _value(found, change, 0), _value(found, change, 1)


def _value(found: Compared, change: Change, side: int) -> str:
    """One of the two values of a change, in words."""
    value, length = (change.was, change.now)[side], found.length
    if change.of == "position":
        return _shift(value, length) if side else ""
    if change.of == "unit" and change.what == "moved":
        return hung_words(found, change.name, side)
    if change.what == "trim" or (change.of == "pipe" and change.what == "moved"):
        return _ends(value, length)
    return _plain(change.what, value, length)


def _shift(value: Any, length: w.LengthUnit) -> str:
    """How far a position has moved: "0.20 m lower", "0.50 m US, 0.20 m higher"."""
    x, y, z = value
    parts = (
        (x, ("SL", "SR")),
        (y, ("US", "DS")),
        (z, ("higher", "lower")),
    )
    told = [w.mark(part, sides, "", length, w.HANG) for part, sides in parts]
    return ", ".join(filter(None, told))


def _ends(value: Any, length: w.LengthUnit) -> str:
    """A trim, or what is told of both ends of a pipe, in the order in which it is written."""
    ends = value if isinstance(value, Sequence) else [value]
    told = [
        w.place(end[0], end[1], length, w.HANG)
        if isinstance(end, Sequence)
        else w.length(end, length, w.HANG)
        for end in ends
    ]
    return " to ".join(told)


def _plain(key: str, value: Any, length: w.LengthUnit) -> str:
    """The value of any key, as well as can be told without knowing more of it."""
    if value is None or value == "" or value == []:
        return "nothing"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float | int):
        if key in LENGTHS:
            return w.length(value, length, w.HANG) + (" below" if value < 0 else "")
        return f"{value:g}{'°' if key in ANGLES else ''}".replace("-", "minus ")
    if isinstance(value, str):
        return value
    if isinstance(value, Sequence) and len(value) in (2, 3) and _numbers(value):
        if key in ("oval", "yoke_range", "tail_exit"):
            return CHANGED
        up = f", {w.length(value[2], length, w.HANG)} up" if len(value) == 3 else ""
        return w.place(value[0], value[1], length, w.HANG) + up
    return CHANGED


def _numbers(value: Sequence[Any]) -> bool:
    return all(isinstance(part, float | int) for part in value)


def hung_words(found: Compared, name: str, side: int) -> str:
    """Where a unit of a side (0 old, 1 new) hangs: its mark, or of a print its place on the plan."""
    unit, position = _written(found, name, side)
    if unit is not None and position is not None:
        return hangs(unit, position, found.length)[0]
    x, y, z = found.sides[side].units[name].clamp
    up = w.length(z, found.length, w.HANG)
    return f"{w.place(x, y, found.length, w.HANG)}, {up} up"


def _written(found: Compared, name: str, side: int) -> tuple[Unit | None, Position | None]:
    """A unit and its position as both scenes have them; nothing where one has only a print."""
    if any(each.scene is None for each in found.sides):
        return None, None
    scene, unit = found.sides[side].scene, found.sides[side].written.get(name)
    if scene is None or unit is None:
        return None, None
    return unit, scene.positions[unit.position]


def figure_words(found: Compared, row: Row, figure: Figure) -> tuple[str, str]:
    """A figure of a row as it was printed and as it is printed now."""
    was, now = (_figure(found, row.unit, figure, side) for side in (0, 1))
    return was, now


def _figure(found: Compared, name: str, figure: Figure, side: int) -> str:
    answer, length = found.sides[side].units[name], found.length
    value: Any = (figure.was, figure.now)[side]
    what = figure.figure
    if what == "at":
        return hung_words(found, name, side)
    if what == "mounted":
        unit, position = _written(found, name, side)
        how = hangs(unit, position, length)[1] if unit and position else str(value)
        return how or ("ON THE BOOM" if isinstance(position, Boom) else "UNDER")
    if what == "pan":
        return w.turn(answer.pan, answer.swing)
    if what == "down":
        tip = w.tip(answer.down) if answer.down is not None else w.Tip("NO AIM", "", "")
        return f"{tip.word} {tip.angle}".strip()
    if what == "heading":
        return "none" if answer.heading is None else w.heading(answer.heading)
    if what == "sight":
        sides = ("SL", "SR") if answer.square in ("US", "DS") else ("US", "DS")
        position = found.positions.get(answer.position)
        sides = along(position) if isinstance(position, Pipe) else sides
        return w.mark(answer.sight, sides, "AT ZERO", length, w.DECK)
    if what == "sight tape":
        return f"{w.length(answer.sight_out, length, w.HANG)} {answer.square}"
    if what in ("lands", "stand"):
        x, y, z = value
        up = f", {w.length(z, length)} up" if what == "lands" and w.rounded(z, length) > 0 else ""
        return f"{w.place(x, y, length)}{up}"
    if what == "target":
        return str(value or "POINT")
    if what == "turn":
        return "none" if value is None else f"{abs(value):g}° off level"
    return str(value or "none")
