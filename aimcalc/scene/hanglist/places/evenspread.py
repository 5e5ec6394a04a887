"""Cells of places that say that the units of a position are spread evenly over it, and from which end they
are numbered: "evenly spaced", "even, SR to SL", "equal spacing, unit 1 at stage left"."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.pagelines.sidenames import prompt_plain
from aimcalc.scene.hanglist.places.ends import sides_plain
from aimcalc.scene.hanglist.tongues.tongues import in_english
from aimcalc.scene.mistakes import Wrong

LONGEST_EVEN = 60  # characters of such a cell
OPPOSITE = {"SL": "SR", "SR": "SL", "US": "DS", "DS": "US"}

_HOW_EVEN = r"(?:even(?:ly)?|equal(?:ly)?|equi\W?distant(?:ly)?|uniform(?:ly)?|eq\b\.?)"
_SPREAD_OUT = (
    r"(?:(?:spac(?:ed?|ing|es)|spread(?:ing)?|distribut(?:ed?|ion)|gaps?|apart|hung|rigged|placed|set|out|all|along|across"
    r"|over|on|the|whole|full|entire|width|length|of|its|this|bar|pipe|batten|truss|rail|electric)\b\W*)"
)
_EVENLY = regex(
    rf"\W*{_SPREAD_OUT}*{_HOW_EVEN}\W*{_SPREAD_OUT}*"
    rf"|\W*(?:spread(?:\s+out)?|spaced(?:\s+out)?|distributed)\b\W*{_SPREAD_OUT}*",
    re.IGNORECASE,
)
_SIDE = r"(?:the\s+)?\b(sl|sr|us|ds|ps|op)\b(?:\s+(?:end|side|tip)\b)?"
_FROM_TO = regex(
    rf"(?:\b(?:from|going|running|run|working|numbered|starting)\s+)*{_SIDE}"
    rf"\s*(?:[-–—>→]+|\b(?:to|thru|through|towards?)\b)\s*{_SIDE}"
)
_FIRST_AT = regex(
    r"(?:(?:\b(?:unit|lamp|light|lantern|fixture|instrument|number)\s*|\bno\b\.?\s*|#\s*)?(?:\b1\b|\bone\b)"
    r"|\b(?:the\s+)?(?:first|1st)(?:\s+(?:one|unit|lamp|light|lantern|fixture|instrument))?\b)"
    r"[\s,:=–-]*(?:\b(?:is|at|on|in|by|from|nearest|to|the)\s+)*" + _SIDE
)
_BEGINS_AT = regex(
    r"\b(?:(?:(?:number\w*|count\w*|start\w*|begin\w*|working|work|reading|running|going)\s+)(?:out\s+)?"
    rf"(?:from|at)|from)\s+{_SIDE}(?!\s*(?:of|from)\b)"
)
_END_TO_END = regex(r"\b(?:from\s+)?(?:end|tip)\s+to\s+(?:end|tip)\b", re.IGNORECASE)


def even_from(cell: Any) -> str | None:
    """The side at which the units begin that a cell says are spread evenly, "" where it says none; None of
    a cell that does not say that they are."""
    if not isinstance(cell, str) or len(cell) > LONGEST_EVEN or re.search(r"[02-9]", cell):
        return None
    if _EVENLY.fullmatch(cell):
        return ""
    found = _begun(cell)
    english = in_english(cell) if found is None else cell
    return _begun(english) if english != cell else found


def is_even(cell: Any) -> bool:
    """Whether a cell of a place says that the units of its position are spread evenly."""
    return even_from(cell) is not None


def begins_at(cells: Iterable[Any]) -> str:
    """The one side at which units begin that cells say are spread evenly; "" where none says it.

    Raises:
        Wrong: when they say two.
    """
    sides = {side for cell in cells if (side := even_from(cell))}
    if len(sides) > 1:
        raise Wrong(
            "one end at which the units begin that are spread evenly: the rows say two",
            "Correct the rows, or write the places of the units.",
        )
    return "".join(sides)


def _begun(cell: str) -> str | None:
    """As `even_from`, of words in English."""
    text = prompt_plain(_END_TO_END.sub(" ", cell))
    text = sides_plain(text.replace(" end", "")) if " end" in text.casefold() else sides_plain(text)
    sides: set[str] = set()
    for pattern in (_FROM_TO, _FIRST_AT, _BEGINS_AT):
        for found in pattern.finditer(text):
            side, *other = (_OURS.get(word, word.upper()) for word in found.groups())
            if other and other[0] != OPPOSITE[side]:
                return None
            sides.add(side)
        text = pattern.sub(" ", text)
    if len(sides) > 1 or not _EVENLY.fullmatch(text.strip(" ,;:()[]")):
        return None
    return "".join(sides)


_OURS = {"ps": "SL", "op": "SR"}
