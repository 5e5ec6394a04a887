"""Where the headings of a sheet stand, and which rows below them hold them again."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from itertools import chain, count, islice
from typing import Any

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.columns.columnclaims import LOOKED_THROUGH, Fits
from aimcalc.scene.hanglist.columns.columnkeys import AT_PARTS, HEIGHT, Headings
from aimcalc.scene.hanglist.columns.headings import heading_score, meaning
from aimcalc.scene.hanglist.columns.headingsides import says_sign
from aimcalc.scene.hanglist.columns.tradewords import LENGTHS
from aimcalc.scene.hanglist.rows.listrow import blank, is_total, says_nothing, text_of
from aimcalc.scene.hanglist.rows.rowlabels import STOCK
from aimcalc.scene.mistakes import FILE, Wrong, show

LOOKED_AT = 200  # first rows among which headings are looked for
ENOUGH = 4  # keys in one row, after which no better headings are looked for far below
FIRST_OF_ALL = ("position", "number", "at", "kind", "target")


class Head(NamedTuple):
    """The first rows of a sheet, its rows of headings among them, and the rest still to be read."""

    rows: list[list[Any]]
    first: int  # index of the first row of headings; -1 where there are none
    last: int
    score: int
    rest: Iterable[list[Any]]
    numbers: tuple[int, ...] = ()  # of its rows, where they are not 1, 2, 3 ...

    def headings(self) -> list[Any]:
        """The cells of the headings, those over more lines than one joined."""
        rows = self.rows[self.first : self.last + 1] if self.last >= 0 else [[]]
        return rows[0] if len(rows) == 1 else joined(*rows)

    def is_again(self, row: list[Any]) -> bool:
        """Whether a row is one of those of the headings again."""
        return self.last >= 0 and row in self.rows[self.first : self.last + 1]

    def is_page_head(self, row: list[Any]) -> bool:
        """Whether a row of cells stands above the headings too: the head of another page."""
        filled = sum(not blank(cell) for cell in row)
        return filled > 1 and row in self.above

    @property
    def above(self) -> list[list[Any]]:
        """The rows above the headings."""
        return self.rows[: max(0, self.first)]

    def all_rows(self) -> Iterable[list[Any]]:
        """Every row of the sheet."""
        return chain(self.rows, self.rest)

    def numbered(self) -> Iterable[tuple[int, list[Any]]]:
        """Every row of the sheet with its number, from 1."""
        return zip(self.numbers or count(1), self.all_rows(), strict=False)


def find_head(rows: Iterable[list[Any]], fits: Fits | None = None) -> Head:
    """Where the headings of a sheet are: the first of the rows that name the most keys, two lines
    where they do so together.

    Where none names enough of them, `fits` finds the rows of units by their cells, and the headings over
    them; a table of units without headings has its `first` and `last` at -1, and a score.
    """
    rest = iter(rows)
    head = list(islice(rest, LOOKED_AT))
    scores: list[int] = []
    for row in head:
        texts = sum(isinstance(cell, str) and not blank(cell) for cell in row)
        scores.append(heading_score(row) if texts > max(scores, default=0) else 0)
        if max(scores) >= ENOUGH and scores.index(max(scores)) < len(scores) - 5:
            break  # what comes below are units
    best = max(scores, default=0)
    if not best:
        scores = [heading_score(row, near=True) for row in head[:LOOKED_THROUGH]]
        best = max(scores, default=0)
    if not best:
        found = _over_units(head, fits) if fits else None
        first, score = found or (-1, 0)
        return Head(head, first, first, score, rest)
    at = _first_headings(head, scores, best)
    best = scores[at]
    for above, below in ((1, 1), (2, 0), (0, 2), (1, 0), (0, 1)):
        first, last = at - above, at + below
        if first >= 0 and last < len(head) and _as_one(head[first : last + 1], best):
            return Head(head, first, last, heading_score(joined(*head[first : last + 1])), rest)
    first = at - (at > 0 and _ends_in(head[at - 1], head[at]))
    last = at + (at + 1 < len(head) and _ends_in(head[at], head[at + 1], alone=True))
    return Head(head, first, last, best, rest)


def _first_headings(rows: list[list[Any]], scores: list[int], best: int) -> int:
    """The first row that names the most keys, or one before it that has units of its own under it."""
    at = scores.index(best)
    for k in range(at):
        if scores[k] >= ENOUGH and any(_holds_figures(row, rows[k]) for row in rows[k + 1 : at]):
            return k
    return at


def _holds_figures(row: list[Any], headings: list[Any]) -> bool:
    """Whether a row has a figure and fills most of the columns that have a heading."""
    headed = [k for k, cell in enumerate(headings) if not blank(cell)]
    filled = [k for k in headed if k < len(row) and not blank(row[k])]
    return 2 * len(filled) > len(headed) and any(_has_digit(str(row[k])) for k in filled)


def _ends_in(above: list[Any], below: list[Any], *, alone: bool = False) -> bool:
    """Whether a heading goes on in the row below with its unit: "Dist. from C/L" over "(inches)"; with
    `alone` that row holds nothing else."""
    over = [k for k, cell in enumerate(above) if not blank(cell)]
    under = [k for k, cell in enumerate(below) if not blank(cell)]
    units = [k for k in under if isinstance(below[k], str) and _is_unit_alone(below[k])]
    if alone:
        bracketed = [k for k in under if k in units or re.fullmatch(_BRACKETED, str(below[k]))]
        return bool(under) and bracketed == under and set(under) <= set(over)
    words = all(isinstance(above[k], str) and not _has_digit(above[k]) for k in over)
    return bool(over) and words and set(over) <= set(units)


def _is_unit_alone(text: str) -> bool:
    return text.casefold().strip(" .()[]") in LENGTHS


_BRACKETED = r"\s*[(\[][^()\[\]\d]{1,40}[)\]]\s*"


FEWEST_UNITS = 3  # rows that are units by their cells, for a table to be found without its headings
TOLD_BY = 2  # cells of such a row that are names of the scene, or a place with its side


def _over_units(rows: list[list[Any]], fits: Fits) -> tuple[int, int] | None:
    """The row of headings in words that nobody knows, over rows that are units by their cells, and a score;
    row -1 where the units have no headings; None where there are no units."""
    units = [k for k, row in enumerate(rows) if _is_unit(row, fits)]
    if len(units) < FEWEST_UNITS:
        return None
    width = sum(not blank(cell) for cell in rows[units[0]])
    for k in range(units[0] - 1, -1, -1):
        words = [cell for cell in rows[k] if not blank(cell)]
        if len(words) < 2 or says_nothing(words):
            continue  # the name of a position, a line of dashes
        plain = all(isinstance(w, str) and any(map(str.isalpha, w)) for w in words)
        if plain and 2 * len(words) > width and not any(map(_has_digit, words)):
            return k, 1
        break
    return -1, 1


def are_headings(row: list[Any]) -> bool:
    """Whether a row below the headings names keys itself, and has hardly a figure."""
    figures = sum(not blank(cell) and _has_digit(str(cell)) for cell in row)
    return figures < MOST_FIGURES and heading_score(row) > 0


MOST_FIGURES = 2  # cells with a figure in a row of headings


def ends_before(head: Head, fits: Fits) -> int:
    """The row of headings of something else, under a blank one below the units: its index, or that after the
    last row looked at."""
    rows, keys = head.rows, _keys_of(head.headings())
    for k in range(head.last + 2, len(rows) - 1):
        if not (says_nothing(rows[k - 1]) or _is_titled(rows, k, head.last)):
            continue
        words = [cell for cell in rows[k] if not blank(cell)]
        named = all(isinstance(w, str) and w.strip() and not _has_digit(w) for w in words)
        if not named or not (_is_of_else(words, keys) or len(words) >= FEWEST_HEADINGS):
            continue
        ours = any(fits(key, w) for key in ("position", "kind", "target") for w in words)
        known = heading_score(rows[k]) and not _is_of_else(words, keys)
        if not ours and not known and not any(_is_unit(r, fits) for r in rows[k:]):
            return k
    return counts_from(head, fits)


def _keys_of(cells: Iterable[Any]) -> set[str]:
    return {key for cell in cells if not blank(cell) for key in meaning(cell).keys[:1]}


def _is_titled(rows: list[list[Any]], k: int, last: int) -> bool:
    """Whether a row stands under a title of one cell that is parted off from the units by a blank row."""
    return k - 2 > last and _filled(rows[k - 1]) == 1 and says_nothing(rows[k - 2])


def _filled(row: Iterable[Any]) -> int:
    return sum(not blank(cell) for cell in row)


def _is_of_else(words: list[Any], keys: set[str]) -> bool:
    """Whether headings are those of a count, a patch or a stock under those of units (`keys`): they name two
    things or more, and neither where units are nor what they are aimed at, which the units' own do."""
    named = _keys_of(words)
    alone = (
        len(words) > 1
        and bool(named)
        and not named & _OF_UNITS
        and not named >= {"position", "number"}
    )
    return alone and keys >= {"number", "at", "target"}


