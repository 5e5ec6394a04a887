"""The length unit of places that have none, where only one lets them all lie on their positions: 4500 in a
house drawn in metres, 5.00 in one drawn in centimetres."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise
from typing import Any

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.places.along import INCHES
from aimcalc.scene.lengths import UNITS
from aimcalc.scene.mistakes import Wrong

METRIC = ("m", "cm", "mm")  # "72" in a house of feet may be inches, or feet and inches run together
PAST = 0.3  # metres past its end at which a figure is not taken for a place on the pipe
CROWDED = 0.1  # metres from unit to unit, as a mean, that no clamps can hang at
NEAREST = 0.045  # and from any two of them, in a unit that nobody says
NEAR = 0.25  # metres at which clamps fit in and hardly anybody hangs two units
FEWEST = 3  # figures that tell that they are crowded

_UNIT_WRITTEN = regex(
    r"['\"′″’”‘“´`]|\d\s*(?:ft|feet|foot|fts?|ins?|inch(?:es)?|mtrs?|m|cms?|mm|met\w+|centi\w+|milli\w+)(?![a-z])"
    r"|\d\s*m\s*\d|\d\s*-\s*\d",
    re.IGNORECASE,
)


class Figure(NamedTuple):
    """A place that is a figure without a length unit, with its sign where its side is known."""

    position: str
    value: float
    sided: bool  # it has a side or a sign
    low: float  # the ends of its position as places count, metres
    high: float
    from_end: bool = False


def is_bare(text: str) -> bool:
    """Whether a place names no length unit."""
    return bool(re.search(r"\d", text)) and not _UNIT_WRITTEN.search(text)


def unit_that_fits(figures: Sequence[Figure], unit: str) -> str:
    """The one unit, other than that of the scene, in which all the figures lie on their positions, where they
    do not in that of the scene; "" where none does, several do, or they may count from an end in another."""
    if unit not in METRIC or not figures or _fits(figures, unit):
        return ""
    fit = [u for u in METRIC if u != unit and _fits(figures, u) and not _touch(figures, u, NEAREST)]
    if len(fit) != 1 or _touch(figures, fit[0], NEAR):
        return ""
    if not any(figure.sided or figure.from_end for figure in figures):
        ends = [figure._replace(from_end=True) for figure in figures]
        if any(_fits(ends, other) for other in METRIC if other != fit[0]):
            return ""
    return fit[0]


def _fits(figures: Sequence[Figure], unit: str) -> bool:
    above, below = UNITS[unit]
    scale = above / below
    return all(_is_on(figure, scale) for figure in figures) and not _crowded(figures, scale)


def _touch(figures: Sequence[Figure], unit: str, nearest: float) -> bool:
    """Whether two units of one position hang at places so near that their clamps do not fit in."""
    above, below = UNITS[unit]
    least = nearest * below / above
    at = sorted({(figure.position, figure.value) for figure in figures})
    return any(a[0] == b[0] and b[1] - a[1] < least for a, b in pairwise(at))


def _is_on(figure: Figure, scale: float) -> bool:
    at, low, high = figure.value * scale, figure.low, figure.high
    if figure.from_end:
        return 0 <= at <= high - low + PAST
    if not figure.sided:
        return abs(at) <= max(-low, high) + PAST
    return low - PAST <= at <= high + PAST


def _crowded(figures: Sequence[Figure], scale: float) -> bool:
    """Whether the units of all positions together hang nearer to each other than they can."""
    by_position: dict[str, set[float]] = {}
    for figure in figures:
        by_position.setdefault(figure.position, set()).add(figure.value)
    several = [values for values in by_position.values() if len(values) > 1]
    gaps = sum(len(values) - 1 for values in several)
    extent = sum(max(values) - min(values) for values in several) * scale
    return bool(gaps) and len(figures) >= FEWEST and extent < CROWDED * gaps


def dotted_out(cell: Any) -> Any:
    """A place in feet and inches with a point between, as a line says that it is: "12.6 SL" is 12'-6" SL.

    Raises:
        Wrong: where the inches are more than 11, or 1, which may be 10 without its nought.
    """
    if isinstance(cell, bool) or not isinstance(cell, (int, float, str)):
        return cell
    found = _DOTTED.fullmatch(cell.strip() if isinstance(cell, str) else f"{cell:.10g}")
    if found is None:
        return cell
    inches = found["inches"] or "0"
    if inches == "1" or int(inches) >= INCHES:
        raise Wrong(
            "feet and inches that read in one way, as a line says that the point parts them",
            "Write them with their marks: 12'-10\".",
            came=str(cell),
        )
    return f"{found['before']}{found['feet']}'-{inches}\"{found['behind']}"


_DOTTED = regex(
    r"(?P<before>[^\W\d]{0,20}\s*|[+−–-])(?P<feet>\d{1,3})(?:\.(?P<inches>\d{1,2}))?"
    r"(?P<behind>(?!\s*(?:m|cm|mm|ft|in|feet|inches|metres|meters)\b)[\sa-z./]*)",
    re.IGNORECASE,
)
