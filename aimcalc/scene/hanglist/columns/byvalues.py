"""Columns of a hang list that no heading tells, found by what they hold: names of the scene, or numbers
that run along each position."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from string import ascii_lowercase
from typing import Any

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.columns.headingparts import is_of_another_time
from aimcalc.scene.hanglist.columns.headings import meaning
from aimcalc.scene.hanglist.names.targetwords import NO_TARGET
from aimcalc.scene.hanglist.places.heights import FORMS
from aimcalc.scene.hanglist.rows.listrow import blank, is_ditto, text_of
from aimcalc.scene.readers import colour

NEARLY = 0.9  # of a column's cells that are values of a key, for it to be taken without a heading
FILLED = 0.6  # of the rows in which it says something
OTHERS = 0.6  # as many of them that are values of another key make it doubtful
FEWEST = 2  # cells; one tells nothing of a column
NAMES = ("position", "kind", "target")
NEEDED = ("position", "number", "kind", "target")

# Headings of what names or numbers a unit but is not its own: another time, a second one, what it travels in.
_ANOTHER = regex(
    r"\b(?:old|prev\w*|alt\w*|spare|second|2nd|was|were|before|new|act|optional|also|not|avoid|off|stand in"
    r"|swap\w*|instead|from|like|same|see|replac\w*|substitut\w*|block\w*|shutter\w*|spill|cut|last|next|near|backup|cable|case|crate|box|bag|cue|page|scene|asset|inventory|inv|barcode|serial|stock|store|group|phase|dmx|addr|adr|address|universe|weight|watts|power|price|cost|focused|done|crew|order|step)\b"
)
LEVELS = FORMS | {"kick"}

Fits = Callable[[str, Any], bool | None]


class Held(NamedTuple):
    """What columns were found to hold by their cells."""

    keys: dict[int, str]  # column -> key
    says: dict[int, str]  # column -> the words of what it holds
    doubtful: dict[str, list[int]]  # key -> the columns of which any may hold it
    freed: tuple[int, ...] = ()  # columns whose heading says a key that they do not hold


FEWEST_FILTERS = 4  # figures that tell that they are of filters, two of them
LONGEST_OPEN = 24  # characters of a cell that says that there is no colour
# Watts of lamps, which a column may give too.
WATTS = frozenset(("100", "150", "250", "300", "500", "575", "600", "650", "700", "750", "800"))


class Cells:
    """The cells of the rows that are as full as those of units are."""

    def __init__(self, below: Sequence[list[Any]], fits: Fits) -> None:
        self.fits = fits
        filled = [sum(not blank(cell) for cell in row) for row in below]
        most = max(filled, default=0)
        self.all_rows = below
        self.rows = [row for row, n in zip(below, filled, strict=True) if 2 * n >= most and n > 1]

    def of(self, k: int) -> list[Any]:
        """The filled cells of a column, those with a ditto mark left out."""
        cells = [row[k] for row in self.rows if k < len(row)]
        return [cell for cell in cells if not blank(cell) and not is_ditto(cell)]

    def share(self, key: str, k: int) -> float:
        """The share of a column's cells that are values of a key; 0 where there are none."""
        cells = self.of(k)
        if key == "target":  # "moves" is a unit's that has none
            cells = [cell for cell in cells if not NO_TARGET.fullmatch(text_of(cell))]
        told = [bool(self.fits(key, cell)) for cell in cells]
        return sum(told) / len(told) if told else 0.0

    def are_joint(self, k: int) -> bool:
        """Whether all cells of a column are a position and a number, no two the same, and not gels."""
        texts = [text_of(cell).casefold() for cell in self.of(k)]
        joint, gels = self.share("joint", k), self.share("lettered gel", k)
        return len(set(texts)) == len(texts) and joint == 1.0 > gels

    def is_full(self, k: int) -> bool:
        """Whether a column says something in most of the rows."""
        said = sum(k < len(row) and not blank(row[k]) for row in self.rows)
        return len(self.of(k)) >= FEWEST and said >= FILLED * len(self.rows)

    def leads(self, k: int) -> bool:
        """Whether a column says something in the first row and again below, for those that follow."""
        first = self.rows[0] if self.rows else []
        return k < len(first) and not blank(first[k]) and len(self.of(k)) >= FEWEST

    def names(self, key: str, k: int) -> bool:
        """Whether a column holds names of one sort, plainly, and not letters or numbers alone."""
        words = any(re.search(r"[^\W\d_]{2}", text_of(cell)) for cell in self.of(k))
        return (
            words
            and (self.is_full(k) or (key == "position" and self.leads(k)))
            and self.share(key, k) >= NEARLY
            and all(self.share(other, k) < OTHERS for other in NAMES if other != key)
        )

    def runs(self, k: int, position: int | None) -> bool:
        """Whether a column numbers the units: 1, 2, 3 ... along each position or down the whole list, or
        one height of a boom each, and never one twice on a position. With one unit on each
        position, the numbers may be those of the positions."""
        groups = list(self.by_position(k, position))
        cells = [text.casefold() for group in groups for text in group]
        if len(cells) < FEWEST or len(cells) != len(self.rows):
            return False
        if any(len(set(group)) != len(group) for group in groups):
            return False
        if all(text in LEVELS for text in cells):
            return True
        lettered = all("".join(sorted(group)).casefold() in ascii_lowercase for group in groups)
        if (
            lettered
            and all({"a", "A"} & set(group) for group in groups)
            and len(groups) < len(cells)
        ):
            return True
        if len(groups) == len(cells) or not all(
            re.fullmatch(r"[1-9]\d{0,3}", text) for text in cells
        ):
            return False
        along = all(sorted(map(int, group)) == _first(len(group)) for group in groups)
        return (along and len(set(cells)) > 1) or list(map(int, cells)) == _first(len(cells))

    def differ(self, k: int, position: int | None, least: float = 1.0) -> bool:
        """Whether all rows, or a share of them, have a number in a column, and no position one twice."""
        groups = list(self.by_position(k, position))
        filled = sum(map(len, groups)) >= least * len(self.rows)
        numbers = self.share("number", k) == 1.0
        return filled and numbers and all(len(set(group)) == len(group) for group in groups)

    def counts(self, k: int) -> bool:
        """Whether all cells of a column are whole numbers, or runs of them: "3", "1-2"."""
        cells = [text_of(cell).strip() for cell in self.of(k)]
        return bool(cells) and all(
            re.fullmatch(r"\d{1,3}(?:\s*[-–&]\s*\d{1,3})?", c) for c in cells
        )

    def restarts(self, k: int, position: int) -> bool:
        """Whether a column counts 1, 2, 3 ... on each of two positions or more."""
        groups = list(self.by_position(k, position))
        cells = [text for group in groups for text in group]
        if len(groups) < 2 or not all(re.fullmatch(r"[1-9]\d{0,3}", text) for text in cells):
            return False
        along = all(sorted(map(int, group)) == _first(len(group)) for group in groups)
        return along and len(groups) < len(cells) == len(self.rows)

    def initialled(self, k: int, position: int | None) -> bool:
        """Whether every cell of a column is letters of its position, from the first, and a number: "FT1" on
        the Front Truss, which a column names, or a row of its own above."""
        if position is None:
            below = self._on_positions(k, None)
            each = [(text.casefold(), name) for name, texts in below.items() for text in texts]
            return len(each) == len(self.rows) > 0 and all(_is_initialled(*p) for p in each)
        rows = [row for row in self.rows if max(k, position) < len(row)]
        pairs = [(text_of(row[k]).strip().casefold(), text_of(row[position])) for row in rows]
        return (
            bool(pairs) and len(pairs) == len(self.rows) and all(_is_initialled(*p) for p in pairs)
        )

    def by_position(self, k: int, position: int | None) -> Iterator[list[str]]:
        """The texts of a column on each position."""
        yield from self._on_positions(k, position).values()

    def _on_positions(self, k: int, position: int | None) -> dict[str, list[str]]:
        """The texts of a column by their position: as a column names it, or a row of its own above."""
        groups: dict[str, list[str]] = {}
        name = ""
        full = {id(row) for row in self.rows}
        for row in self.all_rows:
            if id(row) not in full:
                said = next((cell for cell in row if not blank(cell)), "")
                name = text_of(said) if position is None and self.fits("section", said) else name
                continue
            here = row[position] if position is not None and position < len(row) else None
            if not (blank(here) or is_ditto(here)):  # "FOH 1" and "FOH1" are one
                name = "".join(text_of(here).casefold().split())
            if k < len(row) and not blank(row[k]):
                groups.setdefault(name, []).append(text_of(row[k]).strip())
        return groups

    def under_positions(self) -> bool:
        """Whether rows of their own name the positions over the units."""
        full = {id(row) for row in self.rows}
        over = (row for row in self.all_rows if id(row) not in full)
        first = (next((cell for cell in row if not blank(cell)), "") for row in over)
        return any(self.fits("section", cell) for cell in first)


