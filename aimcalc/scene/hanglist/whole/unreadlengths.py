"""Columns of lengths that are no key of a unit, and may yet be its place."""

from __future__ import annotations

import re
from collections.abc import Callable
from itertools import pairwise
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.document import ASKED
from aimcalc.scene.hanglist.columns.columnclaims import FITTING, LOOKED_THROUGH, Shares
from aimcalc.scene.hanglist.columns.columnkeys import HEIGHT, REMARK, SIDE, Column, Headings
from aimcalc.scene.hanglist.columns.headings import meaning
from aimcalc.scene.hanglist.columns.sidecolumns import TONGUES, in_doubt
from aimcalc.scene.hanglist.places.placing import Placing
from aimcalc.scene.hanglist.rows.listrow import Row
from aimcalc.scene.hanglist.tongues.tongues import in_english
from aimcalc.scene.mistakes import CLASH, Where, Wrong, show

_IS_DISTANCE = regex(
    r"\b(?:dist\w*|offset|from|measure\w*|x|how\Wfar|cam\w*|place|pos\w*|loc\w*|where|left|right|cl|c/l|cent\w+|s\.?[lr]|stage|house|m|cm|mm"
    r"|ft|feet|in(?![\s-]{0,2}charge\b)|ins|inch(?!arge)\w*|metres?|meters?)\b",
    re.IGNORECASE,
)

# What broken figures under a heading are of, that are no places.
OF_ELSE = regex(
    r"weight|mass|\bk?gs?\b|\blbs?\b|watt|\bk?w\b|\bamps?\b|price|cost|load|power|hours|vers|rev|time|date"
    r"|\bage\b|lens|angle|deg|beam|field|trim|height|length|patch|address|dmx|univ|dim|circ|chan|sock|port|cue"
    r"|gel|col|cable|throw|lumen|no\b|numb|id\b|\badd?r\b",
    re.IGNORECASE,
)
# A length with its unit, and which way it goes.
_LENGTH = (
    r"[+−–-]?\d+(?:[.,]\d+)?\s*(?:['\"′″’”]|(?:ft|feet|foot|ins?|inch(?:es)?|m|cm|mm|met(?:re|er)s?)\b)"
    r"[\d\s'\"′″’”./-]*(?:\s*[a-z]+\W?){0,4}"
)
# A figure with a letter before it or behind.
_FIGURE = r"\d+(?:[.,]\d+)?(?:\s*['\"′″’”])*"
_LETTERED = rf"(?:([a-z]{{1,3}})\.?\s*{_FIGURE}|{_FIGURE}\s*([a-z]{{1,3}}))\W*"
_WORDS = "hl hr|sl sr|sx dx|izq der|esq dir|ps op|li re|vä hö|lew pra"
PAIRS = (
    *TONGUES,
    ("l", "r"),
    ("c", "j"),
    ("p", "o"),
    *(tuple(p.split()) for p in _WORDS.split("|")),
)


def unread_lengths(
    headings: Headings, rows: list[list[Any]], fits: Callable[[str, Any], bool | None]
) -> tuple[Column, ...]:
    """The columns of lengths that are no key of a unit, without a heading, or of broken figures under one
    that does not say of what, or of lengths with a word that may be a side: they may be its place."""
    share = Shares(rows[:LOOKED_THROUGH], fits)
    return tuple(
        column
        for column in headings.columns
        if column.key == REMARK
        and not column.settled
        and (
            max(share("decimal", column.place), share("length and more", column.place)) >= FITTING
            and not OF_ELSE.search(column.heading)
            if column.heading
            else share("length", column.place) >= FITTING
        )
    )


class UnreadLengths:
    """The columns of a table that may hold the places that its units lack."""

    def __init__(self, placing: Placing) -> None:
        self.name, self.around, self.log = placing.name, placing.around, placing.log
        self.headings, self.unread = placing.headings, placing.unread

    def asked(self, without: list[Row]) -> bool:
        """Whether units have no place because it is not clear what a column of distances counts from;
        that is asked, and no place is assumed."""
        may_be = [
            column
            for column in self.headings.columns
            if column.key == REMARK and not column.settled and _speaks_of_places(column.heading)
        ]
        may_be = may_be or list(self.unread) or self._sides_in_doubt()
        rows = [row for row in without if not self._is_stand(row)]
        notes = [str(row.raw.get("note", "")) for row in rows]
        may_be = [
            c
            for c in may_be
            if any(_may_hold(c, note) for note in notes) and not _names_people(c.heading, notes)
        ]
        booms = all(self._sort(row) == "boom" for row in rows)
        may_be = may_be or [c for c in self.headings.columns if _holds_lengths(c, notes, booms)]
        may_be = may_be or self._one_or_other(notes)
        if not may_be or not rows:
            return False
        heading = may_be[0].heading or may_be[0].letters
        wrong = Wrong(
            f"a place for each unit, and column {may_be[0].letters} ({show(heading)}) may hold it",
            f'Say in [hang_columns]: at = "{heading}" where it counts from the zero of the position, '
            f'remark = "{heading}" where not.',
            came="a heading that does not tell where it counts from",
            rank=CLASH,
        )
        self.log.add(Where(self.name, "", f"row {self.headings.first}"), "at", wrong)
        for row in rows:
            row.raw["at"] = ASKED
        return True

    def _sides_in_doubt(self) -> list[Column]:
        """Columns of which each may hold the places to one side, "V" and "H", where no line says which."""
        columns = self.headings.columns
        pair = [columns[k] for k in in_doubt([column.heading for column in columns])]
        return pair if any(column.key == REMARK for column in pair) else []

    def _one_or_other(self, notes: list[str]) -> list[Column]:
        """Two columns kept as remarks, one beside the other, of which each unit has a figure in the one or
        in the other: "Street" and "Yard" may be two sides."""
        kept = [
            column
            for column in self.headings.columns
            if column.key == REMARK and not column.settled and not OF_ELSE.search(column.heading)
        ]
        for one, other in pairwise(kept):
            if not (one.heading and other.heading) or other.place != one.place + 1:
                continue
            filled = [
                tuple(bool(_figure_under(column).search(note)) for column in (one, other))
                for note in notes
            ]
            if all(a != b for a, b in filled) and len(set(filled)) > 1:
                return [one, other]
        return []

    def _is_stand(self, row: Row) -> bool:
        return self._sort(row) == "stand"

    def _sort(self, row: Row) -> str:
        place = self.around.places.get(str(row.raw.get("position")))
        return "" if place is None else place.sort


