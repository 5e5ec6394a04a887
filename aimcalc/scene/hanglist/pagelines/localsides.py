"""Columns a side that are headed by what lies there, "Street" and "Yard", where a line of the page says which
of them is stage left: "Street = SL"."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.columns.headings import meaning
from aimcalc.scene.hanglist.places.ends import sides_plain
from aimcalc.scene.hanglist.rows.listrow import blank, text_of

LONGEST = 300  # characters of a line that is looked through
_OTHER = {"SL": "SR", "SR": "SL"}
_KEYS = frozenset(("position", "number", "kind", "target", "channel", "circuit", "colour", "note"))
_HEADING = regex(
    r"\W*(?P<before>(?:(?:dist(?:ance)?|dim(?:ension)?|offset|m|cm|mm|ft|feet|metres?|meters?|from|off|of|to|towards?|the"
    r"|cl|c/l|cent(?:re|er)(?:[\s-]?line)?)\b[\s.,:/–-]{0,3}){0,6})"
    r"(?P<name>[^\W\d_]{3,15}(?:\s(?!side\b|cm\b|mm\b|ft\b|feet\b)[^\W\d_]{3,15})?)"
    r"(?P<after>(?:\s+side)?[\s(\[]*(?:(?:in\s)?(?:m|cm|mm|ft|feet|metres?|meters?)\b\.?|['’])?)\W*"
)
_IS = r"\s*(?:=|:|->|→|\(|,?\s\b(?:is|are|means|lies)\b)\s*(?:(?:on|to|at|the|our)\s+){0,3}"
_NAMED = regex(
    rf"(?P<name>[^\W\d_]{{3,15}}(?:\s[^\W\d_]{{3,15}})?)(?:\s+side)?{_IS}(?P<side>sl|sr)\b"
)
_NAMED_BEHIND = regex(
    rf"\b(?P<side>sl|sr)(?:\s+side)?{_IS}(?P<name>[^\W\d_]{{3,15}}(?:\s[^\W\d_]{{3,15}})?)"
)
_FIGURES = regex(
    r"\W*(?:h\W*)?\d.*|\W*(?:c|cl|c/l|on\s.*|centro|mitte|milieu|cent(?:re|er).*)\W*", re.IGNORECASE
)


class LocalSides(NamedTuple):
    """Headings with their sides in place of the names of what lies there, by column, and the rows that say
    so."""

    headings: Mapping[int, str]
    rows: tuple[int, ...] = ()


class _Head(NamedTuple):
    frame: tuple[str, str]  # what stands before and behind the name
    name: str


def local_sides(
    headings: Sequence[Any], lines: Mapping[int, Sequence[Any]], below: Sequence[Sequence[Any]]
) -> LocalSides:
    """Two columns of figures of which no row fills both, headed alike but for a name, as the sides that lines
    say these are: one said is enough. None where lines contradict each other."""
    heads = {k: found for k, text in enumerate(headings) if (found := _head_of(text)) is not None}
    told: dict[str, set[str]] = {}
    rows: list[int] = []
    names = {head.name for head in heads.values()}
    for number, row in lines.items():
        if sides := {(n, side) for n, side in _said(row) if n in names}:
            rows.append(number)
            for name, side in sides:
                told.setdefault(name, set()).add(side)
    pairs = [
        (one, other)
        for one in heads
        for other in heads
        if one < other
        and heads[one].frame == heads[other].frame
        and {heads[one].name, heads[other].name} & told.keys()
        and _are_sides(one, other, below)
    ]
    if len(pairs) != 1:
        return LocalSides({})
    ((one, other),) = pairs
    first = told.get(heads[one].name, set()) | {
        _OTHER[side] for side in told.get(heads[other].name, ())
    }
    if len(first) != 1:
        return LocalSides({})
    side = first.pop()
    said = {one: side, other: _OTHER[side]}
    return LocalSides({k: f"{s} {heads[k].frame[1]}".strip() for k, s in said.items()}, tuple(rows))


def _head_of(text: Any) -> _Head | None:
    """The parts of a heading that may name a side after what lies there; None of one that is known."""
    found = (
        _HEADING.fullmatch(text.casefold()) if isinstance(text, str) and len(text) < 60 else None
    )
    if found is None or _KEYS & set(meaning(found["name"]).keys):
        return None
    unit = found["after"].replace("side", "").strip(" ([")
    unit = unit or next((w for w in found["before"].split() if w in ("m", "cm", "mm", "ft")), "")
    return _Head((found["before"].strip(), f"({unit})" if unit else ""), found["name"])


def _said(row: Sequence[Any]) -> Iterable[tuple[str, str]]:
    """The names that a line says are on a side, and their sides: of two words the last one too."""
    for cell in row:
        if not isinstance(cell, str) or len(cell) > LONGEST:
            continue
        plain = sides_plain(cell.casefold())
        for pattern in (_NAMED, _NAMED_BEHIND):
            for found in pattern.finditer(plain):
                name = found["name"].removesuffix(" side")
                words = (name, name.split()[-1 if pattern is _NAMED else 0])
                yield from ((word, found["side"].upper()) for word in words)


def _are_sides(one: int, other: int, below: Sequence[Sequence[Any]]) -> bool:
    """Whether two columns hold figures or the centre, each some, and no row has both."""
    cells = [
        tuple(text_of(row[k]) if k < len(row) and not blank(row[k]) else "" for k in (one, other))
        for row in below
    ]
    if any(a and b for a, b in cells) or not all(any(pair[k] for pair in cells) for k in (0, 1)):
        return False
    return all(_FIGURES.fullmatch(text) for pair in cells for text in pair if text)
