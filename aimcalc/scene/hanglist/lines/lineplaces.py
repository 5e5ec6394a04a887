"""The positions that free lines name: in a line of their own over units, or before the number of one."""

from __future__ import annotations

import re
from collections.abc import Sequence

from aimcalc.scene.hanglist.lines.linewords import (
    FILL,
    GONE,
    JOINT,
    LABELS,
    LETTER,
    NAMES_ONE,
    ON,
    OWN,
    PLEASE,
    REMARK,
    starts_unit,
)
from aimcalc.scene.hanglist.meanings import Meanings
from aimcalc.scene.hanglist.names.sections import position_in

LONGEST_HEADING = 5  # words of a line that may stand over units
FEWEST_OF_SENTENCE = 2  # words, and one more, of which one is no name

_BEGINS = re.compile(r"[,:;(]|\s[-–—]\s")  # behind a name that more is said of


def own_words(lines: Sequence[str], meanings: Meanings) -> dict[str, str]:
    """Short words that the lines say stand for one of the words of positions: "p = pipe"."""
    sorts = {word for name in meanings.positions.names for word in name.casefold().split()}
    found = (pair for line in lines for pair in OWN.findall(line))
    return {word: sort for word, sort in found if sort.casefold() in sorts}


def name_over(text: str, most: int, meanings: Meanings) -> str:
    """The name of a position that a line may stand over units with; "" where it is none. One that the scene
    does not know has `most` words; 0 where no unit is below."""
    words = PLEASE.sub("", ON.sub("", text, count=1))
    if position_in(words, meanings.positions):
        return words
    begins = _BEGINS.split(words, maxsplit=1)[0]
    if most and begins != words and position_in(begins, meanings.positions):
        return begins  # "Second Electric, counted from the door:"
    count = len(words.split())
    filled = count > FEWEST_OF_SENTENCE and FILL & set(words.casefold().split())
    is_name = NAMES_ONE.search(words) or not (filled or REMARK.search(words))
    return words if count <= most and is_name else ""


def position_before(text: str, meanings: Meanings) -> tuple[str, str]:
    """The position that a line begins with, before the number of a unit, and the rest of the line."""
    bare = LABELS.sub("", ON.sub("", text, count=1), count=1)
    joint = JOINT.match(bare)
    ends = [found.start() for found in re.finditer(r"[\s,;]|$", bare)][:LONGEST_HEADING][::-1]
    for end in [*([joint.end()] if joint else []), *ends]:
        name, rest = bare[:end].rstrip(" -–—:,;#/."), bare[end:].lstrip(" -–—:,;\t")
        name = re.sub(r"[\s,]+(?:no|nr|number)$", "", name, flags=re.IGNORECASE)
        if LETTER.search(name) and starts_unit(rest) and meanings.positions.find(name).name:
            return name, rest
    words, _, rest = bare.partition(": ")  # "Boom A, from the bottom: 1 ..."
    name = _BEGINS.split(words, maxsplit=1)[0]
    if starts_unit(rest) and not GONE.search(words) and meanings.positions.find(name).name:
        return (name, rest) if LETTER.search(name) else ("", text)
    return "", text
