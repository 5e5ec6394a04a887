"""Rows that stand for a unit on each of several positions: "SL 1 / SR 1", channels "11 / 21"."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.names.meant import Names, several_of
from aimcalc.scene.hanglist.rows.listrow import text_of

NUMBERED = ("channel", "circuit", "number")
OTHERS = ("target", "kind", "colour", "at", "height")
LONGEST = 60  # characters of a cell that may be several


def positions_in(text: str, positions: Names) -> tuple[str, ...]:
    """The positions that a cell names several of: "SL 1 / SR 1", "Boom 1 SL/SR"."""
    found = several_of(text, positions)
    sides = _BOTH.search(text) if len(found) < 2 and len(text) <= LONGEST else None
    if sides is None:
        return found
    before, behind = text[: sides.start()], text[sides.end() :]
    each = [positions.find(f"{before}{side}{behind}").name for side in sides.groups()]
    named = tuple(dict.fromkeys(name for name in each if name))
    return named if len(named) == len(each) else ()


def on_each(
    raw: dict[str, Any], names: Sequence[str], lines: Iterable[str] = ()
) -> list[dict[str, Any]]:
    """A row for the unit on each of the positions that a row names, in their order; none where no channel or
    circuit says that each has its own, where one has more or fewer, or where a line says another order."""
    parts = {key: _parts(raw.get(key), _ANY) for key in NUMBERED}
    several = {key: found for key, found in parts.items() if len(found) > 1}
    if not {"channel", "circuit"} & several.keys():
        return []
    if any(len(found) != len(names) for found in several.values()):
        return []
    if len(set(several.get("channel", names))) < len(names) or _otherwise(names, lines):
        return []
    rows = [{**raw, "position": name} for name in names]
    others = {key: _parts(raw.get(key), _STROKE) for key in OTHERS}
    each = several | {key: found for key, found in others.items() if len(found) == len(names)}
    for key, found in each.items():
        for row, part in zip(rows, found, strict=True):
            row[key] = part
    return rows


def _parts(cell: Any, mark: re.Pattern[str]) -> list[str]:
    text = text_of("" if cell is None else cell).strip()
    if len(text) > LONGEST or not mark.search(text):
        return []
    return [part for part in mark.split(text) if part]


def _otherwise(names: Sequence[str], lines: Iterable[str]) -> bool:
    """Whether a line gives the first or lower number to another side than the first name has: "first number
    is the SR boom"."""
    first = names[0].casefold()
    for line in lines:
        for found in _FIRST.finditer(line.casefold()):
            side = re.sub(r"\W", "", found[1])
            if not re.search(rf"(?<![a-z]){side[0]}\W?{side[1]}(?![a-z])", first):
                return True
    return False


# The words of both sides, the one behind the other.
_BOTH = regex(
    r"(?<![^\W_])(s\W?l|s\W?r|left|right|[lr])\s*(?:[/&+,]|and)\s*(?!\1(?![^\W_]))(s\W?l|s\W?r|left|right|[lr])(?![^\W_])",
    re.IGNORECASE,
)
_ANY = regex(r"\s*[/,;&+]\s*|\s+and\s+")
_STROKE = regex(r"\s+/\s+|\s*[;&]\s*|\s+and\s+")
_FIRST = regex(r"\b(?:first|lower|left[\s-]?hand|odd)\b(?:\W+\w+){0,5}?\W+(s\W?[lr])\b")