def _figure_under(column: Column) -> re.Pattern[str]:
    """What finds a figure of a column in the remarks of a unit."""
    return re.compile(
        rf"(?:^|; ){re.escape(column.heading)}: {_FIGURE_ALONE}(?:$|;)", re.IGNORECASE
    )


_FIGURE_ALONE = r"\d{1,2}(?:[.,]\d{1,3})?\s?(?:m|cm|ft|feet|')?"


def _may_hold(column: Column, note: str) -> bool:
    """Whether the remarks of a unit hold a cell of a column, or are cut off and may; "Height on boom" says
    nothing of a pipe's units, which have none."""
    return not column.heading or f"{column.heading}: " in note or note.endswith("...")


def _names_people(heading: str, notes: list[str]) -> bool:
    """Whether a column is of those who hang the units, "Name" over first names: no cell of it, whole in the
    remarks, has a figure or a word of a place, and any has a word of three letters or more. School classes
    are such whatever is over them, "Std 9"."""
    before = re.compile(rf"(?:^|; ){re.escape(heading)}: ([^;]*)")
    cells = [found[1].strip() for found in map(before.search, notes) if found]
    if cells and all(map(_CLASS.fullmatch, cells)):
        return True
    if heading.casefold().strip(" .:") not in PEOPLE:
        return False
    words = [word for cell in cells for word in re.findall(r"\w+", in_english(cell))]
    plain = all(word.isalpha() and not _IS_PLACE.fullmatch(word.casefold()) for word in words)
    return plain and any(len(word) > 2 for word in words) and not any("..." in c for c in cells)


_CLASS = regex(
    r"(?:std|standard|class|grade|year|yr|team|crew|batch|squad|gang)\.?[\s-]?(?:\d{1,2}|[ivx]{1,4}|[a-f])(?:st|nd|rd|th)?"
    r"(?:[\s-]?[a-f])?|\d{1,2}(?:st|nd|rd|th)[\s-](?:std|standard|class|grade|year)\.?",
    re.IGNORECASE,
)
PEOPLE = frozenset(
    ("name", "names", "who", "crew", "by", "person", "hung by", "hand", "student", "first name")
)
_IS_PLACE = regex(
    r"(?:left|right|cent(?:er|re)|middle|mid|cl|s[lrc]|ps|op|stage|(?:up|down|on|off)stage|house|ends?|half|quarter"
    r"|far|near|in|out|up|down|inner|outer|side|edge|top|bottom|[a-z])"
)


def _speaks_of_places(heading: str) -> bool:
    """Whether a heading has a word of those over places, in whatever language, or means one: "Ort"."""
    means = {"at", "position", SIDE} & set(meaning(heading).keys)
    return bool(means or _IS_DISTANCE.search(heading) or _IS_DISTANCE.search(in_english(heading)))


def _holds_lengths(column: Column, notes: list[str], booms: bool) -> bool:
    """Whether a column kept as a remark holds a length in most of the rows without a place, whose remarks
    are `notes`, or figures with the letters of left and right in some language, "3,2 V" and "3,2 H"; a height
    or a trim is none of a pipe, but may be one of units on `booms`."""
    said = re.sub(r"(?i)height|trim", "", column.heading) if booms else column.heading
    if (
        column.key not in (REMARK, HEIGHT)
        or column.settled
        or not column.heading
        or OF_ELSE.search(said)
    ):
        return False
    before = rf"(?:^|; ){re.escape(column.heading)}: "
    held = re.compile(rf"{before}{_LENGTH}(?:$|;)", re.IGNORECASE)
    if sum(bool(held.search(note)) for note in notes) * 2 > len(notes):
        return True
    if not {"at", "position", SIDE} & set(meaning(column.heading).keys or (SIDE,)):
        return False  # "Lamp" over plugs, L 2 and R 1
    lettered = re.compile(rf"{before}{_LETTERED}(?:$|;)", re.IGNORECASE)
    found = [each for each in map(lettered.search, notes) if each]
    letters = {(each[1] or each[2]).casefold() for each in found}
    return len(found) * 2 > len(notes) and len(letters) == 2 and any(map(letters.issuperset, PAIRS))
