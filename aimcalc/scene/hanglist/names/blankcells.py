"""Cells of kinds and targets that are left blank for the one above, and cells that go on in the row below.

A blank cell may also be one that somebody forgot. It stands for the one above in a list that leaves many of
them blank, below several that are filled, never writes one that is the same again, and begins each position
with one. In the first column of a list that is ordered by it, it stands for the one above on any position.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from itertools import pairwise
from typing import Any

from aimcalc.scene.hanglist.columns.columnkeys import AT_PARTS, HEIGHT, Headings
from aimcalc.scene.hanglist.names.kindbeside import hangs_on
from aimcalc.scene.hanglist.rows.listrow import blank, is_ditto, is_total, text_of

FEWEST = 2  # blank cells, and filled ones above them; one was forgotten
# The share of the units that have none, for blank cells to be a habit: targets are also left open.
LEAST = {"kind": 1 / 3, "target": 1 / 2}
ORDERED = 1 / 3  # of the units of a list ordered by its first column
BESIDE = {"kind": ("target", "point"), "target": ("kind",)}  # a row without these is no unit
PLACED = ("number", "at", HEIGHT, *AT_PARTS)
GOES_ON = ("kind", "target")

Numbered = tuple[int, list[Any]]


class BlankCells:
    """The kinds and targets of units whose cells are blank for the one above, on the same position."""

    def __init__(self, keys: Iterable[str] = (), ordered: str = "") -> None:
        self.keys = tuple(keys)
        self.ordered = ordered  # the key by which the list is ordered, whatever the position
        self.above: dict[str, Any] = {}

    def section(self) -> None:
        """Forget the unit above, which hangs on another position."""
        self.above = {}

    def fill(self, raw: dict[str, Any]) -> list[str]:
        """Give a unit what its blank cells stand for; the keys of them."""
        if not self.keys:
            return []
        position = raw.get("position", self.above.get("position"))
        same = self.above and _alike(position, self.above.get("position"))
        filled = [
            key
            for key in self.keys
            if (same or (key == self.ordered and self.above))
            and key not in raw
            and key in self.above
            and raw.keys() & set(BESIDE[key])
        ]
        raw |= {key: self.above[key] for key in filled}
        if raw.keys() & set(PLACED):
            self.above = {**raw} if position is None else {**raw, "position": position}
        return filled


def left_blank(headings: Headings, rows: Iterable[list[Any]]) -> BlankCells:
    """The keys whose blank cells stand for the one above them, in the rows below the headings."""
    columns = {key: column.place for key, column in headings.by_key.items()}
    units = [row for row in rows if _is_unit(row, columns)]
    texts = {key: _texts(units, columns[key]) for key in LEAST if key in columns}
    first = min((column.place for column in headings.columns), default=0)
    ordered = next((key for key in texts if columns[key] == first and _orders(texts[key])), "")
    keys = [key for key in texts if key == ordered or _is_habit(key, texts[key])]
    return BlankCells(keys, ordered)


def _orders(texts: list[str]) -> bool:
    """Whether the first column of a list says what the units below are for until it says another: once each,
    from the first unit on, at the head of several groups. One blank cell may be forgotten."""
    blanks, filled = texts.count(""), [text.casefold() for text in texts if text]
    led = sum(bool(text) and not after for text, after in pairwise(texts))
    often = blanks >= max(FEWEST, ORDERED * len(texts)) and led >= FEWEST
    return often and bool(texts[0]) and len(set(filled)) == len(filled) and not _marked(texts)


def _marked(texts: list[str]) -> bool:
    return any(map(is_ditto, texts))


def _is_habit(key: str, texts: list[str]) -> bool:
    blanks = texts.count("")
    if blanks < FEWEST or blanks < LEAST[key] * len(texts) or not texts[0]:
        return False
    if _marked(texts):
        return False
    if any(one and one.casefold() == other.casefold() for one, other in pairwise(texts)):
        return False
    led = [bool(text) and not after for text, after in pairwise(texts)]
    if sum(led) < FEWEST:
        return False
    runs = [not text and not after for text, after in pairwise(texts)]
    return key == "kind" or sum(runs) >= FEWEST


def _is_unit(row: list[Any], columns: dict[str, int]) -> bool:
    filled = {key for key, k in columns.items() if k < len(row) and not blank(row[k])}
    return bool(filled & set(PLACED)) and bool(filled & {"kind", "target", "point"})


def _texts(rows: Iterable[list[Any]], k: int) -> list[str]:
    return [text_of(row[k]).strip() if k < len(row) else "" for row in rows]


def _alike(one: Any, other: Any) -> bool:
    return text_of(one).strip().casefold() == text_of(other).strip().casefold()


def gone_on(
    numbered: Iterable[Numbered],
    headings: Callable[[], Headings],
    fits: Callable[[str, Any], bool | None],
    told: Callable[[int, str], None],
) -> Iterator[Numbered]:
    """The rows of a table, each with what its kinds and targets go on with in the row below: "Profile 26"
    over "degree". That row is blank then, and told."""
    before: Numbered | None = None
    for number, row in numbered:
        if before is not None:
            whole = _whole(before[1], row, headings(), fits)
            if whole:
                words = ", ".join(text_of(cell) for cell in whole.values())
                told(number, words)
                before = before[0], [whole.get(k, cell) for k, cell in enumerate(before[1])]
                row = [""] * len(row)
            yield before
        before = number, row
    if before is not None:
        yield before


def _whole(
    row: list[Any], below: list[Any], headings: Headings, fits: Callable[[str, Any], bool | None]
) -> dict[int, str]:
    """The cells of a row with what stands under them, by their columns; none where the row below is another
    than the rest of them."""
    filled = [k for k, cell in enumerate(below) if not blank(cell)]
    if not filled or len(filled) > len(GOES_ON):
        return {}
    keys = {headings.by_key[key].place: key for key in GOES_ON if key in headings.by_key}
    if not set(filled) <= keys.keys() or len(keys) < len(GOES_ON):
        return {}
    columns = {key: column.place for key, column in headings.by_key.items()}
    if not _is_unit(row, columns):
        return {}
    whole = {}
    for k in filled:
        first, rest = text_of(row[k]).strip(), text_of(below[k]).strip()
        both = f"{first} {rest}"
        if not first or is_ditto(first) or is_ditto(rest) or is_total(rest) or hangs_on(rest):
            return {}
        if (fits(keys[k], first) and fits(keys[k], rest)) or not fits(keys[k], both):
            return {}
        whole[k] = both
    return whole
