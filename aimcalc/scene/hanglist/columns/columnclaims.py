"""What the columns of a table claim to hold, by their headings and by their cells, while that is settled; the
question which, where several may be it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import islice
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.byvalues import NEARLY, Cells
from aimcalc.scene.hanglist.columns.columnkeys import Meaning, column_letters
from aimcalc.scene.hanglist.rows.listrow import blank, is_ditto, text_of
from aimcalc.scene.mistakes import CLASH, Wrong

LOOKED_THROUGH = 40  # cells of a column that say what it holds
FITTING = 0.6  # of its cells that fit a key, for a column to be taken for it
HALF = 0.5  # of its cells that a column spelled as a key holds at least, or it gives way
SOME_SIDES = 0.25  # of a column of lengths that have a side, for it to be one of places

Fits = Callable[[str, Any], bool | None]  # key and cell; None: the key says nothing about its cells


class Shares:
    """What share of a column's filled cells can be values of a key."""

    def __init__(self, below: Sequence[list[Any]], fits: Fits) -> None:
        self.below, self.fits = below, fits
        self.width = max(map(len, below), default=0)
        self._told: dict[int, list[Any]] = {}

    def of_places(self, column: int) -> bool:
        """Whether cells are places, whatever the heading: most with a side, or some among lengths alone."""
        sided = self("place", column)
        return sided >= FITTING or (sided >= SOME_SIDES and self("at", column) >= NEARLY)

    def __call__(self, key: str, column: int) -> float:
        """The share; -1 where the key says nothing about its cells, or there are none."""
        if column not in self._told:
            cells = [row[column] for row in self.below if column < len(row)]
            told = (cell for cell in cells if not (blank(cell) or is_ditto(cell)))
            self._told[column] = list(islice(told, LOOKED_THROUGH))
        fit = [self.fits(key, cell) for cell in self._told[column]]
        if not fit or None in fit:
            return -1.0
        return sum(map(bool, fit)) / len(fit)


class Claiming:
    """A table while it is settled which key each of its columns holds."""

    def __init__(
        self,
        texts: list[str],
        below: Sequence[list[Any]],
        fits: Fits,
        keys: dict[int, str],
        meanings: dict[int, Meaning],
        *,
        placed: bool,
    ) -> None:
        self.texts, self.below, self.fits = texts, below, fits
        self.width = max([len(texts), *map(len, below)])
        self.placed = placed  # the name of the sheet is the position of its units
        self.share, self.values = Shares(below, fits), Cells(below, fits)
        self.keys = keys  # of the columns that are settled
        self.meanings = meanings  # of the headings of the others
        self.claims: dict[str, list[int]] = {}  # the columns that may be it, by key
        self.holds: dict[int, str] = {}  # what cells hold, where they and no heading tell
        self.asked: list[tuple[int, Wrong]] = []  # by column

    def is_claimed(self, k: int) -> bool:
        """Whether a column was one of those that may be a key, though it be another that is."""
        return any(k in several for several in self.claims.values())


def choose(key: str, columns: list[int], c: Claiming) -> tuple[int | None, Wrong | None]:
    """The one of several columns that holds a key, or the question which."""
    if len(columns) == 1:
        return columns[0], None
    shares = [c.share(key, k) for k in columns]
    ranks = [c.meanings[k].rank for k in columns]
    fitting = [k for k, part in zip(columns, shares, strict=True) if part >= FITTING]
    if len(fitting) == 1 and max(shares) > 2 * sorted(shares)[-2]:
        return fitting[0], None
    first = [k for k, rank in zip(columns, ranks, strict=True) if rank == min(ranks)]
    named_twice = key == "circuit"  # "Circuit name" beside "Circuit no": the other is a remark
    if len(first) == 1 or named_twice:
        return first[0], None
    return columns[0], which_of(key, columns, c.texts)


def which_of(key: str, columns: list[int], texts: list[str]) -> Wrong:
    """The question which of several columns holds a key."""
    may_be = " or ".join(f'column {column_letters(k)} ("{texts[k]}")' for k in columns[:4])
    expected = f"one column that holds the {key}, and it may be {may_be}"
    do = f'Say which in the scene: [hang_columns] {key} = "{texts[columns[0]]}", or the column\'s letter.'
    return Wrong(expected, do, came=f"{len(columns)} of them", rank=CLASH)


def round_zero(k: int, c: Claiming) -> bool:
    """Whether the cells of a column are figures to either side of a zero, and so no numbers and no plugs:
    12L, 0, 12R, or L 7.5, C, R 7.5."""
    cells = [text_of(cell).strip().casefold() for cell in c.values.of(k)]
    figures = [found for cell in cells if (found := _BARE_FIGURE.fullmatch(cell))]
    sides = {found[1] or found[2] for found in figures}
    zeros = sum(cell in _ZEROS for cell in cells)
    return len(sides) == 2 and zeros > 0 and len(figures) + zeros == len(cells)


_BARE_FIGURE = regex(r"\d{1,3}(?:[.,]\d+)?\s?([lr])|([lr])\s?-?\d{1,3}(?:[.,]\d+)?")
_ZEROS = frozenset(("0", "0.0", "c", "cl", "c/l"))