def _is_initialled(text: str, name: str) -> bool:
    """Whether a text is letters of a name in their order, from the first, and a number."""
    letters = iter(name.strip().casefold())
    parts = re.fullmatch(r"([^\W\d_]{1,3})[-./ ]?\d{1,3}", text)
    if parts is None or not name.strip() or next(letters) != parts[1][0]:
        return False
    return all(letter in letters for letter in parts[1][1:])


def _first(count: int) -> list[int]:
    return list(range(1, count + 1))


def numbers_among(columns: list[int], cells: Cells) -> int | None:
    """The one of the columns headed as positions that numbers the units on those of another: "Lx No"
    over 1, 2, 3 beside "Bar"; None where it is none, or may be several."""
    named = [b for b in columns if cells.names("position", b)]
    found = {a for b in named for a in columns if a != b and cells.runs(a, b)}
    return found.pop() if len(found) == 1 else None


def by_values(
    keys: dict[int, str],
    fixed: frozenset[int],
    texts: Sequence[str],
    cells: Cells,
    *,
    placed: bool = False,
) -> Held:
    """The columns that hold what a unit needs and no heading tells.

    Args:
        keys: what headings tell of the columns.
        fixed: the columns whose key stands, spelled as it is or settled.
        texts: the headings.
        cells: what is below.
        placed: whether something else names the position of the units.
    """
    freed = tuple(k for k, key in keys.items() if k not in fixed and _unfit(k, key, keys, cells))
    freed += _numbered_too(keys, cells)
    keys = {k: key for k, key in keys.items() if k not in freed}
    free = [k for k in range(len(texts)) if k not in keys and not is_another(texts[k])]
    held = Held({}, {}, {}, freed)
    joint = [k for k in free if cells.is_full(k) and cells.are_joint(k)]
    if len(joint) == 1 and not {"position", "number"} & set(keys.values()):
        held.keys[joint[0]], held.says[joint[0]] = "number", told(cells.of(joint[0]))
    for key in NEEDED:
        every = {**keys, **held.keys}
        if key in every.values() or not _is_needed(key, every, cells, placed):
            continue
        fit = [k for k in free if k not in every and _holds(key, k, every, cells, texts[k])]
        if key == "target" and not fit:  # "Job" over what the units are aimed at
            jobs = (k for k, one in keys.items() if one in ("system", "note") and k not in fixed)
            fit = [k for k in jobs if _holds(key, k, every, cells, texts[k])]
        if not fit:
            continue
        held.keys[fit[0]] = key
        held.says[fit[0]] = told(cells.of(fit[0]))
        if len(fit) > 1:
            held.doubtful[key] = fit
    _wired(held, keys, free, texts, cells)
    return held


