"""Places that are counted and not measured: rungs, holes or clips of a position, so many to a side."""

from __future__ import annotations

import re
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.headings import meaning_words
from aimcalc.scene.hanglist.listrow import text_of
from aimcalc.scene.hanglist.tradewords import CENTRES, FROM, LITTLE
from aimcalc.scene.mistakes import CLASH, Wrong, show

# What of a position is counted along it, in a heading or beside a figure.
COUNTED = ("rung", "hole", "notch", "peg", "step", "clip", "eyelet", "slot")
_WORDS = frozenset((*COUNTED, *(f"{word}s" for word in COUNTED), "notches"))
_BESIDE = FROM | CENTRES | LITTLE | {"no", "sl", "sr"}  # "rung height" is a length
_FIGURE = regex(
    r"\s*((?:s\W?[lr]|[+−–-])\s*)?(?:" + "|".join(COUNTED) + r")?\s*(\d{1,3})"
    r"(?:\s*(?:" + "|".join(COUNTED) + r")e?s?\b)?(\s*s\W?[lr])?\s*",
    re.IGNORECASE,
)


def is_counted(heading: str) -> bool:
    """Whether a heading of places says that they are counted: "rung"."""
    words = set(meaning_words(heading))
    return not _WORDS.isdisjoint(words) and words <= _WORDS | _BESIDE


def measured(cell: Any, heading: str, step: str) -> Any:
    """A place under a heading of what is counted as a length, by the step that a line round the table says.

    Args:
        cell: the place: "10 SR", 0; one with a length unit of its own stays.
        heading: what its column is headed.
        step: from one to the next, "18 in"; "" where nobody says.
    """
    found = _FIGURE.fullmatch(text_of(cell))
    if found is None or not int(found[2]):
        return cell
    if not step:
        raise Wrong(
            f"a length, and under {show(heading)} figures are counted",
            "Write how far each is from the zero of its position, or in a line above the headings how far "
            "apart they are: every 18 in.",
            rank=CLASH,
        )
    size, _, unit = step.partition(" ")
    return f"{found[1] or ''}{int(found[2]) * float(size):.10g} {unit}{found[3] or ''}"
