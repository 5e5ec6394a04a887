"""Rows that are two units each, one on either side of the stage: "Ch SL" and "Ch SR" beside "Boom 1"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from aimcalc.named import NamedTuple
from aimcalc.scene.hanglist.columns.headings import meaning
from aimcalc.scene.hanglist.names.sections import is_counted_sort
from aimcalc.scene.hanglist.rows.listrow import blank, is_ditto, text_of
from aimcalc.scene.records import Place

# Keys of a unit that a row may hold for either side; its place is the same on both.
_EITHER = frozenset(("channel", "circuit", "target", "colour", "kind", "number", "note"))
_SIDES = ("sl", "sr", "ps", "op", "left", "right", "l", "r")
_OF_SIDES = frozenset(
    (*_SIDES, "stage", "side", "prompt", "opposite", "and", "both", "pair", "of", "each")
)


class Pairs(NamedTuple):
    """The columns of a table whose rows are two units each."""

    headings: list[Any]  # with those of SL in the words of both, and those of SR blank
    columns: tuple[tuple[int, int], ...]  # of SL and SR, by what they hold
    position: int  # the column of positions, or the one that those over their units come to
    places: Mapping[str, Place]
    over: bool = False  # a row over the units names their position
    first: str = ""  # the words of the one above the headings

    def titled(self, row: Sequence[Any]) -> str | None:
        """The words of a row that names the positions of both sides over their units, "Boom 1 (SL and SR)";
        "" of one that names another position, or both sides of none, and None of any other."""
        words = _words_alone(row) if self.over else ""
        if words and all(self.on_side(words, side) for side in _BOTH):
            return words
        said = _plain_words(words)
        named = any(said == _plain_words(name) for name in self.places)
        return "" if said and (named or is_counted_sort(words) or _says_both(words)) else None

    def rows(self, row: Sequence[Any], named: str) -> list[list[Any]]:
        """A row as that of each of its units: one that has nothing in the columns of its side is none.
        `named` are the words of its position, those of a row above where it has none; a row that
        names no position of either side stays whole."""
        found = []
        for side in (0, 1):
            name = self.on_side(named, ("SL", "SR")[side])
            if name is None:
                return [list(row)]
            cells = list(row) + [""] * (len(self.headings) - len(row))
            if all(blank(cells[pair[side]]) for pair in self.columns):
                continue
            for pair in self.columns:
                cells[pair[0]], cells[pair[1]] = cells[pair[side]], ""
            cells[self.position] = name
            found.append(cells)
        return found or [list(row)]

    def on_side(self, words: str, side: str) -> str | None:
        """The one position on a side that words name but for the side."""
        heading = "" if self.over else text_of(self.headings[self.position])
        mine = _plain_words(f"{heading} {words}")
        said = _plain_words(words)
        named = [
            name
            for name, place in self.places.items()
            if (x := place.aside) and (x > 0) == (side == "SL")
            if said <= _plain_words(name) <= mine | said
        ]
        return named[0] if len(named) == 1 else None


def pairs_of(
    cells: Sequence[Any],
    above: Sequence[Sequence[Any]],
    below: Sequence[Sequence[Any]],
    places: Mapping[str, Place],
) -> Pairs | None:
    """The columns for either side of a table; None where its rows are one unit each.

    Args:
        cells: the headings.
        above: the rows over them, of which the last may name the sides.
        below: rows of the table.
        places: the positions of the house.
    """
    position = next((k for k, c in enumerate(cells) if meaning(c).keys == ("position",)), None)
    sides = _words_of_sides(places)
    columns = _beside(cells, sides) or _under(cells, above[-1] if above else (), sides)
    if not columns:
        return None
    headings = list(cells)
    for left, right in columns:
        headings[left], headings[right] = _parted(cells[left], sides)[1] or cells[left], ""
    if position is None:
        return _over(headings, columns, above, below, places)
    pairs = Pairs(headings, tuple(columns), position, places)
    named = list(named_along(below, position))
    both = [all(pairs.on_side(words, side) for side in _BOTH) for words in named if words]
    return pairs if both and 2 * sum(both) > len(both) else None


def _over(
    headings: list[Any],
    columns: list[tuple[int, int]],
    above: Sequence[Sequence[Any]],
    below: Sequence[Sequence[Any]],
    places: Mapping[str, Place],
) -> Pairs | None:
    """The columns for either side of a table whose positions stand over their units, "Boom 1 (SL and SR)"."""
    width = max(map(len, (headings, *below)))
    headings = [*headings, *[""] * (width - len(headings)), "Position"]
    pairs = Pairs(headings, tuple(columns), width, places, over=True)
    titles = [words for row in above if (words := pairs.titled(row)) is not None]
    pairs = pairs._replace(first=titles[-1] if titles else "")
    rows = (*above, *below)
    paired = any(pairs.titled(row) or _says_both(_words_alone(row)) for row in rows)
    return pairs if paired else None


def _says_both(words: str) -> bool:
    """Whether words that name a position say both sides of it: "Boom 9 (SL and SR)"."""
    each = re.findall(r"[a-z]+", words.casefold())
    both = len(set(each) & {*_SIDES}) > 1 or not {"both", "each", "pair"}.isdisjoint(each)
    return both and len(each) <= LONGEST_TITLE and bool(_plain_words(words))


def _words_alone(row: Sequence[Any]) -> str:
    """The words of a row of a few cells that are all words."""
    filled = [cell for cell in row if not blank(cell)]
    few = len(filled) <= MOST_OF_TITLE and all(isinstance(cell, str) for cell in filled)
    return " ".join(map(str, filled)) if few else ""


LONGEST_TITLE = 7  # words of such a row
MOST_OF_TITLE = 3  # cells of a row that names a position over its units
_BOTH = ("SL", "SR")


def named_along(rows: Sequence[Sequence[Any]], position: int) -> Iterator[str]:
    """The words of the position of each row, those of the row above where it has none."""
    last = ""
    for row in rows:
        cell = row[position] if position < len(row) else ""
        last = last if blank(cell) or is_ditto(cell) else text_of(cell)
        yield last


def _beside(cells: Sequence[Any], sides: Mapping[str, str]) -> list[tuple[int, int]]:
    """Columns whose headings say the same but for the side: "Ch SL" and "Ch SR"."""
    found: dict[str, dict[str, int]] = {}
    for k, cell in enumerate(cells):
        side, base = _parted(cell, sides)
        if side and _EITHER & set(meaning(base).keys):
            found.setdefault(base.casefold(), {}).setdefault(side, k)
    return [(each["SL"], each["SR"]) for each in found.values() if len(each) == len(("SL", "SR"))]


def _under(
    cells: Sequence[Any], above: Sequence[Any], sides: Mapping[str, str]
) -> list[tuple[int, int]]:
    """Columns of the same headings in turn under the name of either side."""
    begins = {
        side: k
        for k, cell in enumerate(above)
        if (side := _parted(cell, sides)[0]) and not blank(cell)
    }
    alone = all(not _parted(above[k], sides)[1] for k in begins.values())
    if len(begins) != len(("SL", "SR")) or not alone:
        return []
    first, second = sorted(begins.values())
    many = second - first
    one, other = list(cells[first:second]), list(cells[second : second + many])
    if one != other or not all(_EITHER & set(meaning(cell).keys) for cell in one):
        return []
    pairs = [(first + k, second + k) for k in range(many)]
    return pairs if begins["SL"] < begins["SR"] else [(b, a) for a, b in pairs]


def _parted(cell: Any, sides: Mapping[str, str]) -> tuple[str, str]:
    """The side that a heading names at one of its ends, "" where none, and its other words."""
    if not isinstance(cell, str) or len(cell) > _LONGEST:
        return "", ""
    text = " ".join(cell.split())
    for pattern in (_AT_END, _AT_START):
        found = re.fullmatch(pattern, text, re.IGNORECASE)
        side = sides.get(found["side"].casefold().replace(".", "")) if found else None
        if found and side:
            return side, found["base"].strip(" .:-–()/")
    return "", ""


_SIDE_WORDS = r"(?:stage\s+)?(?:left|right)|s\.?l\.?|s\.?r\.?|p\.?s\.?|o\.?p\.?|l|r"
_AT_END = rf"(?P<base>.*?)(?:^|[\s(/:–-])(?P<side>{_SIDE_WORDS})(?:\s+side)?\)?"
_AT_START = rf"(?P<side>{_SIDE_WORDS})(?:\s+side)?[\s):/–-]+(?P<base>.*)"
_LONGEST = 30


def _words_of_sides(places: Mapping[str, Place]) -> dict[str, str]:
    """Which side each word for one is, in the names of the house: a bare left is whose the names tell."""
    found: dict[str, set[str]] = {}
    for name, place in places.items():
        x = place.aside
        for word in re.findall(r"[a-z]+", name.casefold()):
            if word in _SIDES and x:
                found.setdefault(word, set()).add("SL" if x > 0 else "SR")
    told = {"sl": "SL", "sr": "SR", "stage left": "SL", "stage right": "SR"}
    opposite = {"SL": "SR", "SR": "SL"}
    for one, other in (("ps", "op"), ("left", "right"), ("l", "r")):
        said = found.get(one, set()) | {opposite[side] for side in found.get(other, ())}
        if len(said) == 1:
            side = said.pop()
            told |= {one: side, other: opposite[side]}
    for word, long in (("left", "l"), ("right", "r"), ("l", "left"), ("r", "right")):
        if word not in told and long in told:
            told[word] = told[long]
    return told


def _plain_words(text: str) -> frozenset[str]:
    """The words of a name without those of sides, a plural as one: "SL Booms 1" is boom and 1."""
    words = re.findall(r"[a-z]+|\d+", re.sub(r"\.0\b", "", text.casefold()))
    single = (word.removesuffix("s") for word in words if word not in _OF_SIDES)
    return frozenset(word for word in single if word not in _OF_SIDES)
