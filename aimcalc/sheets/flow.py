"""Running text in columns: headings and paragraphs cut into lines, lines cut into columns."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from aimcalc.sheets.paper import Sheet
from aimcalc.sheets.typeset import ABOVE, BOLD, LEADING, REGULAR, text_width, wrap

TYPE = 10.5  # pt
HEADING = 14.0  # pt
ABOVE_HEADING = 7.0  # pt
ABOVE_PARAGRAPH = 2.0  # pt
SPACE = 4.0  # pt between the bold words and the text


class Paragraph(NamedTuple):
    """A heading, or a text that starts with some words in bold."""

    lead: str
    words: str
    heading: bool = False


class Line(NamedTuple):
    """One line as it is set; `gap` is left above it."""

    lead: str
    words: str
    size: float
    gap: float

    @property
    def height(self) -> float:
        """Gap and line."""
        return self.gap + self.size * LEADING


def set_lines(paragraphs: Sequence[Paragraph], width: float) -> list[list[Line]]:
    """Lines of the paragraphs set in `width`; what must stay together is one list.

    A paragraph stays together, and a heading with the paragraph after it.
    """
    blocks: list[list[Line]] = []
    held: list[Line] = []
    for paragraph in paragraphs:
        if paragraph.heading:
            held += _heading(paragraph.lead, width)
        else:
            blocks.append([*held, *_lines(paragraph, width)])
            held = []
    return [*blocks, held] if held else blocks


def columns(blocks: Sequence[Sequence[Line]], height: float) -> list[list[Line]]:
    """Blocks filled into columns of one height. A block taller than a column is cut."""
    filled: list[list[Line]] = [[]]
    used = 0.0
    for block in blocks:
        tall = sum(line.height for line in block)
        whole = tall <= height
        if whole and used + tall > height:
            filled.append([])
            used = 0.0
        for line in block:
            if used + line.height > height and filled[-1]:
                filled.append([])
                used = 0.0
            filled[-1].append(line)
            used += line.height
    return filled


def draw_column(sheet: Sheet, x: float, top: float, lines: Sequence[Line], width: float) -> None:
    """Draw the lines of one column below `top`."""
    y = top
    for line in lines:
        y -= line.height
        base, at = y + line.size * (LEADING - ABOVE), x
        if line.lead:
            at += sheet.text(x, base, line.lead, line.size, bold=True, width=width) + SPACE
        if line.words:
            sheet.text(at, base, line.words, line.size, width=x + width - at)


def _heading(words: str, width: float) -> Iterator[Line]:
    for k, line in enumerate(wrap(words, BOLD, HEADING, width)):
        yield Line(line, "", HEADING, 0.0 if k else ABOVE_HEADING)


def _lines(paragraph: Paragraph, width: float) -> Iterator[Line]:
    """A text beside its bold words, or under them where they take more than half a line."""
    lead, gap = paragraph.lead, ABOVE_PARAGRAPH
    taken = text_width(lead, BOLD, TYPE) + SPACE if lead else 0.0
    if taken > 0.5 * width:
        for line in wrap(lead, BOLD, TYPE, width):
            yield Line(line, "", TYPE, gap)
            gap = 0.0
        lead, taken = "", 0.0
    for k, line in enumerate(wrap(paragraph.words, REGULAR, TYPE, width, taken)):
        yield Line(lead if k == 0 else "", line, TYPE, 0.0 if k else gap)
