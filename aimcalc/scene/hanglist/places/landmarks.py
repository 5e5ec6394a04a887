"""What lies at one end of the pipes across the stage, as the house tells, or at one side or end, as a line of
the list says: "from the kitchen end of each bar (the kitchen is stage left)"."""

from __future__ import annotations

import re
from collections.abc import Iterable

from aimcalc.named import regex
from aimcalc.scene.hanglist.places.ends import sides_plain
from aimcalc.scene.hanglist.rows.listrow import Around
from aimcalc.scene.model import Pipe, runs_across

LONGEST = 300  # characters of a line that is looked through


def lies_at(lines: Iterable[str]) -> dict[str, str]:
    """What lines name and where it is: sl, sr, us or ds; nothing of what two lines do not agree on."""
    found: dict[str, set[str]] = {}
    for line in lines:
        text = sides_plain(line[:LONGEST])
        for name, side in _IS_AT.findall(text):
            found.setdefault(name, set()).add(side)
        for side, name in _IS_NAMED.findall(text):
            found.setdefault(name, set()).add(side)
    return {
        name: sides.pop()
        for name, sides in found.items()
        if len(sides) == 1 and name not in _NO_LANDMARKS
    }


def landmark_across(word: str, around: Around) -> str:
    """The end, sl or sr, of every pipe of a scene at which all lie that have a word in their names, where all
    pipes run across the stage; "" where they lie elsewhere."""
    if word in _NO_LANDMARKS:
        return ""
    named = [x for name, (x, _) in around.spots.items() if word in _words(name)]
    pipes: list[Pipe] = []
    for name, place in around.places.items():
        if place.pipe is not None:
            pipes.append(place.pipe)
        elif word in _words(name):
            named.append(place.x)
    if not named or not pipes or not all(runs_across(p.start, p.end) for p in pipes):
        return ""
    sides = {_end_at(x, pipe) for x in named for pipe in pipes}
    return sides.pop() if len(sides) == 1 else ""


def _end_at(x: float, pipe: Pipe) -> str:
    """The end of a pipe across the stage in whose quarter of it, or beyond, something lies."""
    low, high = sorted((pipe.start[0], pipe.end[0]))
    near = (high - low) / 4
    return "sl" if x >= high - near else "sr" if x <= low + near else ""


def _words(name: str) -> list[str]:
    return re.findall(r"[^\W\d_]+", name.casefold())


_IS_AT = regex(
    r"\b([a-z]{4,})(?:\s+(?:side|end|wall|door))?\s*(?:=|\(|\b(?:is|are|means?|being|lies|stands)\b)\s*"
    r"(?:(?:the|on|at|to|always|our|towards?)\s+){0,3}(sl|sr|us|ds)\b(?!\s+(?:of|from)\b)"
)
_IS_NAMED = regex(
    r"\b(sl|sr|us|ds)(?:\s+(?:side|end))?\s*(?:=|\(|\b(?:is|means?)\b)\s*(?:the\s+)?([a-z]{4,})\s+(?:side|end|wall)\b"
)
# Words for a side itself, for signs, and for what a line of a list may say of its places or units.
_OTHER_WORDS = (
    "left right stage house prompt opposite centre center middle near down upstage downstage plus minus"
    " positive negative side sides ends other this that which what they these places place distance distances"
    " figures numbers units unit number first last lowest highest north south east west jardin cour court"
    " garden zero with from where nearest"
)
_NO_LANDMARKS = frozenset(_OTHER_WORDS.split())
