"""Remarks that say another place, position or target of their unit than its row does: "now at 2 m SL",
"moved to LX 2", "actually SR". Whether the row was changed since, nobody knows."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.names.meant import Names
from aimcalc.scene.hanglist.places.along import Along
from aimcalc.scene.hanglist.places.ends import sides_plain
from aimcalc.scene.hanglist.places.placewords import read_place
from aimcalc.scene.hanglist.rows.listrow import text_of
from aimcalc.scene.mistakes import Wrong, show

LONGEST = 50  # characters of what says it
SAME = 0.03  # metres between two places that are one, each rounded as it was typed
_MAY_MOVE = (
    "now",
    "move",
    "shift",
    "hung",
    "hang",
    "actual",
    "should",
    "correct",
    "make it",
    "goes",
)
_MOVED = regex(
    r"(?:unit\s+|this\s+(?:one\s+)?|it\s+)?(?:is\s+|was\s+|to\s+be\s+)?"
    r"(?:(?:moved?|shift(?:ed)?|re-?hung|re-?hang|hung|hang|goes|changed)\s+(?:to|at|on)(?:\s+be)?|(?:is\s+)?now(?:\s+(?:hung|moved))?(?:\s+(?:to|at|on|is))?"
    r"|actually(?:\s+(?:at|on|hung\s+(?:at|on)))?|should\s+(?:be|hang|go)(?:\s+(?:at|on|to))?|correct(?:ed|ion)?\s*(?:to|is|:)|make\s+it)"
    r"\s+(?:the\s+)?(.+)",
    re.IGNORECASE,
)
_SIDE = regex(r"(?:on\s+|to\s+)?(sl|sr|us|ds)(?:\s+side)?")
_PLACE = regex(
    r"\d.*(?:(?<![a-z])(?:s[lr]|[ud]s|m|cm|mm|ft|in|feet)\b|['\"′″])|\b(?:s[lr]|[ud]s)\b.*\d"
)


def moved(
    raw: dict[str, Any],
    remarks: Iterable[tuple[str, Any]],
    positions: Names,
    targets: Names,
    along: Along,
) -> Wrong | None:
    """The question where a unit hangs of which a remark says another place than its row, as it was read; None
    where no remark does."""
    for cell in (*(cell for _, cell in remarks), raw.get("note")):
        plain = text_of(cell).casefold() if isinstance(cell, str) else ""
        if not any(word in plain for word in _MAY_MOVE):
            continue
        for part in re.split(r"[;()\[\]]|,\s|\.\s|\s[-–—]\s", text_of(cell)):
            words = part.strip(" .!*")
            found = _MOVED.fullmatch(words) if len(words) <= LONGEST else None
            if found and _is_other(found[1], raw, positions, targets, along):
                expected = f"one place of a unit, and its row says {show(words)} beside another"
                return Wrong(expected, "Correct the row, and take the words out of it.")
    return None


def _is_other(
    words: str, raw: dict[str, Any], positions: Names, targets: Names, along: Along
) -> bool:
    """Whether what a remark names is another place, position or target than that of its row."""
    for key, names in (("position", positions), ("target", targets)):
        meant = names.find(words)
        if meant.name is not None and meant.sure:
            return raw.get(key) != meant.name
    at, plain = raw.get("at"), sides_plain(words)
    side = _SIDE.fullmatch(plain)
    if not isinstance(at, str) or not (side or _PLACE.search(plain)):
        return False
    metres = float(at.removesuffix(" m"))
    if side:
        ways = {"sl": 1, "us": 1, "sr": -1, "ds": -1}
        across = along.axis == ("x" if side[1] in ("sl", "sr") else "y")
        return across and metres * ways[side[1]] < 0
    try:
        return abs(read_place(words, along).metres - metres) > SAME
    except Wrong:
        return False
