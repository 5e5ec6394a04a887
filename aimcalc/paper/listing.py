"""Plain lists on upright pages: sections with a heading, columns, rows that may wrap, boxes to tick.

Sections run on down the page; one that is cut goes on under its heading and its column heads.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from aimcalc.named import NamedTuple
from aimcalc.paper.page import THIN, Align, Box, Page, Sheet
from aimcalc.text.typeset import BOLD, LEADING, NARROWEST, REGULAR, shorten, text_width, wrap

TITLE = 22.0  # pt
NOTE = 11.0
TOP = 34.0  # pt that the title takes
HEADING = 14.0
HEAD = 10.0
PAD = 3.0
FEWEST = 2  # rows under a heading at the foot of a page, and on the next where they go on


class Col(NamedTuple):
    """One column: its head (lines parted by a line break), its share of the width, how its cells look.

    Rows may have fewer cells than there are columns. `wrap` lets a cell take several lines; `tick` draws
    an empty box to tick; a `name` is never cut: it is squeezed first, then takes several lines.
    """

    head: str
    share: float
    bold: bool = False
    align: Align = "l"
    wrap: bool = False
    tick: bool = False
    name: bool = False


class Section(NamedTuple):
    """A heading, a note under it, columns and rows. `blank` rows are left empty to write in.

    `anew` starts a page.
    """

    title: str
    columns: Sequence[Col]
    rows: Sequence[Sequence[str]]
    note: str = ""
    blank: int = 0
    row: float = 17.0  # pt, the least height of a row
    size: float = 11.0  # pt of type
    anew: bool = False


class Cut(NamedTuple):
    """What of a section is on one page, under its title there: (row's cells as lines, height) pairs."""

    section: Section
    title: str
    note: list[str]
    rows: list[tuple[list[list[str]], float]]

    @property
    def height(self) -> float:
        """Heading, note, heads and rows."""
        return _head_height(self.section, self.note) + sum(height for _, height in self.rows)


def list_pages(
    title: str, sections: Sequence[Section], body: Box, facts: str, cautions: str
) -> list[Page]:
    """Pages of the sections in order, as few as hold them one after another but for those that start anew."""
    pages: list[list[Cut]] = [[]]
    room = body.height - TOP
    for section in sections:
        note = wrap(section.note, REGULAR, NOTE, body.width) if section.note else []
        rows = _laid_out(section, body.width)
        told, again = section.title, f"{section.title}, continued"
        if section.anew and pages[-1]:
            pages.append([])
            room = body.height - TOP
        while True:
            fits = _how_many(section, note, rows, room)
            if fits < min(FEWEST, len(rows)) and pages[-1]:
                pages.append([])
                room = body.height - TOP
                continue
            if 0 < len(rows) - fits < FEWEST <= fits - FEWEST:  # no row goes on alone
                fits = len(rows) - FEWEST
            fits = max(fits, 1)
            cut = Cut(section, told, note, rows[:fits])
            pages[-1].append(cut)
            room -= cut.height
            rows, told, note = rows[fits:], again, []
            if not rows:
                break
    return [Page(partial(_draw, title, cuts), facts, cautions) for cuts in pages]


def _how_many(
    section: Section, note: list[str], rows: Sequence[tuple[list[list[str]], float]], room: float
) -> int:
    """How many rows fit under their heading."""
    left = room - _head_height(section, note)
    count = 0
    for _, height in rows:
        left -= height
        if left < 0:
            break
        count += 1
    return count


def _head_height(section: Section, note: list[str]) -> float:
    return 10 + HEADING * LEADING + len(note) * NOTE * LEADING + _heads_height(section)


def _heads_height(section: Section) -> float:
    """What the column heads take; nothing where no column has one."""
    most = max((len(col.head.split("\n")) for col in section.columns if col.head), default=0)
    return most * HEAD * LEADING + 4 if most else 0.0


def _laid_out(section: Section, width: float) -> list[tuple[list[list[str]], float]]:
    """Every row's cells as lines, with its height; the blank rows last."""
    widths = _widths(section, width)
    line = section.size * LEADING
    laid = []
    for row in section.rows:
        cells = [
            _lines(words, col, section.size, wide) if words else []
            for words, col, wide in zip(row, section.columns, widths, strict=False)
        ]
        cells += [[] for _ in section.columns[len(cells) :]]
        most = max((len(cell) for cell in cells), default=1)
        laid.append((cells, max(section.row, most * line + 3.0)))
    empty: list[list[str]] = [[] for _ in section.columns]
    return laid + [(empty, section.row)] * section.blank


def _lines(words: str, col: Col, size: float, width: float) -> list[str]:
    font = BOLD if col.bold else REGULAR
    room = width / NARROWEST if col.name else width
    if not (col.wrap or col.name) or text_width(words, font, size) <= room:
        return [words]
    return wrap(words, font, size, room)


def _widths(section: Section, width: float) -> list[float]:
    """Room for words in every column."""
    whole = sum(col.share for col in section.columns)
    return [col.share * width / whole - 2 * PAD for col in section.columns]


def _draw(title: str, cuts: Sequence[Cut], sheet: Sheet) -> None:
    body = sheet.body
    head = shorten(title, 60, keep_end=True)
    sheet.text(body.left, body.top - TITLE, head, TITLE, bold=True, width=body.width)
    y = body.top - TOP
    for cut in cuts:
        y = _draw_cut(sheet, cut, y)


def _draw_cut(sheet: Sheet, cut: Cut, top: float) -> float:
    """Draw one section's part; the y below it."""
    body, section = sheet.body, cut.section
    y = top - 10 - HEADING * LEADING
    sheet.text(body.left, y + 4, cut.title, HEADING, bold=True, width=body.width)
    for line in cut.note:
        y -= NOTE * LEADING
        sheet.text(body.left, y + 3, line, NOTE, width=body.width)
    edges = [body.left]
    whole = sum(col.share for col in section.columns)
    for col in section.columns:
        edges.append(edges[-1] + col.share * body.width / whole)
    y -= _heads_height(section)
    for col, left, right in zip(section.columns, edges, edges[1:], strict=False):
        for k, line in enumerate(reversed(col.head.split("\n")) if col.head else ()):
            _put(sheet, col, left, right, y + 4 + k * HEAD * LEADING, line, HEAD, bold=True)
    for cells, height in cut.rows:
        _draw_row(sheet, section, edges, cells, y, height)
        y -= height
    sheet.line(body.left, y, body.right, y, weight=THIN)
    return y


def _draw_row(
    sheet: Sheet,
    section: Section,
    edges: Sequence[float],
    cells: Sequence[Sequence[str]],
    top: float,
    height: float,
) -> None:
    size = section.size
    sheet.line(edges[0], top, edges[-1], top, weight=THIN)
    for col, cell, left, right in zip(section.columns, cells, edges, edges[1:], strict=False):
        if col.tick:
            sheet.line(left, top, left, top - height, weight=THIN)
            sheet.line(right, top, right, top - height, weight=THIN)
        block = len(cell) * size * LEADING
        y = top - (height - block) / 2 - size * 0.94
        for line in cell:
            _put(sheet, col, left, right, y, line, size, bold=col.bold)
            y -= size * LEADING


def _put(
    sheet: Sheet,
    col: Col,
    left: float,
    right: float,
    y: float,
    words: str,
    size: float,
    *,
    bold: bool,
) -> None:
    align: Align = "c" if col.tick else col.align
    x = {"l": left + PAD, "c": (left + right) / 2, "r": right - PAD}[align]
    width = right - left - 2 * PAD
    sheet.text(x, y, words, size, bold=bold, align=align, width=width)
