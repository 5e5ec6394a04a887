"""Slips of the keyboard in the words of a place: "12 ft rigth", "3 m lfet", "2 m Stage Rihgt"."""

from __future__ import annotations

import re

from aimcalc.named import regex

_WORDS = (
    "left",
    "right",
    "stage",
    "house",
    "centre",
    "center",
    "upstage",
    "downstage",
    "prompt",
    "opposite",
)
_RIGHT = frozenset(
    (*_WORDS, "lift", "loft", "eight", "light", "lights", "height", "hose", "horse", "stages")
)
_WORD = regex(r"[^\W\d_]{4,}")
LONG = 5  # letters of a word of which one may be another


def respelled(text: str) -> str:
    """A text with the words for sides and the centre that are misspelled in it as they are spelled."""
    if text.isdecimal() or _WORD.search(text) is None:
        return text
    return _WORD.sub(_meant, text)


def _meant(found: re.Match[str]) -> str:
    word = found[0].casefold()
    if word in _RIGHT:
        return found[0]
    near = [known for known in _WORDS if _is_slip(word, known)]
    if {"centre", "center"} <= set(near):
        near.remove("center")
    return near[0] if len(near) == 1 else found[0]


def _is_slip(word: str, known: str) -> bool:
    """Whether two neighbours of a word are swapped, one letter of it is lost or one too many, or one of a
    long word another; its first letter stays, but for a swap."""
    swaps = (known[:k] + known[k + 1] + known[k] + known[k + 2 :] for k in range(len(known) - 1))
    if word in swaps:
        return True
    if word[0] != known[0]:
        return False
    short, long = sorted((word, known), key=len)
    if len(long) == len(short) + 1:
        return any(long[:k] + long[k + 1 :] == short for k in range(len(long)))
    differ = sum(a != b for a, b in zip(word, known, strict=False))
    return len(word) == len(known) >= LONG and differ == 1
