"""Heights on booms: words for them by a legend, "shin 0.4, mid 1.3, head 2.2", and what counts down from the
top."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.listrow import blank, text_of
from aimcalc.scene.hanglist.places.tongues import in_english
from aimcalc.scene.mistakes import Wrong

_WORDS = (
    "ankle",
    "bottom",
    "chest",
    "floor",
    "head",
    "heads",
    "high",
    "hip",
    "knee",
    "low",
    "mid",
    "middle",
    "mids",
    "shin",
    "shins",
    "shoulder",
    "top",
    "waist",
)
FEWEST = 2  # words with their heights in a line that is a legend of them
_PAIR = regex(
    rf"\b({'|'.join(_WORDS)})\b\s*(?:=|:|-|–|\bat\b|\bis\b)?\s*"
    r"(\d+(?:[.,]\d+)?\s*(?:(?:mm|cm|m|ft|feet|in)\b|'(?:\s*-?\s*\d+\s*(?:\"|in\b)?)?|\")?)",
    re.IGNORECASE,
)
_TOP = r"(?:from|off|below|under)\s+(?:the\s+|its\s+|their\s+)?top\b"
_HEADED_TOP = regex(rf"\b{_TOP}", re.IGNORECASE)
_CELL_TOP = regex(rf"\s*(?:\bdown\s+)?\b{_TOP}\W*$", re.IGNORECASE)
_FROM_TOP = regex(  # and no order of hanging, "hang from top down"
    r"\b(?:down|measur\w*|taken|dist\w*|dims?|dimensions|heights?|figures|places|mm|cm|m|metres?|meters?|ft|feet|in|inches)"
    rf"['’\"”)]?\s+(?:(?:are|is|all|taken|given|means|=|:|measured|counted|counts|distance)\s+)*{_TOP}(?!\s+down)"
    rf"|[=:]\s*(?:(?:measured|distance|dist|down|taken|counted|metres|feet|inches|cm)\s+)*{_TOP}(?!\s+down)",
    re.IGNORECASE,
)
_IS_UP = regex(
    r"\W*(?:ht|hgt|height|high|up|vertical|above(?:\s+(?:the\s+)?(?:deck|floor|stage))?|hauteur|haut|höhe|hoch|hoog"
    r"|altezza|alto|alta|alt|haut|hö|h)\W*",
    re.IGNORECASE,
)


def legend_of(lines: Iterable[Sequence[Any]]) -> dict[str, str]:
    """The words for heights on booms that the lines round a table explain, with the height of each."""
    found: dict[str, str] = {}
    for line in lines:
        words = ", ".join(text_of(cell) for cell in line if not blank(cell))
        plain = words.casefold()
        if sum(word in plain for word in _WORDS) < FEWEST:
            continue  # most lines: no pattern is made for them
        pairs = _PAIR.findall(words)
        if len(pairs) >= FEWEST:
            for word, height in pairs:
                found.setdefault(word.casefold(), height.strip())
    return found


def is_up(side: Any) -> bool:
    """Whether a cell of a column of sides says that the figure beside it is a height: "ht"."""
    return _IS_UP.fullmatch(in_english(text_of(side))) is not None


def says_up(cell: Any) -> bool:
    """Whether a cell says itself that it is a height: "5.5 m up", "6' AFF"."""
    return isinstance(cell, str) and _HIGH.search(in_english(cell)) is not None


_HIGH = regex(
    r"\d.*(?<![a-z])(?:up|high|height|h|alt(?:a|o)?|haut|hoch|hoog|a\.?f\.?(?:f|d)\b\.?|(?:above|off|from|over)\s+(?:the\s+)?(?:deck|floor|stage|ground))\b"
    r"|^\W*(?:up|ht|hgt|height|h|alt|haut|hö|hoch|hoog|alto)\b\.?\s*[:=]?\s*\d",
    re.IGNORECASE,
)


def says_top(words: str, *, heading: bool = False) -> bool:
    """Whether words say that heights count down from the top of a boom."""
    return (_HEADED_TOP if heading else _FROM_TOP).search(words) is not None


def top_out(cell: Any) -> tuple[Any, bool]:
    """A place on a boom without the words that count it down from the top, "10 in down from top", and
    whether it has some."""
    if not isinstance(cell, str) or "top" not in cell.casefold():
        return cell, False
    plain = _CELL_TOP.sub("", cell)
    return plain, plain != cell


def below_top(metres: float, reach: tuple[float, float]) -> float:
    """A height on a boom that counts down from its top.

    Raises:
        Wrong: when it is not on the boom.
    """
    foot, top = reach
    if not 0 <= metres <= top - foot:
        raise Wrong("a place that is on the boom, down from its top", "Check the unit.")
    return top - metres
