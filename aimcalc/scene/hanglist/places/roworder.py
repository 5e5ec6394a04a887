"""From which side the rows of a hang list go over a position: as a line says, "stage right comes first", or
as what they light goes across the stage. Lines that say two sides, or left of nobody, are asked about."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import Any

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.pagelines.sidenames import prompt_plain
from aimcalc.scene.hanglist.pagelines.whosewords import whose_left
from aimcalc.scene.hanglist.places.ends import sides_plain
from aimcalc.scene.hanglist.places.evenspread import OPPOSITE
from aimcalc.scene.hanglist.rows.listrow import Around, Row
from aimcalc.scene.hanglist.tongues.tongues import in_english
from aimcalc.scene.mistakes import CLASH, Wrong
from aimcalc.scene.records import Place

OPEN = "?"  # an order that a line speaks of and does not tell
UNSIDED = "left or right"  # a line says it of one of these, and not whose it is
LONGEST = 300  # characters of a line that says it


class Order(NamedTuple):
    """The side at which the first of the rows of a position hangs, "" where nothing tells, and why."""

    side: str = ""
    why: str = ""
    said: bool = False  # by a line


def order_of(rows: Sequence[Row], place: Place, said: frozenset[str], around: Around) -> Order:
    """From which side rows without numbers go over a position that no place of theirs is known on.

    Args:
        rows: its units, in their order.
        place: the position.
        said: the sides that lines begin at, as `order_said` found them.
        around: what of the scene the list is read by.

    Raises:
        Wrong: when the lines do not agree, or one speaks of an order that nobody can tell.
    """
    ways = ("SL", "SR") if place.axis == "x" else ("US", "DS")
    told = {side for side in said if side in (*ways, OPEN) or (side == UNSIDED and "SL" in ways)}
    aimed = _as_aimed(rows, ways, around)
    if len(told) > 1 or OPEN in told or (told and not aimed.side and UNSIDED in told):
        expected = "the side at which the first unit of a position hangs: the lines of the list "
        expected += "say two" if {"SL", "SR"} <= told or {"US", "DS"} <= told else "do not tell it"
        do = "Write the numbers and places of the units, or one line: numbered from SL, or from SR."
        raise Wrong(expected, do, rank=CLASH)
    told.discard(UNSIDED)
    return Order(told.pop(), "as a line of the list says", True) if told else aimed


def _as_aimed(rows: Sequence[Row], ways: tuple[str, str], around: Around) -> Order:
    """The order that what rows light tells, where it goes one way and not to a single place."""
    at = [_aim_of(row.raw, 0 if "SL" in ways else 1, around) for row in rows]
    known = [one for one in at if one is not None]
    if len(known) < len(at) or len(set(known)) < 2:
        return Order()
    falls = all(a >= b for a, b in pairwise(known))
    if not falls and not all(a <= b for a, b in pairwise(known)):
        return Order()
    one, other = ways if falls else ways[::-1]
    return Order(one, f"as what they light goes from {one} to {other}")


def _aim_of(raw: dict[str, Any], axis: int, around: Around) -> float | None:
    """Where across or up the stage a unit is aimed; None where that is not known."""
    point, target = raw.get("point"), raw.get("target")
    if isinstance(point, list) and len(point) > axis and isinstance(point[axis], int | float):
        return float(point[axis])
    spot = around.spots.get(target) if isinstance(target, str) else None
    return None if spot is None else float(spot[axis])


def order_said(lines: Iterable[str], bare: str = "") -> frozenset[str]:
    """The sides at which lines say that the units of a position begin, `OPEN` among them where one speaks of
    that and does not tell; `bare` is whose left and right the list means, stage or house."""
    found: set[str] = set()
    for line in lines:
        if len(line) <= LONGEST and _MAY_SAY.search(line):
            found |= _begun(line, bare)
    return frozenset(found)


def _begun(line: str, bare: str) -> set[str]:
    """As `order_said`, of one line."""
    text = in_english(_GARDEN.sub(_garden_side, line), line=True)
    whose = whose_left(text.casefold()) or bare
    text = sides_plain(prompt_plain(text))
    found = set()
    for pattern in (_FROM_TO, _COMES_FIRST, _FIRST_IS, _FIRST_ONE, _COUNTS_FROM, _TOP_IS, _LAST_IS):
        for each in pattern.finditer(text):
            if pattern is _COMES_FIRST and "focus" in text:
                continue  # of the evening at which they are pointed
            side, *other = (_side(word, whose) for word in each.groups())
            if pattern is _COUNTS_FROM and (
                _MEASURES.search(text) or _GOES_ON.match(text, each.end())
            ):
                continue
            if other and OPPOSITE.get(side, UNSIDED) != other[0]:
                continue
            found.add(OPPOSITE.get(side, UNSIDED) if pattern is _LAST_IS else side)
    asks = "?" in text and (found or _WHICH.search(text))
    return {*found, OPEN} if asks else found


def _side(word: str, whose: str) -> str:
    """A word of a side as that of the stage; UNSIDED where nobody knows whose it is."""
    if word[0] in "lr" and whose:
        return "SL" if (word[0] == "l") == (whose == "stage") else "SR"
    return _OURS.get(word, UNSIDED)


def _garden_side(found: re.Match[str]) -> str:
    return "SL" if found[0].casefold() == "cour" else "SR"


_OURS = {"sl": "SL", "ps": "SL", "sr": "SR", "op": "SR", "us": "US", "ds": "DS"}
_GARDEN = regex(r"(?i)\b(?:cour|jardin)\b")
_MAY_SAY = regex(
    r"(?i)\b(?:l|r|left|right|s\W?l|s\W?r|ps|op|prompt|jardin|cour|which)\b|stage|links|rechts|gauche|droite|izq|der"
    r"|sinistra|destra|esq|dir|vänster|höger|venstre|høyre|højre|lew|praw|vasem|oikea"
)
_END = r"(?:[\s-]*(?:hand|end|side|most|tip|one)\b)*"
_SIDE = rf"(?:(?:the|its|our|their|your)\s+)*\b(sl|sr|us|ds|ps|op|left|right)\b{_END}"
_FROM_TO = regex(
    rf"{_SIDE}\s*(?:[-–—>→]+|(?:(?:across|over|along|through)\s+)?(?:to|thru|through|towards?|then|before|followed\s+by|à|a|nach|bis|naar|till?)(?!\w)|(?<=\bleft)(?=\s+right)"
    rf"|(?<=\bright)(?=\s+left))\s*{_SIDE}"
)
_COMES_FIRST = regex(
    rf"{_SIDE}\s*(?:(?:is|are|=|comes?|goes|going|hangs?|always)\s+)*(?:the\s+)?(?:first\b|1st\b|(?:(?:number|no|nr|unit|lamp)\.?\s*|#)(?:1|one)\b)"
)
_FIRST_IS = regex(
    r"(?:\b(?:first|1st|lowest)(?:\s+(?!is\b|are\b|from\b)\w+){0,2}|\b(?:unit|number|no\.?|lamp)\s*(?:1|one)\b|#\s*1\b)"
    r"\s*(?:(?:=|:|\b(?:is|are|on|at|being|hangs?|goes|always)\b)\s*)+" + _SIDE
)
_FIRST_ONE = regex(
    r"\b(?:first|1st|lower)\s+(?:of\s+(?:the\s+)?(?:two|pair)|number|one|unit|lamp|circuit|channel|dimmer|mains)\s+"
    + _SIDE
)
_COUNTS_FROM = regex(
    r"\b(?:number|count|start|begin|list|order|run|read|work|going|goes)\w*\b(?:\W+\w+){0,4}?\W+(?:from|at)\s+"
    + _SIDE
)
_GOES_ON = regex(
    r"\s*(?:(?:across|over|along|through)\s+)?(?:[-–—>→]|(?:to|thru|through|towards?)\b)"
)
_TOP_IS = regex(
    rf"\btop\s+of\s+(?:the\s+|each\s+)?(?:list|page|sheet|group|block)\s*(?:=|:|\bis\b|\bare\b)\s*(?:at\s+|on\s+)?{_SIDE}"
)
_LAST_IS = regex(
    r"\b(?:bottom|end|foot)\s+of\s+(?:the\s+|each\s+)?(?:list|page|sheet|group|block)\s*(?:=|:|\bis\b|\bare\b)\s*(?:at\s+|on\s+)?"
    + _SIDE
)
_WHICH = regex(r"\bwhich\s+(?:end|side|way)\b")
_MEASURES = regex(
    r"\b(?:dist\w*|measur\w*|dims?|dimensions?|metres|meters|feet|inch\w*|ft|mm|cm|offsets?|places?|taped?)\b"
)
