"""A place that its cell says twice: in two languages, "Mitte / middle", or in two units, "2.44 m (8') SL"."""

from __future__ import annotations

import re
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.places.placewords import Along, read_place
from aimcalc.scene.mistakes import Wrong, show

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