def _wired(
    held: Held, keys: dict[int, str], free: list[int], texts: Sequence[str], cells: Cells
) -> None:
    """Give the circuit, the channel and the colour to the free column that alone holds them."""
    every = {**keys, **held.keys}
    for key in ("channel", "circuit"):
        fit = [
            k
            for k in free
            if k not in every and cells.is_full(k) and cells.share(f"said {key}", k) == 1
        ]
        if key not in every.values() and len(fit) == 1:
            held.keys[fit[0]], held.says[fit[0]] = key, told(cells.of(fit[0]))
    every |= held.keys
    gels = [k for k, text in enumerate(texts) if k not in every and _is_gel(k, text, cells)]
    if not gels and {*NEEDED, "channel"} - {"position"} <= set(every.values()):
        gels = [k for k in free if k not in every and not texts[k] and _are_filters(cells.of(k))]
    if "colour" not in every.values() and len(gels) == 1:
        held.keys[gels[0]] = "colour"
        held.says[gels[0]] = told(cells.of(gels[0]))
    every |= held.keys
    figures = [k for k in free if k not in every and _are_figures(k, cells)]
    placed_in = [k for k in range(len(texts)) if cells.share("place", k) >= NEARLY]
    if not any(texts) and len(figures) == 1 and placed_in and _lacks_channel(every):
        held.keys[figures[0]] = "channel"
        held.says[figures[0]] = told(cells.of(figures[0]))


def _lacks_channel(keys: dict[int, str]) -> bool:
    """Whether all that a unit needs and its colour are found, and neither channel nor circuit."""
    found = set(keys.values())
    return {*NEEDED, "colour"} - {"position"} <= found and not {"channel", "circuit"} & found


def _are_figures(k: int, cells: Cells) -> bool:
    """Whether a column holds a whole number for each unit."""
    return cells.is_full(k) and all(
        re.fullmatch(r"[1-9]\d{0,2}", text_of(cell).strip()) for cell in cells.of(k)
    )


def _numbered_too(keys: dict[int, str], cells: Cells) -> tuple[int, ...]:
    """The column headed as that of positions whose cells are these and numbers in one, where none numbers."""
    if "number" in keys.values():
        return ()
    columns = (k for k, key in keys.items() if key == "position")
    return tuple(k for k in columns if cells.is_full(k) and cells.are_joint(k))


