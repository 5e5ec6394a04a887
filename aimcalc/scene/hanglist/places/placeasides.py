"""What a cell of a place says beside it, "2.2 m SL (was 1.8)", "1 m SL - iris", or says twice: in two
languages, "Mitte / middle", or in two units, "2.44 m (8') SL"."""

from __future__ import annotations

import re
from typing import Any

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.names.kindbeside import BESIDE_UNIT
from aimcalc.scene.hanglist.places.along import Along
from aimcalc.scene.hanglist.places.placewords import read_place
from aimcalc.scene.mistakes import Wrong, show

LONGEST = 60  # characters of a place with what stands beside it
_BRACKETED = regex(r"\s*([^()\[\]]*\d[^()\[\]]*?)\s*[(\[]([^()\[\]]*[^\W\d_]{3}[^()\[\]]*)[)\]]\s*")
_WAS = regex(
    r"(.*\d.*?)\s*[,;/–-]?\s+((?:was|were|formerly|previously|originally)\b.*)", re.IGNORECASE
)
_BEHIND = regex(r"\s+[-–—]\s+|\s*[,;]\s*|\s+")


class Aside(NamedTuple):
    """A place, and the words that stand beside it."""

    place: str
    words: str


def aside_of(cell: Any) -> Aside | None:
    """A place without what stands beside it; None where nothing does."""
    if not isinstance(cell, str) or len(cell) > LONGEST or cell.isdecimal():
        return None
    if cell.rstrip()[-1:] in (")", "]"):
        bracketed = _BRACKETED.fullmatch(cell)
        return Aside(bracketed[1], bracketed[2]) if bracketed else None
    if not _TAIL.search(cell):
        return None
    was = _WAS.fullmatch(cell)
    if was:
        return Aside(was[1], was[2])
    for mark in _BEHIND.finditer(cell):
        words = cell[mark.end() :].strip()
        if mark.start() and BESIDE_UNIT.fullmatch(words):
            return Aside(cell[: mark.start()], words)
    return None


def about_of(cell: Any) -> Aside | None:
    """A place without the word that it is no exact figure, "approx 3.2 SL", and that word; None where it has
    none. A mark of doubt, "3.2 SL?" or "~ 3.2 SL", is asked about."""
    about = _ABOUT.fullmatch(cell) if isinstance(cell, str) and len(cell) <= LONGEST else None
    if about is None:
        return None
    rest = about["after"] or about["before"] or f"{about['size']}{about['side']}"
    word = (about["first"] or about["last"] or "ish").strip()
    return Aside(f"{about['lead'] or ''}{rest}".strip(), word)


_NEARLY = (  # and no exact figure
    r"(?:approx(?:imately|\.)?|appr\.|about|abt\.?|circa|cc?a\.?|c\.|roughly|around|env(?:iron|\.)|etwa|ungef[aä]hr"
    r"|aprox\w*\.?|ongeveer|ong\.|omkring|cirka|noin|say)"
)
_ABOUT = regex(  # "approx 3.2 SL", "SL ca. 3,2", "3.2 SL?", "3.2ish SL"
    rf"\s*(?P<lead>(?:s\W?[lr]|[ud]\W?s)\s+)?(?P<first>{_NEARLY})\s*(?P<after>\d.*)"
    rf"|(?P<before>[^()]*\d[^()?]*?)[\s(-]{{0,3}}(?P<last>(?<![^\W\d_])(?:{_NEARLY}|ish|or\s+so))\s{{0,3}}\)?\s*"
    r"|(?P<size>[^()]*\d)\s?-?ish\b(?P<side>.*)",
    re.IGNORECASE,
)
_TAIL = regex(r"[^\W\d_]{3,}\W*$|\bwas\b|\bTH\b|\bBD\b")

ALIKE = 0.03  # metres between two that are one, each rounded as it was typed
_IN_TWO = regex(
    r"\s*([^/()=]+?)\s*(?:/|=|\()\s*([^/()=]+?)\s*(?:\)\s*(s\W?[lr]|[ud]\W?s)?\W*)?", re.IGNORECASE
)
_SIDE = regex(r"(?<![^\W\d_])(?:s\W?[lr]|[ud]\W?s)\b", re.IGNORECASE)
_SAYS = regex(r"[^\W\d_]|['\"′″]")  # a word or a unit: bare figures may be a fraction
_MARKED = regex(r"[/(=]")


def said_once(cell: Any, along: Along) -> Any:
    """A cell that says one place in two ways in the first of them; as it is where they are not one."""
    parts = _IN_TWO.fullmatch(cell) if isinstance(cell, str) and _MARKED.search(cell) else None
    if parts is None or not (_SAYS.search(parts[1]) and re.search(r"[^\W_]", parts[2])):
        return cell
    first, second, side = parts[1], parts[2], parts[3] or ""
    if side and _SIDE.search(f"{first} {second}"):
        return cell
    said = _SIDE.search(second)
    if said and not _SIDE.search(first):
        side, second = said[0], second.replace(said[0], "")
    try:
        one, other = (read_place(part, along).metres for part in (first, second))
    except Wrong:
        return cell
    sided = _SIDE.search(first) and not said
    if abs(one - other) < ALIKE or (sided and abs(abs(one) - abs(other)) < ALIKE):
        return f"{first} {side}".strip()
    if re.search(r"\d", second) and _SIDE.search(first) and said:
        raise Wrong(f"one place, and {show(cell)} holds two", "Write the one where it hangs.")
    return cell


def said_in_one(cell: Any, unit: str) -> Any:
    """`said_once` of a cell of which nothing is known but the unit of the scene."""
    try:
        return said_once(cell, Along(unit, "any", True))
    except Wrong:
        return cell
