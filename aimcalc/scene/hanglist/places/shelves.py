"""Heights on booms with the name of their shelf in one cell, "Head 7'-6\"", "shin (0.4)", "oben 3,1": the
height is the place, the word a remark, or the number of the unit where it has none."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.places.heights import LENGTH, SHELVES
from aimcalc.scene.hanglist.rows.listrow import Row
from aimcalc.scene.mistakes import Wrong, show

LONGEST = 40  # characters of a shelf with its height


class Shelf(NamedTuple):
    """A height without the name of its shelf, and that name."""

    height: str
    name: str


def shelf_of(cell: Any, *, lengths: bool = False) -> Shelf | None:
    """What a cell says of a height and of its shelf; None where it is no such, or where a bare whole number
    may count the units of the shelf: "Head 2", unless its heading is one of `lengths`."""
    if not isinstance(cell, str) or len(cell) > LONGEST or not cell[:LONGEST].strip():
        return None
    text = cell.strip()
    before = _BEFORE.fullmatch(text)
    if before:
        height = before["height"].strip()
        if height.endswith(")") and "(" not in height:
            height = height[:-1].strip()
        counts = height.strip("0").isdecimal() and not (lengths or before["joint"].strip())
        return None if counts else Shelf(height, before["name"].strip())
    behind = _BEHIND.fullmatch(text)
    if behind is None or (behind["height"].strip().isdecimal() and not lengths):
        return None
    if behind["name"].casefold() in _HIGH:
        return None
    return Shelf(behind["height"].strip(), behind["name"].strip())


def refuse_other_end(shelf: str, metres: float, reach: tuple[float, float]) -> None:
    """Ask about a height that is not at the end of the boom that its shelf is named after: "top 0.3" may
    count down from the top, or be the third of them."""
    half = sum(reach) / 2
    words = set(re.findall(r"[^\W\d_]+", shelf.casefold()))
    if (metres < half and words & _TOPS) or (metres > half and words & _FEET):
        raise Wrong(
            f"a height that tells what it counts from: {show(shelf)} stands beside it, and above the foot of "
            "the boom it would be nearer the other end",
            "Write the height above what the boom stands on, without that word.",
        )


def number_by_shelf(rows: Iterable[Row], shelves: list[tuple[dict[str, Any], str]]) -> None:
    """Take the names of shelves for the numbers of the units of a boom, where none of these has a number and
    each hangs on a shelf of its own."""
    named = {id(raw): name for raw, name in shelves}
    if {name.casefold() for name in named.values()} <= _HIGH:
        return
    on: dict[str, list[dict[str, Any]]] = {}
    for row in rows if named else ():
        if isinstance(row.raw.get("position"), str):
            on.setdefault(row.raw["position"], []).append(row.raw)
    for raws in on.values():
        names = [named.get(id(raw), "") for raw in raws]
        alone = all(names) and len({name.casefold() for name in names}) == len(names)
        if alone and not any("number" in raw for raw in raws):
            for raw, name in zip(raws, names, strict=True):
                raw["number"] = name


_NAME = (
    rf"(?:(?:high|low|upper|lower|top|bottom|mid|inner|outer|h|l)[\s-])?(?:{'|'.join(SHELVES)})s?"
    r"(?:[\s-](?:high|low|mid|level|lvl|height|ht|hgt|position|pos|unit|lamp|light|shelf)\b\.?)?"
    r"(?:[\s#]{0,2}\d(?=\s+\d+(?:[.,]\d+)?\s*(?:['’′\"”]|ft|feet|m\b|cm|mm)))?"
)
_BEFORE = regex(
    rf"(?P<name>{_NAME})(?![^\W\d_])(?P<joint>\s+[-–—]\s+|\s*(?:[:=@,/(]|\bat\b|\bbei\b|\bauf\b|\bà\b|\ba\b)?\s*)"
    rf"(?P<height>\d[^\n]*)",
    re.IGNORECASE,
)
_BEHIND = regex(
    rf"(?P<height>{LENGTH})(?:\s+[-–—]\s+|\s*[,;:/(=]\s*|\s+)(?P<name>{_NAME})\W*", re.IGNORECASE
)
_UP = "head heads top tops upper oben kopf tête testa cabeza hoofd boven overhead"
_DOWN = """
shin shins ankle ankles knee knees floor bottom kicker unten boden schienbein knie knöchel bas tibia cheville
genou espinilla tobillo rodilla stinco caviglia ginocchio scheen enkel onder deck
"""
_HIGH = frozenset(("high", "hoch", "hoog", "haut", "alto", "alta"))  # also: of that height
_TOPS, _FEET = frozenset(_UP.split()), frozenset(_DOWN.split())
