"""Names that a reader takes for one another, on paper or aloud: they differ, the things do too."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from unicodedata import normalize

from aimcalc.rig.answers import Finding
from aimcalc.rig.findings.telling import STOP, WARN, hung
from aimcalc.rig.solve import Rig
from aimcalc.rig.wording import listed

MOST_TOLD = 3  # pairs of one sort of thing
# Greek and Cyrillic letters that look as these Latin ones do in the typeface of the sheets.
_LATIN = str.maketrans(
    "ΑΒΕΖΗΙΚΜΝΟΡΤΥΧοАВЕЅІЈКМНОРСТХаеорсухѕіј",
    "ABEZHIKMNOPTYXoABESIJKMHOPCTXaeopcyxsij",
)


def look_alike(rig: Rig) -> Iterator[Finding]:
    """Stops for names that print the same, warns of those that differ only in case, spaces or zeros."""
    scene = rig.scene
    yield from _among("positions", scene.positions)
    yield from _among("targets", (target.name for target in scene.targets))
    yield from _among("kinds", scene.kinds)
    yield from _among("scenery", (solid.name for solid in scene.solids))
    yield from _among("seats", (block.name for block in scene.seats))
    for sort in ("system", "channel", "circuit", "colour"):
        names = (getattr(unit, sort) for unit in rig.units)
        yield from _among(f"{sort}s", dict.fromkeys(filter(None, names)))
    for position, rows in hung(rig):
        numbers = dict.fromkeys(rig.units[k].number for k in rows)
        yield from _among("unit numbers", numbers, position.name)


def one_key(rig: Rig) -> Iterator[Finding]:
    """Stops for units of two positions that are called the same: "a" unit "b/1", "a/b" unit "1"."""
    units = {
        (unit.position, unit.number): name for unit, name in zip(rig.units, rig.names, strict=True)
    }
    again = [name for name, times in Counter(units.values()).items() if times > 1]
    for name in again:
        pairs = [pair for pair, called in units.items() if called == name]
        told = listed(f'unit "{number}" of "{position}"' for position, number in pairs)
        says = f'Both are called "{name}": {told}.'
        do = "Give one of the positions another name, without the /."
        yield Finding(STOP, "names-alike", says, do, position=pairs[0][0])


def _among(what: str, names: Iterable[str], position: str | None = None) -> Iterator[Finding]:
    every = list(names)
    same, near = _groups(every, _on_paper), _groups(every, _aloud)
    if same:
        says = f"These {what} differ, but print the same: {_told(same)}."
        do = "Rename one of each, with the letters of one alphabet and single spaces."
        yield Finding(STOP, "names-alike", says, do, position=position)
    near = [group for group in near if group not in same]
    if near:
        says = f"These {what} are easily taken for one another: {_told(near)}."
        do = "Write them alike if they are one thing, or rename one of each."
        yield Finding(WARN, "names-alike", says, do, position=position)


def _groups(names: list[str], plain: Callable[[str], str]) -> list[list[str]]:
    """Names that are one once they are made plain."""
    groups: dict[str, list[str]] = {}
    for name in names:
        groups.setdefault(plain(name), []).append(name)
    return [group for group in groups.values() if len(group) > 1]


def _told(groups: list[list[str]]) -> str:
    shown = "; ".join(listed(f'"{name}"' for name in group) for group in groups[:MOST_TOLD])
    more = len(groups) - MOST_TOLD
    return f"{shown}; and {more} more" if more > 0 else shown


def _on_paper(name: str) -> str:
    """A name as the sheets print it: accents in one letter, single spaces, letters by their looks."""
    return " ".join(normalize("NFC", name).split()).translate(_LATIN)


def _aloud(name: str) -> str:
    """A name as it is called out: no case or spaces, no dash but between figures, no leading zeros."""
    letters = re.sub(r"[\s_‐‑–—-]+", "-", _on_paper(name).casefold())
    letters = re.sub(r"(?<!\d)-|-(?!\d)", "", letters)
    return re.sub(r"(?<![\d.])0+(?=\d)", "", letters)