_OF_UNITS = {"at", HEIGHT, "target", "point", *AT_PARTS}


def counts_from(head: Head, fits: Fits) -> int:
    """The first row behind all units that counts them, or begins a list of what is in stock: "Totals" over
    "6 | Profiles"; or that below a blank one where none of those behind it can be a unit of which something
    is forgotten; its index, or that after the last row."""
    rows, cells = head.rows, head.headings()
    last = next((k for k in range(len(rows) - 1, head.last, -1) if _is_unit(rows[k], fits)), -1)
    if last < 0 or not _keys_of(cells) >= {"number", "target"}:
        return len(rows)
    number = next(
        k for k, c in enumerate(cells) if not blank(c) and meaning(c).keys[:1] == ("number",)
    )
    behind = [k for k in range(last + 1, len(rows)) if not head.is_again(rows[k])]
    maybe = [k for k in behind if _may_be_unit(rows[k], number, fits)]
    if any(_filled(rows[k]) >= ENOUGH and _is_placed(rows[k], fits) for k in maybe):
        return len(rows)
    latest = max(maybe, default=last)
    for k in range(last + 1, len(rows)):
        words = [str(cell).strip() for cell in rows[k] if not blank(cell)]
        if words and (is_total(words[0]) or STOCK.fullmatch(words[0])):
            return k
        if k > latest and words and says_nothing(rows[k - 1]):
            return len(rows) if _is_alone(rows[k:], fits) else k
    return len(rows)


