"""A hang list in the words of a scene, which needs no guess: its units as its cells give them.

Most of what `aimcalc.scene.hanglist` knows is how people write; a list whose headings are the keys of a unit
and whose every cell is what the key asks for is read here, without it. Whatever is not plainly so leaves the
list to the others, whole: both read such a list alike (tests/scene/hanglist/test_plainlist.py).
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from aimcalc.scene.hanglist.rows.listrow import (
    MOST_ROWS,
    NO_GEL,
    Around,
    HangList,
    HangRow,
    blank,
    is_ditto,
    text_of,
)
from aimcalc.scene.hanglist.table.sheetcells import Unseen
from aimcalc.scene.hanglist.table.sheetfile import Sheet, read_sheets
from aimcalc.scene.mistakes import Where, Wrong
from aimcalc.scene.records import Place

NEEDED = ("position", "number", "at", "kind", "target")
MOST_COLUMNS = 26  # of one letter


def read_plain(path: str, name: str, around: Around) -> HangList | None:
    """The units of a plain list as entries of a scene; None of any other, and of a file that cannot be read.

    Args:
        path: where the file is.
        name: the file's name as the scene gives it.
        around: what of the scene it is read by.
    """
    if around.columns or around.sheet or around.hung:
        return None
    try:
        file = read_sheets(path, name)
        if file.by_spaces or file.encoding or len(file.sheets) != 1:
            return None
        return _units(file.sheets[0], name, around)
    except Wrong:
        return None  # the others tell what


def _units(sheet: Sheet, name: str, around: Around) -> HangList | None:
    if sheet.behind != Unseen() or sheet.hidden or not re.fullmatch(_SHEET, sheet.name):
        return None
    rows = iter(sheet.rows)
    keys = [cell if isinstance(cell, str) else "" for cell in next(rows, [])]
    known = {*NEEDED, *_CELLS}
    if len(keys) > MOST_COLUMNS or len({*keys}) != len(keys) or not known >= {*keys} >= {*NEEDED}:
        return None
    letters = {key: chr(ord("A") + k) for k, key in enumerate(keys)}
    plain = _Plain(around)
    table = f"sheet {sheet.name}" if sheet.name else ""
    found: list[HangRow] = []
    for number, row in enumerate(rows, 2):
        raw = {key: cell for key, cell in zip(keys, row, strict=False) if not blank(cell)}
        if not raw and all(map(blank, row)):
            continue
        if not all(map(blank, row[len(keys) :])) or not plain.is_unit(raw):
            return None
        raw |= {key: text_of(raw[key]) for key in ("number", "channel", "circuit") if key in raw}
        where = Where(name, table, f"row {number}", letters)
        found.append((raw, where, f"{name},{f' {table},' if table else ''} row {number}"))
    columns = tuple((letter, key, key) for key, letter in letters.items())
    return HangList(found, (), columns) if 0 < len(found) <= MOST_ROWS else None


class _Plain:
    """What the cells of a scene's plain list may be."""

    def __init__(self, around: Around) -> None:
        self.places = around.places
        self.targets = frozenset(around.targets)
        self.kinds = {kind for kind, _, _ in around.kinds} | set(around.generic())

    def is_unit(self, raw: dict[str, Any]) -> bool:
        """Whether a row is a unit, and each cell of it what its key asks for."""
        position, kind, target = (raw.get(key) for key in ("position", "kind", "target"))
        if not (isinstance(position, str) and isinstance(kind, str) and isinstance(target, str)):
            return False
        place = self.places.get(position)
        if place is None or kind not in self.kinds or target not in self.targets:
            return False
        if not _is_place(raw.get("at"), raw, place):
            return False
        others = [key for key in raw if key not in ("position", "kind", "target", "at")]
        return "number" in raw and all(_CELLS[key](raw[key]) for key in others)


def _is_place(cell: Any, raw: dict[str, Any], place: Place) -> bool:
    """Whether a cell is a place with its unit and its side, a height on a boom, or none on a stand."""
    if place.sort == "stand":
        return cell is None and raw.get("mount", "stand") == "stand"
    if not isinstance(cell, str):
        return False
    if place.sort == "boom":
        arm = raw.get("mount") != "arm" or {"arm", "arm_to"} <= raw.keys()
        return "mount" in raw and arm and bool(re.fullmatch(_LENGTH, cell))
    sided = re.fullmatch(rf"{_LENGTH} (SL|SR|US|DS)", cell)
    across = place.axis == "x" and place.centre
    return sided is not None and across and sided[1] in ("SL", "SR")


def _text(pattern: str) -> Callable[[Any], bool]:
    return lambda cell: re.fullmatch(pattern, text_of(cell)) is not None


def _share(cell: Any) -> bool:
    return isinstance(cell, (int, float)) or re.fullmatch(r"0?\.\d+|1", text_of(cell)) is not None


def _colour(cell: Any) -> bool:
    return _words(cell) and text_of(cell) not in NO_GEL


def _words(cell: Any) -> bool:
    text = text_of(cell)
    return re.fullmatch(_WORDS, text) is not None and not is_ditto(text)


_LENGTH = r"(?:\d+'-\d+(?: \d+/\d+)?\"|\d+(?:\.\d+)? m)"
_SHEET = r"(?i)|(?:sheet|tabelle|feuil|foglio|hoja|blad|table)\s?\d*|hang(?: list| plot)?|units"
# Words of a colour or a system, and none that say that there is none, or which one is still open.
_NO_WORDS = (
    "n|c|o|x|nc|ow|no|none|nil|open|clear|white|spare|cut|same|do|id|ditto|as|see|tb\\w|un\\w+"
)
_WORDS = rf"(?!(?:{_NO_WORDS})\b)[a-z]+(?: (?:[a-z]+|\d{{1,2}}))*"
_CELLS: dict[str, Callable[[Any], bool]] = {
    "number": _text(r"\d{1,4}"),
    "mount": _text("under|over|arm|stand"),
    "arm": _text(_LENGTH),
    "arm_to": _text("SL|SR|US|DS"),
    "system": _words,
    "channel": _text(r"\d{1,4}"),
    "circuit": _text(r"(?!CH|NO|NR|KR|CT)[A-Z]{0,2}\d{1,3}"),  # "NR1" beside "2" is 1
    "colour": _colour,
    "transmission": _share,
    "precise": _text("yes"),
    "turn": _text("across"),
}
