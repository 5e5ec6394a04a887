"""The number of a unit and its kind in one cell, "1 - ERS 36", "2: Fresnel", "#3 PAR", "spot (4)", where all
cells of a column have both: the numbers then tell units on each position apart, as those of a kind do not."""

from __future__ import annotations

import re
from typing import Any

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.columns.byvalues import NEARLY, told
from aimcalc.scene.hanglist.columns.columnclaims import Claiming, Fits
from aimcalc.scene.hanglist.columns.columnkeys import Meaning
from aimcalc.scene.hanglist.rows.listrow import text_of

LONGEST = 70  # characters of such a cell
FEWEST = 2  # of them
FEWEST_BARE = 3  # where no mark parts the two: "2 PC" may be two of them
_CALLED = r"(?:(?:#|no\b\.?|nr\b\.?|n°|nº|num\b\.?|unit|lx|u)\s*[#.]?\s*)"
_FIRST = regex(
    rf"({_CALLED})?[(\[]?(\d{{1,3}}[a-z]?)(\s*[-–—:.)\],;/|=]+\s*|\s+)(?![x×*]\s)(\S.*)",
    re.IGNORECASE,
)
_LAST = regex(
    rf"(\S.*?)(\s*[-–—:,;/|(\[]\s*|\s+)({_CALLED})?(\d{{1,3}}[a-z]?)\s*[)\]]?", re.IGNORECASE
)


class Numbered(NamedTuple):
    """The number and the kind of a cell, and whether a mark parts them."""

    number: str
    kind: str
    marked: bool


def numbered_kind(cell: Any, fits: Fits) -> Numbered | None:
    """The number of a unit and its kind, in either order; None where a cell is not both."""
    text = text_of(cell).strip()
    if len(text) > LONGEST or not re.search(r"\d", text):
        return None
    first = _FIRST.fullmatch(text)
    if first and fits("kind", first[4]):
        return Numbered(first[2], first[4], bool(first[1] or first[3].strip()))
    last = _LAST.fullmatch(text)
    if last and not fits("kind", text) and fits("kind", last[1]):
        return Numbered(last[4], last[1], bool(last[3] or last[2].strip()))
    return None


def numbers_on_positions(c: Claiming) -> None:
    """Take for the number one of two columns that are headed as the position, "Bar" and "Lx No.", where it
    holds figures that begin again and the other names positions, and no column numbers the units."""
    several = c.claims.get("position", [])
    if len(several) != 2 or "number" in {*c.claims, *c.keys.values()}:
        return
    for number, position in (several, several[::-1]):
        figures = [text_of(cell).strip() for cell in c.values.of(number)]
        counts = figures.count("1") > 1 and all(map(str.isdecimal, figures))
        if counts and c.share("position", position) >= NEARLY and c.share("figure", position) == 0:
            c.claims["position"], c.claims["number"] = [position], [number]
            c.holds[number] = told(c.values.of(number))
            return


def numbers_with_kinds(c: Claiming) -> None:
    """Know a column of kinds with the numbers of their units before them, where no other numbers the units or
    one has the same numbers; "Unit" over such cells is that of kinds."""
    kinds = [k for k, key in c.keys.items() if key == "kind"]
    if not kinds:
        both = {"kind", "number"}
        kinds = [k for k, m in c.meanings.items() if both.intersection(m.keys) and _is_free(k, c)]
    position = next((k for k, key in c.keys.items() if key == "position"), None)
    for k in kinds:
        number = next((j for j, key in c.keys.items() if key == "number" and j != k), None)
        if _are_numbered(k, position, c) and (number is None or _same(k, number, c)):
            c.keys[k] = "kind"
            c.meanings[k] = c.meanings.get(k, Meaning())._replace(numbered=True)
            return


def _is_free(k: int, c: Claiming) -> bool:
    return c.keys.get(k, "number") == "number"


def _are_numbered(k: int, position: int | None, c: Claiming) -> bool:
    """Whether the cells of a column are kinds with numbers that part the units on each position: any with a
    mark between, else 1, 2, 3 ..."""
    if c.share("kind", k) >= NEARLY:
        return False
    groups = [
        [numbered_kind(text, c.fits) for text in group]
        for group in c.values.by_position(k, position)
    ]
    found = [one for group in groups for one in group]
    if len(found) < FEWEST or not all(found):
        return False
    marked = all(one.marked for one in found if one)
    if not marked and len(found) < FEWEST_BARE:
        return False
    for group in groups:
        numbers = [one.number.casefold() for one in group if one]
        runs = sorted(numbers) == sorted(str(n + 1) for n in range(len(numbers)))
        if len(set(numbers)) < len(numbers) or not (marked or runs):
            return False
    return True


def _same(k: int, number: int, c: Claiming) -> bool:
    """Whether another column has the number that stands before each kind."""
    rows = [row for row in c.values.rows if max(k, number) < len(row)]
    pairs = [(numbered_kind(row[k], c.fits), text_of(row[number]).strip()) for row in rows]
    return bool(pairs) and all(one and one.number == text for one, text in pairs)


def positions_headed_with_numbers(c: Claiming) -> None:
    """Take for the position a column that is headed as that and the number, "Position & unit", where its
    cells are names of positions and another column numbers the units, "Unit"."""
    if {"position", "number"} & set(c.keys.values()) or "position" in c.claims:
        return
    for k in c.claims.get("number", []):
        others = [j for j, found in c.meanings.items() if j != k and "number" in found.keys[:1]]
        if len(others) != 1 or not _OF_BOTH.search(c.texts[k]):
            continue
        figures = [text_of(cell).strip() for cell in c.values.of(others[0])]
        counts = bool(figures) and all(re.fullmatch(r"\d{1,3}[a-zA-Z]?", one) for one in figures)
        if counts and c.share("position", k) >= NEARLY:
            c.claims["position"], c.claims["number"] = [k], others
            return


_OF_BOTH = regex(
    r"\b(?:pos(?:itio)?n?|location|bar|pipe|lx|hung)\b\W{1,3}(?:and\s)?\W{0,2}(?:unit|no|number|#)",
    re.IGNORECASE,
)
