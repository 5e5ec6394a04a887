"""What parts the cells of a text: commas, semicolons, tabs, bars, or what people type between them."""

from __future__ import annotations

import re
from collections.abc import Iterable

from aimcalc.named import regex
from aimcalc.scene.files import csv_rows
from aimcalc.scene.hanglist.columns.headings import heading_score

MARKS = ",;\t|"
LOOKED_AT = 20_000  # characters in which the mark between cells is looked for
FEWEST_ALIKE = 3  # lines of as many pieces, for text without known headings to be one of columns


def text_rows(text: str) -> Iterable[list[str]]:
    """The rows of text that `parted_by` tells the parting of."""
    mark, begin, framed = parted_by(text)
    if len(mark) > 1:
        return ([cell.strip() for cell in line.split(mark)] for line in text.splitlines())
    rows = csv_rows(with_dittos(text[begin:], mark), mark)
    return map(_unframed, rows) if framed else rows


def with_dittos(text: str, mark: str) -> str:
    """Text in which a quote that is all of a cell is a ditto mark, and does not open a cell in quotes that
    ends rows below; as it is where any cell begins with a quote and goes on."""
    if not re.search(rf'(?m)(?:^|{re.escape(mark)})[ ]*"[ ]*(?:{re.escape(mark)}|$)', text):
        return text
    rows = [line.split(mark) for line in re.split(r"\r\n|\r|\n", text)]
    if any(cell.lstrip().startswith('"') and cell.strip() != '"' for row in rows for cell in row):
        return text
    return "\n".join(
        mark.join('""""' if cell.strip() == '"' else cell for cell in row) for row in rows
    )


def parted_by(text: str) -> tuple[str, int, bool]:
    """What parts the cells of text, where its first row begins, and whether bars frame each row.

    Comma, semicolon, tab or bar, whichever gives the best headings; a first line "sep=;", as some programs
    write it, says which. One of `WIDE_MARKS`, that no quotes go with, where none of them does.
    """
    said = re.match(r"\"?sep=(.)\"?[^\S\n]*(?=\r?\n|$)", text)
    if said:
        return said[1], said.end(), False
    head = text[:LOOKED_AT]
    scores = {mark: best_score(head, mark) for mark in MARKS}
    if not any(scores.values()):
        wide = max(WIDE_MARKS, key=lambda mark: (best_score(head, mark), alike(head, mark)))
        most = max(alike(head, mark) for mark in MARKS)
        if best_score(head, wide) or alike(head, wide) > max(most, FEWEST_ALIKE - 1):
            return wide, 0, False
    mark = max(MARKS, key=lambda mark: (scores[mark], alike(head, mark)))
    return mark, 0, _framed(head) >= FRAMED


WIDE_MARKS = (" / ", " - ", " – ", " — ", " : ")  # between cells that people type in a mail
FRAMED = 0.8  # of the lines with a bar that begin and end with one: a table of a page


def best_score(head: str, mark: str) -> int:
    """The best score of headings that any of the first lines has, parted at `mark`."""
    lines = head.splitlines()[:60]
    return max(
        (heading_score([c.strip(' "') for c in line.split(mark)]) for line in lines), default=0
    )


def alike(head: str, mark: str) -> int:
    """How many of the first lines `mark` parts into as many cells as most of them, three or more."""
    counts = [line.count(mark) for line in head.splitlines()[:60]]
    return max((counts.count(n) for n in set(counts) if n > 1), default=0)


def _framed(head: str) -> float:
    """The share of lines with a bar that begin and end with one: "| 1 | 2 |"."""
    lines = [line.strip() for line in head.splitlines()[:60] if line.count("|") > 1]
    return sum(line[0] == line[-1] == "|" for line in lines) / max(1, len(lines))


def _unframed(row: list[str]) -> list[str]:
    cells = [cell.strip() for cell in row]
    if len(cells) > 2 and not cells[0] and not cells[-1]:
        cells = cells[1:-1]
    return cells


MOST_LED = 60  # first lines in which rows of dots are looked for
FEWEST_LED = 3  # lines with dots, and rows of dots in each of them
_DOTS = regex(r"[^\S\n]*(?<![\w.])\.{2,}(?!\w)[^\S\n]*|[^\S\n]*\.{4,}[^\S\n]*")


def without_leaders(text: str) -> str:
    """A text whose columns are parted by rows of dots with tabs in their place; any other as it is."""
    if ".. " not in text:
        return text
    head = [line for line in text.splitlines()[:MOST_LED] if line.strip()]
    led = [line for line in head if len(_DOTS.findall(line)) >= FEWEST_LED]
    if len(led) < FEWEST_LED or 2 * len(led) < len(head):
        return text
    lines = text.splitlines()
    return "\n".join(
        _DOTS.sub("\t", line) if len(_DOTS.findall(line)) >= FEWEST_LED else line for line in lines
    )
