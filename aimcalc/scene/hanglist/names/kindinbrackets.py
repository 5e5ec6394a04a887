"""Cells whose words and brackets name different kinds, "par 64 wide (MFL)" in a house that has a PAR 64 WFL
too: which of them hangs is asked."""

from __future__ import annotations

from aimcalc.named import regex
from aimcalc.scene.hanglist.names.kindbeside import beams_of
from aimcalc.scene.hanglist.names.meant import Names

LONGEST = 60  # characters of such a cell


def at_odds(text: str, kinds: Names) -> tuple[str, ...]:
    """The kinds that the words of a cell and its brackets name, each another; none where they agree, or one
    of them names none."""
    parted = _PARTED.fullmatch(text) if len(text) <= LONGEST else None
    if parted is None or kinds.written(text):
        return ()
    words, beside = f"{parted[1]} {parted[3]}".strip(), parted[2]
    own = kinds.written(beside)
    said = kinds.written(words)
    if own and said:
        return (said, own) if own != said else ()
    first, second = beams_of(words, kinds.names), beams_of(beside, kinds.names)
    one, other = kinds.find(words).name, kinds.find(beside).name
    if first and second and not set(first) & set(second):
        return tuple(dict.fromkeys((*first, *second)))
    if own and one and one != own and " " in own:
        return (one, own)
    if said and other and other != said and " " in beside.strip():
        return (said, other)
    return ()


_PARTED = regex(r"\s*([^()\[\]]+?)\s*[(\[]\s*([^()\[\]]+?)\s*[)\]]\s*([^()\[\]]*)")
