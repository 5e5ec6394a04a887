"""Where the blocks of a sheet are that are turned on their side: headings down a column, units beside it."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from typing import Any

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.columns.headings import heading_score, meaning
from aimcalc.scene.hanglist.columns.tradewords import LENGTHS
from aimcalc.scene.hanglist.rows.listrow import blank, text_of

MOST_BEFORE = 3  # columns among which that of the headings may be
FEWEST_KEYS = 3  # that the headings of a block name
FEWEST_CELLS = 2  # of a unit
HEADED = 4  # keys in one row that make it headings: the sheet is a table as others
FIRST_ROWS = 20  # in which such a row mostly is
_NUMBER = regex(r"\s*(?:[^\W\d_]{1,12}\.?\s*)?#?\s*\d{1,3}(?:\.0)?[a-z]?\s*", re.IGNORECASE)

Fits = Callable[[str, Any], bool | None]  # key and cell
Cell = tuple[int, int]  # row and column, from 0


class Block(NamedTuple):
    """One turned block: where its headings stand, what they say, and the columns of its units."""

    first: int
    last: int
    label: int  # the column of the headings
    labels: tuple[str, ...]  # of each row
    units: tuple[int, ...]
    over: Cell | None = None  # the cell in or beside it that names the position of its units


def turned_blocks(rows: Sequence[Sequence[Any]], fits: Callable[[], Fits]) -> list[Block]:
    """The turned blocks of a sheet, from the top; none where it has headings in a row, or one unit in all.

    Args:
        rows: the cells of the sheet.
        fits: gives what tells whether a cell may be a position; asked only where a block may be.
    """
    if _is_headed(rows[:FIRST_ROWS], fits):
        return []
    blocks = _blocks(rows, fits)
    inside = {k for block in blocks for k in range(block.first, block.last + 1)}
    if _is_headed([row for k, row in enumerate(rows) if k not in inside], fits):
        return []
    if len(blocks) == 1 and len(blocks[0].units) < FEWEST_CELLS:
        return []  # a name and a word beside it, over a table or alone
    return blocks


def _is_headed(rows: Sequence[Sequence[Any]], fits: Callable[[], Fits]) -> bool:
    return any(heading_score(row) >= HEADED and not _are_aims(row, fits) for row in rows)


def _are_aims(row: Sequence[Any], fits: Callable[[], Fits]) -> bool:
    """Whether a row that names several keys is a heading of targets with targets beside it: "Focus", over
    "Stage Left", "Centre" and "Stage Right"."""
    filled = [cell for cell in row if not blank(cell)]
    if len(filled) < 2 or meaning(text_of(filled[0])).keys[:1] != ("target",):
        return False
    may_be = fits()
    return all(may_be("target", cell) for cell in filled[1:])


def _blocks(rows: Sequence[Sequence[Any]], fits: Callable[[], Fits]) -> list[Block]:
    """The turned blocks of a sheet, from the top."""
    best: list[Block] = []
    for label in range(MOST_BEFORE):
        if sum(_known(row, label) for row in rows) < FEWEST_KEYS:
            continue
        is_position = fits()
        runs = _runs(rows, label, is_position)
        found = [b for run in runs if (b := _block(rows, run, label, is_position))]
        best = max(best, found, key=_units_in)
    return best


def _units_in(blocks: Sequence[Block]) -> int:
    return sum(len(block.units) for block in blocks)


def _runs(rows: Sequence[Sequence[Any]], label: int, fits: Fits) -> Iterator[range]:
    """Rows that may be one block: between rows that are blank, hold one cell that is no heading, or begin the
    headings again."""
    first, begins = 0, ""
    for k, row in enumerate(rows):
        word = _word(row, label)
        ends = _is_apart(row, label, word, fits)
        again = bool(word) and word.casefold() == begins
        if ends or again or _names_units(row, label, word, fits):
            if k > first:
                yield range(first, k)
            first, begins = k + ends, ""
        if not ends and not begins and meaning(word).keys:
            begins = word.casefold()
    if first < len(rows):
        yield range(first, len(rows))


def _is_apart(row: Sequence[Any], label: int, word: str, fits: Fits) -> bool:
    """Whether a row is blank, or a title alone."""
    beside = [k for k, cell in enumerate(row) if not blank(cell) and k != label]
    if not beside:
        return not word or not meaning(word).keys or bool(fits("position", word))
    return not word and max(beside) < label


def _names_units(row: Sequence[Any], label: int, word: str, fits: Fits) -> bool:
    """Whether a row is a position with the numbers of its units beside it, not "Bar" beside LX 1, LX 2."""
    beside = row[label + 1 :]
    if not (_are_numbers(beside) and fits("position", word)):
        return False
    return not all(fits("position", cell) for cell in beside if not blank(cell))


def _are_numbers(cells: Sequence[Any]) -> bool:
    filled = [text_of(cell) for cell in cells if not blank(cell)]
    return bool(filled) and all(_NUMBER.fullmatch(text) for text in filled)


def _block(rows: Sequence[Sequence[Any]], run: range, label: int, fits: Fits) -> Block | None:
    """The block that some rows are, from the first heading that is known; None where they are none."""
    known = [k for k in run if _known(rows[k], label)]
    if not _are_headings([_word(rows[k], label) for k in known]):
        return None
    first, last = known[0], run[-1]
    over = next(((k, j) for k in run for j in range(label) if _word(rows[k], j)), None)
    labels = [_word(rows[k], label) for k in range(first, last + 1)]
    if first > run[0] and _are_numbers(rows[first - 1][label + 1 :]):
        first -= 1
        corner = _word(rows[first], label)
        named = bool(corner) and bool(fits("position", corner))
        heads = bool(corner) and not named and bool(meaning(corner).keys)
        over = (first, label) if corner and not heads and (named or over is None) else over
        labels.insert(0, corner if heads else "Unit")  # a title has the units beside it
    block = range(first, last + 1)
    headed = [k for k in block if heading_score(rows[k]) >= FEWEST_KEYS]
    if 2 * len(known) < len(labels) or not all(_are_aims(rows[k], lambda: fits) for k in headed):
        return None
    units = _units(rows, block, label, labels)
    return Block(first, last, label, tuple(labels), units, over) if units else None


def _are_headings(words: Sequence[str]) -> bool:
    """Whether the words of a column are headings of units: several keys, mostly once each."""
    keys = {meaning(word).keys[0] for word in words}
    often = len(words) - len({word.casefold() for word in words})
    return bool(keys & {"kind", "target"}) and often <= 1 and heading_score(words) >= FEWEST_KEYS


def _units(
    rows: Sequence[Sequence[Any]], block: range, label: int, labels: list[str]
) -> tuple[int, ...]:
    """The columns of a block that are units each; one of length units goes to the headings, and one that
    holds the headings again to nobody."""
    found = []
    for k in range(label + 1, max(len(rows[n]) for n in block)):
        cells = [rows[n][k] if k < len(rows[n]) else "" for n in block]
        filled = [n for n, cell in enumerate(cells) if not blank(cell)]
        words = [text_of(cells[n]).strip() for n in filled]
        if all(word.casefold().strip(" .()[]") in LENGTHS for word in words):
            for n, word in zip(filled, words, strict=True):
                labels[n] = f"{labels[n]} ({word.strip(' .()[]')})"
        elif any(
            word.casefold() != labels[n].casefold() for n, word in zip(filled, words, strict=True)
        ):
            found.append(k)
    enough = any(
        sum(k < len(rows[n]) and not blank(rows[n][k]) for n in block) >= FEWEST_CELLS
        for k in found
    )
    return tuple(found) if enough else ()


def _word(row: Sequence[Any], k: int) -> str:
    """The text of a cell that may be a heading; "" of a figure."""
    cell = row[k] if k < len(row) else ""
    return " ".join(cell.split()) if isinstance(cell, str) and not blank(cell) else ""


def _known(row: Sequence[Any], k: int) -> bool:
    word = _word(row, k)
    return bool(word and meaning(word).keys)
