"""Cells of a row over the headings that say which side a sign is: "mm from centre", "SL +", "SR -"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from aimcalc.named import regex

_SIDE = (
    r"((?:[sh]\W?[lr]|[ud]\W?s|p\W?s|o\W?p|left|right|up|down|(?:up|down)\W?stage|(?:stage|house)\W?(?:left|right)"
    r"|cour|jardin)(?:\s+side)?)"
)
_SIGN = r"\(?(?:([+]|plus|pos(?:itive)?)|([−–-]|minus|neg(?:ative)?))\)?"
_EQUAL = r"\s*(?:=|is|:)?\s*"
_SIDE_AND_SIGN = regex(rf"{_SIDE}{_EQUAL}{_SIGN}|{_SIGN}{_EQUAL}{_SIDE}", re.IGNORECASE)


def says_sign(text: str) -> bool:
    """Whether a cell says which side a sign is, and nothing else."""
    return _SIDE_AND_SIGN.fullmatch(text.strip()) is not None


def signs_said(texts: Sequence[str]) -> list[str]:
    """Cells of a line, those that say which side a sign is in the plainest words, "+ = SL", each apart."""
    if not any(map(says_sign, texts)):
        return list(texts)
    return [f"{_plain(text.strip())};" for text in texts]


def _plain(text: str) -> str:
    found = _SIDE_AND_SIGN.fullmatch(text)
    if found is None:
        return text
    side = found[1] or found[6]
    return f"+ = {side}" if found[2] or found[4] else f"- = {side}"
