"""What the lines round a table say of gaps, and of which positions they say it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cached_property

from aimcalc.scene.hanglist.places.gapwords import Said, rule_of
from aimcalc.scene.hanglist.places.origins import Ways
from aimcalc.scene.hanglist.places.tongues import in_english


class Spoken:
    """The lines round a table, as far as they speak of gaps."""

    def __init__(self, lines: Sequence[str], ways: Ways) -> None:
        self.lines, self.ways = lines, ways

    @cached_property
    def toward(self) -> str:
        """The side that units follow the first one towards, as a line round the table says."""
        return next((said.toward for said in self._spoken if said.toward), "")

    @cached_property
    def _spoken(self) -> list[Said]:
        """What the lines round the table say of gaps."""
        return [rule_of(in_english(line, line=True), self.ways) for line in self.lines]

    @cached_property
    def every(self) -> str:
        """The one distance from unit to unit that the lines round the table say; "" where they say
        several."""
        every = {said.every for said in self._spoken if said.every}
        return every.pop() if len(every) == 1 else ""

    def rule(self, position: str) -> Said:
        """What a line says that tells where each unit of a position hangs; one that has words of the names
        of some positions speaks of those."""
        found = []
        for line, said in zip(self.lines, self._spoken, strict=True):
            if said.places_all() and self._speaks_of(line, position):
                found.append(said)
        return found[0] if len(set(found)) == 1 else Said()

    def rest(self, position: str) -> Said:
        """What a line says of how far apart the units of a position are, whose first one has its place."""
        pairs = zip(self.lines, self._spoken, strict=True)
        found = {said for line, said in pairs if said.every and self._speaks_of(line, position)}
        return found.pop() if len(found) == 1 else Said()

    def _speaks_of(self, line: str, position: str) -> bool:
        """Whether a line names a position as nearly as any other, or none."""
        many = {name: _named(name, line) for name in self.ways.around.places}
        return many.get(position, 0) == max(many.values(), default=0) or min(many.values()) > 0


def _named(name: str, line: str) -> int:
    """How many words of the name of a position a line has, a number only behind the word before it."""
    text, before, many = line.casefold(), "", 0
    for word in re.findall(r"[^\W\d_]+|\d+", name.casefold()):
        plain = word.rstrip("s")
        pattern = rf"{before}\W*{word}\b(?![.,]?\d)" if word.isdecimal() else rf"{plain}s?\b"
        if word not in _NO_NAMES and (before or not word.isdecimal()):
            many += re.search(rf"\b{pattern}", text) is not None
        before = plain
    return many


_SIDE_WORDS = "sl sr us ds ps op left right stage house the of end side centre center"
_NO_NAMES = frozenset(_SIDE_WORDS.split())
