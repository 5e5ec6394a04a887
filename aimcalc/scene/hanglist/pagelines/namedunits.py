"""The unit of length that stands right behind or before the name of a position, and no measure: "LX 1 m, LX 2
ft", "Place (m, LX 2 in feet)", "m on LX 1, ft on LX 2"."""

from __future__ import annotations

import re
from collections.abc import Callable

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.columns.tradewords import LENGTHS

LONGEST = 200  # characters of a heading or a line
_PLAIN = "|".join(sorted((w for w in LENGTHS if w.isalpha() and w != "in"), key=len, reverse=True))
_UNIT = regex(rf"(?<![^\W\d_])(?:{_PLAIN})(?![^\W\d_])", re.IGNORECASE)
_LEAD = r"(?P<lead>[^\W\d_][^()\[\]:=;]{0,38}?)"
_BEHIND = regex(
    rf"\W*{_LEAD}(?:\s*[:=]\s*|\s+)(?:(?:is|are|all|in|decimal)\s+){{0,3}}(?P<unit>{_PLAIN})\W*",
    re.IGNORECASE,
)
_BEFORE = regex(rf"\W*(?P<unit>{_PLAIN})\s+(?:on|for)\s+(?:the\s+)?{_LEAD}\W*", re.IGNORECASE)
_MARKS = regex(r"[()\[\],;/|]|(?<=[^\W\d_]{2}):\s|\s[-–—]\s")
_AND = regex(r"\s(?:and|but)\s", re.IGNORECASE)
_ALL_BOOMS = regex(r"(?:all\s+|the\s+)*(?:booms|towers|ladders|boom)", re.IGNORECASE)
_EMPTY = regex(r"[(\[][\s,;/|]{0,20}[)\]]")
_EDGES = regex(r"(?<=[(\[])[\s,;/|]{1,20}|[\s,;/|]{1,20}(?=[)\]])")
_REST = regex(
    r"\b(?:the\s+)?(?:rest|others?|elsewhere|everything\s+else|everywhere\s+else)\b(?:\s*[:=]|\s+(?:is|are|in)\b)?\s*",
    re.IGNORECASE,
)

Named = Callable[[str], tuple[str, ...]]  # the positions that words mean


class NamedUnits(NamedTuple):
    """A heading without the units of positions that it names, and the unit of each of these; "" of two."""

    rest: str
    units: dict[str, str]


def units_out(heading: str, named: Named) -> NamedUnits:
    """A heading without the units that it says of positions by their names; as it is where it says nothing
    else and names one alone, which may be what stands below it."""
    units: dict[str, set[str]] = {}
    cut = []
    if len(heading) <= LONGEST and _UNIT.search(heading):
        for start, end in _pieces(heading):
            found = _of_names(heading[start:end], named)
            if found is None or _ALL_BOOMS.fullmatch(found[1].strip()):
                continue
            cut.append((start, end))
            for name in found[0]:
                units.setdefault(name, set()).add(found[2])
    rest = heading
    for start, end in reversed(cut):
        rest = rest[:start] + rest[end:]
    rest = _EDGES.sub("", _EMPTY.sub(" ", _EDGES.sub("", rest))).strip(" ,;:/|–-")
    bare = not re.search(r"\w", rest)
    if not cut or (bare and len(cut) == 1):
        return NamedUnits(heading, {})
    rest = "Place" if bare else _REST.sub("", rest)
    return NamedUnits(
        rest, {name: next(iter(each)) if len(each) == 1 else "" for name, each in units.items()}
    )


def says_unit(text: str) -> bool:
    """Whether a text has a word for a unit of length."""
    return _UNIT.search(text) is not None


def spelled(piece: str, named: Named) -> str:
    """A piece of a line that is a position and a unit, in words: "LX 2 in ft"; others as they are."""
    found = _of_names(piece, named) if len(piece) <= LONGEST else None
    return piece if found is None else f"{found[1].strip()} in {found[2]}"


def _of_names(piece: str, named: Named) -> tuple[tuple[str, ...], str, str] | None:
    """The positions that a piece says a unit of, how it calls them, and the unit; None of any other."""
    found = _BEHIND.fullmatch(piece) or _BEFORE.fullmatch(piece)
    if found is None or _UNIT.search(found["lead"]):
        return None
    names = named(found["lead"].strip())
    numbers = set(re.findall(r"\d+", " ".join(names)))
    if not names or not set(re.findall(r"\d+", found["lead"])) <= numbers:
        return None  # "LX 1 6 m"
    return names, found["lead"], LENGTHS[found["unit"].casefold()]


def _pieces(heading: str) -> list[tuple[int, int]]:
    """Where the pieces of a heading begin and end, between its marks; one of two units is two."""
    found = []
    for start, end in _between(_MARKS, heading, 0, len(heading)):
        joined = len(_UNIT.findall(heading[start:end])) > 1
        found += _between(_AND, heading, start, end) if joined else [(start, end)]
    return found


def _between(mark: re.Pattern[str], text: str, start: int, end: int) -> list[tuple[int, int]]:
    marks = [(found.start(), found.end()) for found in mark.finditer(text, start, end)]
    starts, ends = [start, *(b for _, b in marks)], [*(a for a, _ in marks), end]
    return list(zip(starts, ends, strict=True))
