"""What `aimcalc compare` tells: two scenes, or a scene and an earlier print, in words and as JSON."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from math import isfinite
from typing import Any

import msgspec

from aimcalc.landings.compare import Change, Changes, Figure, Row, Side, compare
from aimcalc.named import NamedTuple
from aimcalc.scene.document import SCENE_FILE
from aimcalc.scene.files import read_whole
from aimcalc.scene.mistakes import Wrong
from aimcalc.scene.model import Boom, Pipe, Point, Position, Unit
from aimcalc.show import Show
from aimcalc.solid.answers import Stop
from aimcalc.text import words as w
from aimcalc.text.columns import folded, table
from aimcalc.text.cover_lists import NOT_KNOWN, area, lux
from aimcalc.text.lists import json_bytes
from aimcalc.text.rows import along, hangs
from aimcalc.text.stamp import SET_FILE, said_iso

PRINT = "aims.json"  # of a set that `prep` made
PRINT_MEGABYTES = 60


class Aimed(msgspec.Struct, frozen=True):
    """What is asked of a unit of an earlier print; its keys are those of `solve --json`."""

    unit: str
    position: str
    kind: str
    mount: str
    clamp: Point
    face: Point
    down_tolerance: float
    target: str | None = None
    lens: Point | None = None
    stand: Point | None = None
    heading: float | None = None
    down: float | None = None
    square: str | None = None
    pan: float | None = None
    swing: str | None = None
    sight: float | None = None
    sight_out: float | None = None
    meets: Stop | None = None
    pan_tolerance: float | None = None


class Earlier(msgspec.Struct, frozen=True):
    """What is asked of the `aims.json` of an earlier print."""

    scene: str
    unit_of_length: str
    units: list[Aimed]
    revision: str = ""
    set: str = ""
    printed: str | None = None
    part: str = ""


class Told(msgspec.Struct, frozen=True):
    """One of the two that are compared. `set` and `printed` are of a print, empty of a scene.

    `what_if` is what was set of a scene for this call alone.
    """

    title: str
    revision: str
    set: str = ""
    printed: str | None = None
    what_if: tuple[str, ...] = ()

    @property
    def words(self) -> str:
        """ "revision C", "revision C of set K7MP4, 14 Nov, 16:02"."""
        name = f"revision {self.revision}" if self.revision else "no revision"
        if not self.set:
            return name
        return ", ".join(filter(None, (f"{name} of set {self.set}", said_iso(self.printed))))


class LightChange(msgspec.Struct, frozen=True):
    """The light of one system before and after, dark under `below` lux in both. None where it is not known.

    Means and least in lux, areas of holes in square metres.
    """

    system: str
    below: float | None
    mean_was: float | None
    mean_now: float | None
    least_was: float | None
    least_now: float | None
    holes_was: int | None
    holes_now: int | None
    dark_was: float | None
    dark_now: float | None


class Compared(NamedTuple):
    """All that is told. `light` is None where `no_light` says why."""

    old: Told
    new: Told
    sides: tuple[Side, Side]
    changes: Changes
    light: list[LightChange] | None
    no_light: str
    length: w.LengthUnit

    @property
    def positions(self) -> dict[str, Position]:
        """Every position that either scene tells of."""
        found: dict[str, Position] = {}
        for side in self.sides:
            found |= side.scene.positions if side.scene else {}
        return found


def is_print(path: str) -> bool:
    """Whether a path names an earlier print: a JSON file, or a folder of sheets."""
    if os.path.isdir(path):
        held = [os.path.lexists(os.path.join(path, name)) for name in (SCENE_FILE, PRINT, SET_FILE)]
        return not held[0] and any(held)
    return path.lower().endswith(".json")


def read_print(path: str) -> Earlier:
    """What an earlier print tells, from its `aims.json` or the folder that holds it.

    Raises ValueError, in words, for a file that cannot be read or is none of these.
    """
    file = os.path.join(path, PRINT) if os.path.isdir(path) else path
    if os.path.isdir(path) and not os.path.lexists(file):
        raise ValueError(
            f"{path}: expected {PRINT} among the sheets, got a set without its lists. "
            "Do: name the older scene instead; next time print the lists too (--only lists, or everything)."
        )
    try:
        told = msgspec.json.decode(read_whole(file, PRINT_MEGABYTES), type=Earlier)
    except Wrong as wrong:
        raise ValueError(
            f"{file}: expected {wrong.expected}, got {wrong.came or 'none'}."
        ) from None
    except (msgspec.DecodeError, UnicodeDecodeError) as error:
        reason = str(error).partition(" - at")[0]
        raise ValueError(
            f"{file}: expected the {PRINT} that aimcalc prep has made, got something else ({reason}). "
            "Do: name the folder of the older sheets, or its scene."
        ) from None
    if told.unit_of_length != "m":
        raise ValueError(f'{file}: expected lengths in "m", got "{told.unit_of_length}".')
    if told.part:
        raise ValueError(f"{file}: expected a whole set, got a part of one ({told.part}).")
    return told


def compared(old: Show | Earlier, new: Show | Earlier, *, light: bool = True) -> Compared:
    """The one against the other; `light` asks for the light too, which takes longer.

    Raises SceneError where a file of a scene cannot be used.
    """
    length = _length(new if isinstance(new, Show) else old)
    sides = (_side(old), _side(new))
    changes = compare(*sides, length)
    found, why = _light(old, new) if light else (None, "")
    return Compared(_told(old), _told(new), sides, changes, found, why, length)


def _length(show: Show | Earlier) -> w.LengthUnit:
    feet = isinstance(show, Show) and show.scene.settings.unit in ("ft", "in")
    return "ft" if feet else "m"


def _side(show: Show | Earlier) -> Side:
    if isinstance(show, Show):
        return Side(show.rig.answers, show.scene)
    return Side(show.units)


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
            f"Light, trims, colours, channels and circuits are not compared: an {PRINT} does not hold them. "
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


def compare_json(found: Compared) -> bytes:
    """All of it as one JSON object, indented, in metres, degrees and lux."""
    told = {
        "old": found.old,
        "new": found.new,
        "unit_of_length": "m",
        "changes": found.changes.changes,
        "rows": [
            {**msgspec.structs.asdict(row), "who": row.who, "figures": row.figures}
            for row in found.changes.rows
        ],
        "light": found.light,
        "no_light": found.no_light or None,
    }
    return json_bytes(told)


CHANGE_HEADS = ("what", "where", "was", "now")
ROW_HEADS = ("unit", "figure", "was", "now", "within", "to do", "for")
LIGHT_HEADS = ("system", "dark below", "mean was", "now", "least was", "now", "dark was", "now")


def compare_text(found: Compared, width: int | None = None) -> str:
    """All of it for a terminal; `width` is the terminal's, see `aimcalc.text.columns`."""
    changes, rows, length = found.changes.changes, found.changes.rows, found.length
    head = f"{found.new.title}: {found.new.words}, against {found.old.words}."
    if not changes and not rows:
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
    if found.light:
        cells = [_light_cells(each, length) for each in found.light]
        limit = "Light, dark under the old limit in both"
        parts.append("\n".join([limit, *table(LIGHT_HEADS, cells, width)]))
    if found.no_light:
        parts.append(folded(found.no_light, width))
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
        return _hung(found, change.name, side)
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


def _hung(found: Compared, name: str, side: int) -> str:
    """Where a unit hangs: its mark, or where only a print is left its place on the plan."""
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
        return _hung(found, name, side)
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
