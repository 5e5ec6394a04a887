"""Hang lists without a table: mails, notes and sentences that give each unit a line, or a part of one.

Its fields stand in any order; they become a row of cells under headings of our own, read on as any row is.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from aimcalc.named import NamedTuple
from aimcalc.scene.hanglist.lines.linefields import Fields, LineReader
from aimcalc.scene.hanglist.lines.lineplaces import (
    LONGEST_HEADING,
    name_over,
    own_words,
    position_before,
)
from aimcalc.scene.hanglist.lines.linewords import (
    DECIMAL_ALONE,
    EDGES,
    FIGURE,
    FIGURE_ALONE,
    GONE,
    LETTER,
    NAMES_ONE,
    OF_OVER,
    QUOTED,
    starts_unit,
)
from aimcalc.scene.hanglist.meanings import Meanings
from aimcalc.scene.hanglist.names.sections import position_in
from aimcalc.scene.hanglist.names.sparewords import is_spare
from aimcalc.scene.hanglist.pagelines.titles import says_figures
from aimcalc.scene.hanglist.rows.listrow import narrowed
from aimcalc.scene.hanglist.table.findhead import Head
from aimcalc.scene.hanglist.table.sheetcells import Unseen
from aimcalc.scene.hanglist.table.sheetfile import Sheet
from aimcalc.scene.hanglist.table.sheettables import Table
from aimcalc.scene.mistakes import Wrong, show

KEYS = ("position", "number", "at", "kind", "target", "channel", "circuit", "colour", "note")
NEEDED = ("position", "number", "at", "kind", "target")
PARTS = {"number", "at", "channel", "circuit", "colour"}  # of which two are no remark
MOST_LINES = 2000
LONGEST = 200  # characters of a unit
LONGEST_LINE = 4000
MOST_TOLD = 12
LINES_BELOW = 3
UNDER_UNITS = 3  # directly under others
MARKS = (" / ", ";", "|")  # between units of one line


class LineHead(Head):
    """The rows of free lines: headings of our own stand over them, and nowhere in the file."""

    def headings(self) -> list[str]:
        """The keys, one a column."""
        return list(KEYS)


class FreeLines(NamedTuple):
    """Free lines as rows of cells, with what must be asked, by line, and how the first unit was read."""

    head: LineHead
    asked: tuple[tuple[int, Wrong], ...]
    first: str
    loose: tuple[str, ...]  # words that are no field of their unit
    joined: tuple[int, ...]  # lines that go on with the unit above
    lacking: int  # fields that a unit needs and a line does not give, and questions

    @property
    def told(self) -> str:
        """What somebody should know of how it was read."""
        over = ", ".join(dict.fromkeys(map(show, self.loose[:MOST_TOLD])))
        kept = f"; kept as remarks of their units: {over}" if over else ""
        rows = ", ".join(map(str, self.joined[:MOST_TOLD]))
        more = f"; going on with the unit above: row {rows}" if rows else ""
        told = f"it has no headings, so that each of its lines is read by itself: {self.first}"
        return f"{told}{kept}{more}."

    def tables(self, sheets: Sequence[Sheet]) -> list[Table]:
        """The rows as a table; what is hidden, and what has a line through it, stays so."""
        behind = sheets[0].behind
        struck = {(row, k) for row, _ in behind.struck for k in range(len(KEYS))}
        kept = Unseen(hidden=behind.hidden, struck=frozenset(struck))
        return [Table(sheets[0]._replace(behind=kept), self.head)]


class _Found(NamedTuple):
    """What stands in a line: units, a name over units, or words alone."""

    number: int
    text: str
    units: tuple[Fields, ...] = ()
    over: str = ""
    goes_on: bool = False  # with the unit above


def lines_of(text: str, sheets: Sequence[Sheet]) -> list[str]:
    """The lines of a text, or of the one filled column of a sheet; none where there are several."""
    if text:
        lines = [narrowed(line.rstrip(" \t,;")) for line in text.splitlines()[: MOST_LINES + 1]]
        return [_unquoted(line) for line in lines]
    if len(sheets) != 1:
        return []
    rows = [[str(cell) for cell in row if str(cell).strip()] for row in sheets[0].rows]
    return ["".join(row) for row in rows] if all(len(row) < 2 for row in rows) else []


def _unquoted(line: str) -> str:
    """A line without the quotes that a file of commas puts round it."""
    found = re.fullmatch(r'"(.*[^"\d].*)"', line)
    return found[1].replace('""', '"') if found else line


def free_lines(lines: Sequence[str], meanings: Meanings) -> FreeLines | None:
    """The units of free lines as rows; None where no line is one.

    Args:
        lines: every line of the text.
        meanings: what of the scene names are found by.
    """
    if not lines or len(lines) > MOST_LINES:
        return None
    found = list(_read(lines, meanings))
    if not any(unit.cells for one in found for unit in one.units):
        return None
    rows: list[list[str]] = []
    numbers: list[int] = []
    asked: list[tuple[int, Wrong]] = []
    over, first, lacking = "", "", 0  # `over`: what stands over the units, a position or not
    for one in found:
        numbers += [one.number] * max(1, len(one.units))
        if not one.units:
            over = one.over or over
            rows.append([one.over or one.text, *[""] * (len(KEYS) - 1)])
        for unit in one.units:
            cells = {**unit.cells, "note": ", ".join(unit.left)}
            if over and unit.cells:
                cells.setdefault("position", position_in(over, meanings.positions) or over)
            rows.append([cells.get(key, "") for key in KEYS])
            first = first or (_told(one, unit) if unit.cells else "")
            lacking += sum(not cells.get(key) for key in NEEDED)
            if unit.doubt:
                asked.append((one.number, _doubted(one, unit)))
    loose = tuple(words for one in found for unit in one.units for words in unit.left)
    return FreeLines(
        LineHead(rows, -1, -1, len(KEYS), (), tuple(numbers)),
        tuple(asked),
        first,
        loose,
        tuple(one.number for one in found if one.goes_on),
        lacking + len(asked),
    )


def _told(one: _Found, unit: Fields) -> str:
    fields = ", ".join(f"{key} {unit.cells[key]}" for key in KEYS if key in unit.cells)
    return f"row {one.number}, {show(one.text)}, is read as {fields}"


def _doubted(one: _Found, unit: Fields) -> Wrong:
    expected = f"a line of one unit that reads in one way; it is not clear {unit.doubt}"
    do = (
        "Write one unit a line, its fields parted by commas, focus before the target, ch before the channel, "
        "and remarks in brackets."
    )
    return Wrong(expected, do, came=show(one.text))


def _read(lines: Sequence[str], meanings: Meanings) -> list[_Found]:
    reader = LineReader(meanings)
    own = own_words(lines, meanings)
    everywhere = False  # a line says of all units what figures are
    placed, above, last = False, "", -1  # `last`: the line above where it is a unit
    found: list[_Found] = []
    for number, line in enumerate(lines, start=1):
        text = line.strip(EDGES)
        if QUOTED.match(line) or not text:
            found.append(_Found(number, line.strip()))
            above, last = "", -1
            continue
        for word, sort in own.items():
            text = re.sub(rf"\b{word}(?=\s?\d)", f"{sort} ", text, flags=re.IGNORECASE)
        one = _Found(number, text, tuple(_units(text, reader, placed)))
        below = _below(lines, number)
        if not one.units:
            most = UNDER_UNITS if starts_unit(above) else LONGEST_HEADING
            over = name_over(text, most if starts_unit(below) else 0, meanings)
            if found and found[-1].over and OF_OVER.match(text):
                over = ""  # more of the position above: "from SL to SR"
            one = _doubtful(one._replace(over=over), below, reader)
            told = says_figures(text)
            everywhere = everywhere or (told and not one.over)
            if one.over or everywhere:
                here = bool(one.over) and says_figures(one.over)  # what stays over the units
                reader.figures = FIGURE_ALONE if here else DECIMAL_ALONE if everywhere else None
        if not (one.units or one.over) and last >= 0:
            found[last], one = _going_on(found[last], one, reader)
        placed, above = placed or bool(one.over), line.strip()
        found.append(one)
        last = last if one.goes_on else len(found) - 1 if one.units else -1
    return found


def _going_on(above: _Found, one: _Found, reader: LineReader) -> tuple[_Found, _Found]:
    """The line of a unit and the one below it: with the fields that this adds, or the question whether it
    does."""
    more = reader.fields(one.text[:LONGEST], placed=True)
    joined = _joined(above.units, more)
    if joined is not None:
        return above._replace(units=joined), one._replace(text="", goes_on=True)
    if {"channel", "circuit"} & more.cells.keys() or len(PARTS & more.cells.keys()) > 1:
        return above, one._replace(units=(_asked("whether it goes on with the unit above"),))
    return above, one


def _doubtful(one: _Found, below: str, reader: LineReader) -> _Found:
    """A line above units, with the question whether they hang, or whether it names their position."""
    under = starts_unit(below)
    if (under or position_in(below, reader.meanings.positions)) and GONE.search(one.text):
        return one._replace(units=(_asked("whether the units below it hang"),))
    if one.over or not under:
        return one
    named = NAMES_ONE.search(one.text) and FIGURE.search(one.text)
    if named or "position" in reader.fields(one.text[:LONGEST], placed=True).cells:
        return one._replace(units=(_asked("whether it stands over the units below"),))
    return one


def _asked(doubt: str) -> Fields:
    return Fields({}, (), doubt)


def _below(lines: Sequence[str], number: int) -> str:
    """The next line that says something."""
    return next(
        filter(None, (line.strip(EDGES) for line in lines[number : number + LINES_BELOW])), ""
    )


def _joined(units: tuple[Fields, ...], more: Fields) -> tuple[Fields, ...] | None:
    """The unit of the line above with the fields that the next line adds; None where it adds none, or says
    more than fields."""
    if len(units) != 1 or not more.cells or more.left or more.doubt or "number" in more.cells:
        return None
    if units[0].cells.keys() & more.cells.keys() or not units[0].cells or "position" in more.cells:
        return None
    return (units[0]._replace(cells={**units[0].cells, **more.cells}),)


def _units(text: str, reader: LineReader, placed: bool) -> Iterator[Fields]:
    """The units of a line, each with the position that stands before them."""
    if len(text) > LONGEST_LINE:
        if FIGURE.search(text[:LONGEST_LINE]):
            yield _asked("where each of its units begins")
        return
    position, rest = position_before(text, reader.meanings)
    placed = placed or bool(position)
    for mark in MARKS:
        parts = [part for part in rest.split(mark) if part.strip(EDGES)]
        if len(parts) > 1:
            units = [_unit(part, reader, placed) for part in parts]
            if all(unit is not None and "number" in unit.cells for unit in units):
                break
    else:
        units = [_unit(rest, reader, placed)]
    for unit in units:
        if unit is not None:
            named = {"position": position} if position else {}
            yield unit._replace(cells={**named, **unit.cells})


def _unit(text: str, reader: LineReader, placed: bool) -> Fields | None:
    """The fields of a part of a line that looks like a unit."""
    text = text.strip(EDGES)
    if not re.search(r"\d", text) or not LETTER.search(text):
        return None
    if len(text) > LONGEST:
        doubt = "where each of its units begins"
        return Fields({"number": text[:10]}, (), doubt) if starts_unit(text) else None
    unit = reader.fields(text, placed=placed)
    if not unit.is_unit or any(map(is_spare, unit.left)):
        return None
    return unit