def _is_alone(rows: list[list[Any]], fits: Fits) -> bool:
    """Whether one row is left, with the name of a kind: a unit of which all else is forgotten, or a count."""
    left = [row for row in rows if not says_nothing(row)]
    return len(left) == 1 and any(fits("kind", c) for c in left[0] if isinstance(c, str))


def _may_be_unit(row: list[Any], number: int, fits: Fits) -> bool:
    """Whether a row may be a unit of which something is forgotten: it has several cells, or a target or a
    place, or else a number beside two others or the name of a kind or a position."""
    if _filled(row) > ENOUGH or _is_placed(row, fits):
        return True
    counted = number < len(row) and text_of(row[number]).strip().isdecimal()
    words = [cell for cell in row if isinstance(cell, str)]
    several = _filled(row) >= FEWEST_HEADINGS
    return counted and (several or any(fits(key, c) for c in words for key in ("kind", "position")))


def _is_placed(row: list[Any], fits: Fits) -> bool:
    return any(fits(key, c) for c in row if isinstance(c, str) for key in ("target", "place"))


LONGEST_HEADING = 5  # words of one of two rows of headings
FEWEST_HEADINGS = 3  # of another table below the units


def _has_digit(text: str) -> bool:
    return any(map(str.isdigit, text))


def has_units(head: Head, fits: Fits) -> bool:
    """Whether a row below the headings is a unit by its cells."""
    return any(_is_unit(row, fits) for row in head.rows[head.last + 1 :])


