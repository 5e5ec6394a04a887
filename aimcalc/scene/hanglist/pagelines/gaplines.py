"""What the lines round a table say of gaps, and of which positions they say it."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from functools import cached_property

from aimcalc.named import regex
from aimcalc.scene.hanglist.places.gapwords import Said, rule_of
from aimcalc.scene.hanglist.places.origins import Ways
from aimcalc.scene.hanglist.places.steps import onward
from aimcalc.scene.hanglist.tongues.tongues import in_english

# The parts of a line, each with the positions that it names and speaks of alone.
Parts = Callable[[str], Sequence[tuple[Sequence[str], str]]]


class Spoken:
    """The lines round a table, as far as they speak of gaps."""

    def __init__(self, lines: Sequence[str], ways: Ways, parts: Parts) -> None:
        self.lines, self.ways, self._parts_of = lines, ways, parts

    @cached_property
    def toward(self) -> str:
        """The side that units follow the first one towards, as a line round the table says."""
        return next((said.toward for _, _, said in self._spoken if said.toward), "")

    @cached_property
    def _spoken(self) -> list[tuple[Sequence[str], str, Said]]:
        """What the lines round the table say of gaps, with the positions that they name and their words."""
        found: list[tuple[Sequence[str], str, Said]] = []
        for words in self.lines:
            said = self._rule(words)
            if said == Said():
                continue
            parts = self._parts_of(words)
            if len(parts) > 1 and any(names for names, _ in parts):
                found += [(names, text, self._rule(text)) for names, text in parts]
            else:
                found.append((parts[0][0] if parts else (), words, said))
        return found

    def _rule(self, words: str) -> Said:
        english = in_english(words, line=True)
        of_one = onward(english) is not None and "every" not in english  # the cell of one unit
        return Said() if of_one else rule_of(english, self.ways)

    @cached_property
    def every(self) -> str:
        """The one distance from unit to unit that the lines round the table say; "" where they say
        several."""
        every = {said.every for _, _, said in self._spoken if said.every}
        return every.pop() if len(every) == 1 else ""

    def rule(self, position: str) -> Said:
        """What a line says that tells where each unit of a position hangs; one that has words of the names
        of some positions speaks of those."""
        found = self._of(position)
        whole = [said for said in found if said.places_all()]
        return whole[0] if len(set(whole)) == 1 else Said()

    def rest(self, position: str) -> Said:
        """What a line says of how far apart the units of a position are, whose first one has its place."""
        found = {said for said in self._of(position) if said.every}
        return found.pop() if len(found) == 1 else Said()

    def places_first(self, position: str) -> bool:
        """Whether a line says where the first or the last unit of a position hangs."""
        return any(said.first or said.last for said in self._of(position))

    def unheard(self, position: str) -> str:
        """The words of a line that says where the first unit of a position hangs, which `rule` has not found;
        "" where none does."""
        if self.rule(position).places_all():
            return ""
        for names, text, said in self._spoken:
            placed = said.first and (said.every or said.last or said.toward)
            starts = _STARTS.search(text[:LONGEST_LINE].casefold()) is not None
            placed = placed or (said.every if starts else "")
            if placed and self._is_of(names, text, position):
                return text
        return ""

    def _of(self, position: str) -> list[Said]:
        own = [said for names, _, said in self._spoken if position in names]
        return own or [
            said for names, text, said in self._spoken if self._is_of(names, text, position)
        ]

    def _is_of(self, names: Sequence[str], text: str, position: str) -> bool:
        return position in names if names else self._speaks_of(text, position)

    def _speaks_of(self, line: str, position: str) -> bool:
        """Whether a line names a position as nearly as any other, or none; "all bars" are more than the one
        that is called so."""
        names = tuple(self.ways.around.places)
        found = _ALL_BARS.search(line.casefold())
        if found and sum(found[1] in name.casefold() for name in names) < FEWEST_OF_A_WORD:
            if _NO_BAR.search(position.casefold()):
                return False
            line = _ALL_BARS.sub(" ", line.casefold())
        many = {name: _named(name, line) for name in names}
        return many.get(position, 0) == max(many.values(), default=0) or min(many.values()) > 0


def _named(name: str, line: str) -> int:
    """How many words of the name of a position a line has, a number only behind the word before it."""
    text, before, many = line.casefold(), "", 0
    for word in re.findall(r"\d+[^\W\d_]+|[^\W\d_]+|\d+", name.casefold()):  # "2E" is one
        plain = word.rstrip("s")
        pattern = rf"{before}\W*{word}\b(?![.,]?\d)" if word.isdecimal() else rf"{plain}s?\b"
        if word not in _NO_NAMES and (before or not word.isdecimal()):
            many += re.search(rf"\b{pattern}", text) is not None
        before = plain
    return many


FEWEST_OF_A_WORD = 2  # positions that several of a word are
_ALL_BARS = regex(r"\b(?:all|every)\s+(?:(?:of|the|our)\s+){0,2}(bar|pipe|batten|barrel)s?\b")
_NO_BAR = regex(r"truss|boom|tower|ladder|stand|rail|bridge|gantry|galler|perch|floor")
LONGEST_LINE = 300  # characters of a line that is searched for where the first unit hangs
# A line that says where the first unit hangs, in whatever words: "start 16' L of center, every 4' to the R".
_STARTS = regex(
    r"\b(?:(?:first|1st)\s(?:unit|lamp|lantern|light|one)|start(?:s|ing)?|begin(?:s|ning)?)\b[^\d.;]{0,20}\d[\d.,]{0,6}\s?(?:'|ft\b|feet\b|c?m\b)"
    r"|(?:\b(?:unit|lamp|lantern)\s?|#\s?)1\b[^\d.;]{1,12}\d[\d.,]{0,6}\s?(?:'|ft\b|feet\b|c?m\b)"
)
_SIDE_WORDS = "sl sr us ds ps op left right stage house the of end side centre center"
_NO_NAMES = frozenset(_SIDE_WORDS.split())