def _is_gel(k: int, heading: str, cells: Cells) -> bool:
    """Whether a column holds colours in words, and no names of the scene."""
    names = any(cells.share(other, k) >= OTHERS for other in NAMES)
    if names or is_of_another_time(heading) or not cells.is_full(k):
        return False
    said = "lettered gel" if is_another(heading) else "gel"  # "Cable colour" over red is none
    each = [(cells.fits(said, cell), _is_open(cell)) for cell in cells.of(k)]
    gels, known = sum(gel is True for gel, _ in each), sum(map(any, each))
    return gels >= FEWEST and known >= NEARLY * len(each)


def _is_open(cell: Any) -> bool:
    """Whether a cell of colours says in words that there is none."""
    said = text_of(cell).strip()
    return said[:1].isalpha() and len(said) <= LONGEST_OPEN and colour(said) is None


def _are_filters(found: Sequence[Any]) -> bool:
    """Whether figures are the numbers of filters: of three digits each, the same ones again and again, and no
    watts."""
    texts = [text_of(cell).strip() for cell in found]
    alike = all(re.fullmatch(r"[1-9]\d\d", text) for text in texts)
    several = FEWEST_FILTERS <= 2 * len(set(texts)) <= len(texts)
    return alike and several and not set(texts) <= WATTS


def _unfit(k: int, key: str, keys: dict[int, str], cells: Cells) -> bool:
    """Whether no cell of a column is what its heading says, and nearly all are something else. Kinds are
    never 1, 2, 3 ..., though there may be one of 5 degrees."""
    if key == "mount" and "position" not in keys.values():
        return cells.names("position", k)  # "Mounting" over the bars
    if key not in NEEDED or not cells.of(k):
        return False
    if key == "position" and cells.counts(k):  # "Pos" over 1, 2, 3, beside the bars or under them
        free = (j for j in range(len(cells.all_rows[0])) if j not in keys)
        beside = any(
            cells.names("position", j) and (cells.runs(k, None) or cells.restarts(k, j))
            for j in free
        )
        under = "number" not in keys.values() and cells.under_positions()
        return beside or (under and cells.runs(k, None))
    position = next((j for j, one in keys.items() if one == "position" and j != k), None)
    if key == "kind" and cells.share(key, k) < OTHERS and cells.runs(k, position):
        return True
    return cells.share(key, k) == 0.0 and (
        (
            key in ("position", "kind")  # "Spot" over "13 ft SR"
            and cells.share("place", k) > 0
            and cells.share("at", k) >= NEARLY
        )
        or any(cells.names(other, k) for other in NAMES if other != key)
        or (key != "number" and cells.runs(k, position))
    )


def _is_needed(key: str, keys: dict[int, str], cells: Cells, placed: bool) -> bool:
    by_key = {one: k for k, one in keys.items()}
    if key == "position":
        number = by_key.get("number")
        joint = number is not None and cells.share("number", number) < OTHERS  # "LX1/3"
        return not placed and not joint and not cells.under_positions()
    if key == "target":
        return "point" not in by_key
    return True


def _holds(key: str, k: int, keys: dict[int, str], cells: Cells, text: str) -> bool:
    if key != "number":
        return cells.names(key, k)
    position = next((j for j, one in keys.items() if one == "position"), None)
    if position is not None and cells.share("position", position) < OTHERS:
        if not cells.under_positions():
            return False
        position = None  # "Position" over the places, under the names of the bars
    return cells.runs(k, position) or (_calls_units(text) and cells.differ(k, position))


def _calls_units(heading: str) -> bool:
    """Whether a heading may be that of a unit's number or name: "LX" beside a column of bars."""
    return bool({"number", "position"} & set(meaning(heading).keys)) or bool(_NAMES.search(heading))


_NAMES = regex(r"\b(?:ref|reference|label)\b", re.IGNORECASE)


def is_another(heading: str) -> bool:
    """Whether a heading names or numbers something else than the unit: another time, what it travels in."""
    return bool(_ANOTHER.search(_words(heading)))


def _words(heading: str) -> str:
    """A heading without its marks and capitals."""
    return re.sub(r"[\W_]+", " ", heading.casefold())


def told(cells: Sequence[Any]) -> str:
    """What a column holds, in words: "1 to 6", or its first names."""
    texts = list(dict.fromkeys(text_of(cell).strip() for cell in cells))
    if all(text.isdecimal() for text in texts):
        numbers = sorted(map(int, texts))
        return f"{numbers[0]} to {numbers[-1]}"
    return ", ".join(text[:30] for text in texts[:3]) + (" and more" if len(texts) > 3 else "")