def _is_unit(row: list[Any], fits: Fits) -> bool:
    """Whether two cells of a row or more are, each of its own sort, names of the scene or a place, and any
    has a figure."""
    if not any(_has_digit(str(cell)) for cell in row):
        return False
    told: dict[str, int] = {}
    cells = [c for c in row if isinstance(c, str) and sum(map(str.isalpha, c)) > 1 and len(c) < 60]
    for cell in cells[:40]:
        sort = next((key for key in ("kind", "target", "position", "place") if fits(key, cell)), "")
        if sort:
            told[sort] = told.get(sort, 0) + 1
    return len(told) >= TOLD_BY and len(cells) > 1


_EXPLAINS = regex(r"[^\W\d_]\s*=\s*[^\W\d_]")  # "left/right = stage left/right", over the headings


def _as_one(rows: list[list[Any]], best: int) -> bool:
    """Whether rows are one heading over two or three lines: together they name no less, and all say
    something."""
    for row in rows:
        words = [cell for cell in row if not blank(cell)]
        if len(words) < 2 or not all(
            isinstance(w, str) and any(map(str.isalpha, w)) and not any(map(str.isdigit, w))
            for w in words
        ):
            return False
        if any(w.count("(") != w.count(")") or len(w.split()) > LONGEST_HEADING for w in words):
            return False  # a sentence with a comma, parted at it
        if len(rows) > 1 and any(says_sign(w) or _EXPLAINS.search(w) for w in words):
            return False  # "mm from centre | SL + | SR -" says how places are read
    every = joined(*rows)
    fewer = (joined(*rows[:k], *rows[k + 1 :]) for k in range(len(rows)))
    return heading_score(every) >= best and all(every != joined(each, []) for each in fewer)


def joined(*rows: list[Any]) -> list[str]:
    """Rows of headings as one."""
    width = max(map(len, rows))
    cells = []
    for k in range(width):
        parts = [row[k] for row in rows if k < len(row) and not blank(row[k])]
        cells.append(" ".join(str(part).strip() for part in parts))
    return cells


def headings_again(row: list[Any], headings: Headings, above: Sequence[Any] = ()) -> int:
    """Whether a row below the headings is one of headings itself: 0 no, 1 the same ones, 2 others. These may
    hold words that nobody knows where most are those of the headings before, or below a row `above` that
    holds nothing or a title: another table."""
    words = [cell for cell in row if not blank(cell)]
    if len(words) < 2 or not all(isinstance(word, str) for word in words):
        return 0
    mine = {c.place: c.heading.casefold() for c in headings.columns}
    same = sum(
        1
        for k, cell in enumerate(row)
        if not blank(cell) and " ".join(str(cell).split()).casefold() == mine.get(k)
    )
    if same == len(words):
        return 1
    known = sum(bool(meaning(word).keys) for word in words)
    enough = known == len(words) or (known > ENOUGH and 4 * known >= 3 * len(words))
    figures = any(_has_digit(word) for word in words)
    apart = sum(not blank(cell) for cell in above) <= 1
    most = 2 * (known if apart else same) > len(words) or (
        known >= ENOUGH and 4 * known >= 3 * len(words)
    )
    enough = enough or (most and not figures)
    if enough and heading_score(row) >= 3:
        return 2
    return 0


def no_table(head: Head, sheet: str) -> Wrong:
    """What to say of a sheet without headings."""
    first = next((row for row in head.rows if not all(map(blank, row))), [])
    told = [str(cell) for cell in first if not blank(cell)]
    place = f"sheet {sheet}: " if sheet else ""
    came = f"{place}{', '.join(map(show, told[:3]))}{' ...' if len(told) > 3 else ''}"
    do = "Write the headings in one row above the units, in the scene's words or the trade's."
    expected = f"a row of headings: {', '.join(FIRST_OF_ALL[:4])} ..."
    return Wrong(expected, do, came=came if told else "nothing", rank=FILE)
