"""Heights of the units of a boom whose rows say a number alone, by a line that tells where its rungs are:
"rung 1 is 1'6 off the deck, then every 2'6", "1 = 1'6, 2 = 4', 3 = 6'6"."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from aimcalc.named import regex
from aimcalc.scene.hanglist.places.along import Along
from aimcalc.scene.hanglist.places.placewords import read_place
from aimcalc.scene.mistakes import Wrong

LONGEST_LINE = 200  # characters of a line that says it
_DO = "Write the heights of its units above the deck in a column at."


def heights_said(
    lines: Iterable[str], numbers: Sequence[int], reach: tuple[float, float], unit: str
) -> list[float] | None:
    """The heights of units by their numbers, metres, as a line says them; None where none speaks of them.

    Raises:
        Wrong: when a line speaks of them and does not tell them all, or two do not agree.
    """
    plain = (" ".join(line.casefold().replace("’", "'").split()) for line in lines)
    short = [(line, _of_heights(line)) for line in plain if len(line) <= LONGEST_LINE]
    of_rungs = [(line, heights) for line, heights in short if _OF_RUNGS.search(heights)]
    if not of_rungs:
        return None
    found = [heights for _, line in of_rungs if (heights := _told(line, numbers, unit))]
    low, high = reach
    if len(found) == 1 and all(low < height <= high for height in found[0]):
        return found[0]
    raise Wrong("a height for each unit of the boom", _DO, came=of_rungs[0][0][:80])


def _of_heights(line: str) -> str:
    """A line without the numbers of its booms, and without lengths that are no heights of rungs: where booms
    stand, "boom 1 is 4 ft US", and how tall they are."""
    return _NO_HEIGHT.sub(" ", _NUMBERED_BOOM.sub(r"\1", line))


def _told(line: str, numbers: Sequence[int], unit: str) -> list[float]:
    """The heights that one line tells; none where it does not tell all."""
    if _DOWN.search(line):
        return []
    each = {int(one[1]): one[2] for one in _EACH.finditer(line)}
    if len(each) > 1:
        return [_metres(each[n], unit) for n in numbers] if each.keys() >= set(numbers) else []
    first, every = _FIRST.search(line), _EVERY.search(line)
    if first is None and _FROM_BELOW.search(line):
        first = _LOWEST.search(line)
    if first is None or every is None or min(numbers) < 1:
        return []
    begin, step = (_metres(next(filter(None, one.groups())), unit) for one in (first, every))
    return [begin + step * (n - 1) for n in numbers]


def _metres(length: str, unit: str) -> float:
    return read_place(length.strip(" ,."), Along(unit, "any", True), unit).metres


_LENGTH = (
    r"(\d[\d.]{0,5}\s?(?:(?:'|ft\b|feet\b)\s?-?\s?(?:\d[\d./]{0,5}\s?(?:\"|ins?\b)?)?"
    r"|\"|ins?\b|mm?\b|cm\b)?)"
)
_RUNG = r"(?:rung|arm|unit|lamp|lantern|number|no\.?|position|pos\.?|#)"
_DECK = r"(?:the\s)?(?:deck|floor|ground|stage|base|bottom)"
_NUMBERED_BOOM = regex(  # "boom 2: 1 at 2 ft", "booms 1 at 2 ft" are of the units
    r"\b((?:boom|tower|ladder)(s)?)\s(?:(?:sl|sr|ds|us|no\.?|number|#)\s?){0,3}\d{1,2}"
    r"(?=\s?(?:(?:are|and|to)\b|[&,])|(?(2)(?!)|\s?(?:(?:is|at)\b|=)))"
)
_NO_HEIGHT = regex(
    rf"{_LENGTH}\s?(?:(?:us|ds|sl|sr|(?:up|down|on|off)-?stage|tall|long|wide|deep)\b"
    r"|(?:off|from|of)\s(?:the\s)?(?:legs?|cl|c/l|cent(?:re|er)|plaster|pros|tabs?|wings?|walls?|edge|[su][lrs]|ds|stage\s(?:left|right))\b)"
)
# A line that speaks of where the rungs of a boom are, or of which end their numbers begin at.
_OF_RUNGS = regex(
    r"\b(?:rungs?|(?:boom|side|t-)\s?arms?)\b.{0,80}\d\s?(?:'|\"|ft\b|ins?\b|mm?\b|cm\b)"
    r"|\d\s?(?:'|\"|ft\b|ins?\b|mm?\b|cm\b).{0,80}\brungs?\b"
    r"|\bbooms?\b.{0,40}\b(?:1(?!\.\d)|one|first|bottom|lowest)\b.{0,20}\d\s?(?:'|\"|ft\b|ins?\b|mm?\b|cm\b)"
    rf"|\b(?:{_RUNG}\s?)(?:1|one)\s(?:is\s|=\s?|at\s)(?:the\s|at\s){{0,2}}(?:bottom|lowest|low|floor|deck)\b"
)
_EACH = regex(rf"\b(?:{_RUNG}\s?)?(\d{{1,2}})\s?(?:=|is|at|:)\s?(?:at\s)?{_LENGTH}")
_FIRST = regex(
    rf"\b(?:(?:{_RUNG}\s?)?(?:1|one)\s?(?:=|is|at|:)|(?:first|1st)(?:\s{_RUNG})?(?:\s(?:is|at))?:?"
    rf"|starts?(?:\sat)?)\s?(?:at\s)?{_LENGTH}"
)
_LOWEST = regex(
    rf"\b(?:bottom|lowest)(?:\s(?:rung|arm|one|unit))?\s?(?:=|is\s|at\s|:)?\s?(?:at\s)?{_LENGTH}"
)
_EVERY = regex(
    rf"\bevery\s{_LENGTH}|{_LENGTH}\s?(?:apart|spac\w{{1,4}}|between|c/c|cent\w{{1,4}}|intervals|pitch|up\b)"
    rf"|\b(?:up|then)\s(?:(?:in|by|at)\s)?{_LENGTH}"
)
_FROM_BELOW = regex(
    rf"\b(?:number\w*|count\w*)\s(?:up\b|(?:up\s)?from\s{_DECK}\b)"
    rf"|\b(?:1|one)\s?(?:=|is|at)\s(?:at\s)?(?:the\s)?(?:bottom|lowest)\b"
)
_DOWN = regex(r"\b(?:top|down|downwards?|grid)\b")
